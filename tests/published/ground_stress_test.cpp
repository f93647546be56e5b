#include <catch2/catch.hpp>
#include <cmath>

#include "model/ground/machine_stress.hpp"
#include "model/ground/wheel_stress.hpp"

using namespace gley::model;

namespace {

constexpr int elastic = 3;
constexpr int firm = 4;
constexpr int moist = 5;
constexpr int wet = 6;

double stress_kpa(const WheelLoad& wheel, double depth_m, int concentration) {
  return vertical_stress_kpa(contact_of(wheel), depth_m, concentration);
}

/// Depth of the 50 kPa level in moist soil, m, by halving.
double depth_of_50_kpa_m(const WheelLoad& wheel) {
  double above = 0.0;
  double below = 3.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = (above + below) / 2.0;
    (stress_kpa(wheel, middle, moist) > 50.0 ? above : below) = middle;
  }
  return above;
}

}  // namespace

TEST_CASE("stress under a circle's centre is that of Spangler's influence table (1951)") {
  struct Row {
    double depth_per_radius;
    double printed;
  };
  const Row rows[] = {{0.5, 0.911}, {1.0, 0.646}, {1.5, 0.424}, {2.0, 0.284},
                      {2.5, 0.200}, {3.0, 0.146}, {4.0, 0.087}, {5.0, 0.057}};
  for (const Row& row : rows) {
    INFO("z/a " << row.depth_per_radius << ", Spangler (1951), centre column, printed to 0.001");
    const WheelContact contact{.pressure_kpa = 1.0, .radius_m = 1.0};
    CHECK(std::fabs(vertical_stress_kpa(contact, row.depth_per_radius, elastic) - row.printed) <=
          0.0005);
  }
}

TEST_CASE("3 t at 100 kPa presses as Söhne's concentration factors 4, 5 and 6 give by hand") {
  struct Row {
    int concentration;
    double at_20_cm, at_35_cm, at_50_cm, at_70_cm;
  };
  const Row rows[] = {{firm, 91.0, 67.9, 47.1, 29.5},
                      {moist, 95.1, 75.8, 54.9, 35.4},
                      {wet, 97.3, 81.8, 61.5, 40.8}};
  const WheelLoad wheel{.load_t = 3.0, .pressure_bar = 1.0};
  for (const Row& row : rows) {
    INFO("concentration factor " << row.concentration << ", printed to 0.1 kPa");
    CHECK(std::fabs(stress_kpa(wheel, 0.20, row.concentration) - row.at_20_cm) <= 0.05);
    CHECK(std::fabs(stress_kpa(wheel, 0.35, row.concentration) - row.at_35_cm) <= 0.05);
    CHECK(std::fabs(stress_kpa(wheel, 0.50, row.concentration) - row.at_50_cm) <= 0.05);
    CHECK(std::fabs(stress_kpa(wheel, 0.70, row.concentration) - row.at_70_cm) <= 0.05);
  }
}

TEST_CASE("the 50 kPa level sinks by 8 cm a tonne and 8 cm a doubling (Schjønning et al. 2012)") {
  double per_tonne_cm = 0.0;
  for (const double load_t : {2.0, 3.0, 4.0, 5.0}) {
    const double deeper = depth_of_50_kpa_m({.load_t = load_t + 1.0, .pressure_bar = 1.0});
    per_tonne_cm += 100.0 * (deeper - depth_of_50_kpa_m({load_t, 1.0})) / 4.0;
  }
  INFO("Soil Use Manage. 28:378-393, the 8-8 rule, whole centimetres");
  CHECK(std::fabs(per_tonne_cm - 8.0) <= 0.5);
  const double doubled = depth_of_50_kpa_m({3.0, 2.0}) - depth_of_50_kpa_m({3.0, 1.0});
  CHECK(std::fabs(100.0 * doubled - 8.0) <= 0.5);
}

TEST_CASE("the 50 kPa level lies where the closed form puts it by hand, 100 kPa in moist soil") {
  struct Row {
    double load_t, depth_cm;
  };
  for (const Row& row : {Row{2.0, 44.2}, {3.0, 54.1}, {4.0, 62.5}, {6.0, 76.6}}) {
    INFO(row.load_t << " t, printed to 0.1 cm");
    CHECK(std::fabs(100.0 * depth_of_50_kpa_m({row.load_t, 1.0}) - row.depth_cm) <= 0.05);
  }
}

TEST_CASE("wheel loads that keep the 50-50 rule (Schjønning et al. 2012) at each pressure") {
  struct Row {
    double pressure_bar, load_t;
  };
  const Row rows[] = {{0.6, 5.0}, {0.8, 3.1}, {1.0, 2.6}, {1.5, 2.1}, {2.0, 2.0}};
  for (const Row& row : rows) {
    INFO(row.pressure_bar << " bar, printed to 0.1 t");
    CHECK(stress_kpa({row.load_t - 0.05, row.pressure_bar}, 0.5, moist) <= 50.0);
    CHECK(stress_kpa({row.load_t + 0.05, row.pressure_bar}, 0.5, moist) >= 50.0);
  }
}

TEST_CASE("machines need the suction of the Swiss rule's own examples (FSK 2001; SN 640 581)") {
  constexpr double bar_per_kg_cm2 = 0.980665;
  const GroundLimits limits;
  struct Row {
    double mass_t, pressure_kg_cm2, printed_kpa, tolerance_kpa;
  };
  const Row rows[] = {
      {24.0, 0.39, 12.0, 0.5},                             // printed to 1 kPa
      {24.0, 0.52, 16.0, 0.5},  {24.0, 0.39, 11.7, 0.05},  // the same by hand, to 0.1 kPa
      {24.0, 0.52, 15.6, 0.05}, {8.0, 1.0, 10.0, 0.05},
      {15.0, 1.0, 18.75, 0.05}, {22.0, 1.6, 44.0, 0.05},
  };
  for (const Row& row : rows) {
    INFO(row.mass_t << " t at " << row.pressure_kg_cm2 << " kg/cm2");
    const MassOnGround machine{row.mass_t, row.pressure_kg_cm2 * bar_per_kg_cm2};
    CHECK(std::fabs(suction_for_mass_kpa(machine, limits) - row.printed_kpa) <= row.tolerance_kpa);
  }
}

TEST_CASE("a wheel at twice its inflation presses 69.8 kPa at half a metre (Koolen et al. 1992)") {
  INFO("Soil Till. Res. 24:381, their harsher variant of 3 t at 1 bar, by hand; ours 54.9");
  CHECK(std::fabs(stress_kpa({.load_t = 3.0, .pressure_bar = 2.0}, 0.5, moist) - 69.8) <= 0.05);
}

TEST_CASE("a 6 t wheel's contact area is near the one measured at the advised inflation only") {
  INFO(
      "Danish trial: 0.67 m2 at 100 kPa, 0.47 m2 at 300 kPa, where tyres are too hard for the "
      "load");
  const auto area_m2 = [](double pressure_bar) {
    const WheelContact contact = contact_of({.load_t = 6.0, .pressure_bar = pressure_bar});
    return 3.14159265 * contact.radius_m * contact.radius_m;
  };
  CHECK(area_m2(1.0) == Approx(0.67).epsilon(0.15));
  CHECK(area_m2(3.0) < 0.47);  // so the stress is overstated, on the safe side
}

TEST_CASE("tillage waits until drier than the wet limit of Dexter and Bird (2001) for a loam") {
  // Soil Till. Res. 57:203-212; van Genuchten's curve of a loam: 0.078, 0.43, 0.036 /cm, 1.56.
  const double residual = 0.078, full = 0.43, alpha = 0.036, n = 1.56, m = 1.0 - 1.0 / n;
  const double inflection = residual + (full - residual) * std::pow(1.0 + 1.0 / m, -m);
  CHECK(std::fabs(inflection - 0.2963) <= 5e-5);
  CHECK(std::fabs(std::pow(1.0 / m, 1.0 / n) / alpha - 54.0) <= 0.5);
  const double wet_limit = inflection + 0.4 * (full - inflection);
  CHECK(std::fabs(wet_limit - 0.3498) <= 5e-5);
  const double share = (full - residual) / (wet_limit - residual);
  const double suction_cm = std::pow(std::pow(share, 1.0 / m) - 1.0, 1.0 / n) / alpha;
  constexpr double cm_per_kpa = 10.2;
  CHECK(GroundLimits{}.crumbles_from_kpa > suction_cm / cm_per_kpa);
}
