#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "model/ground/ground_margin.hpp"
#include "model/soil/suction.hpp"

using namespace gley::model;

namespace {

/// Rows of config/soils.toml: Saxton and Rawls (2006) for wilting point, saturation and exponent.
struct ClassSoil {
  std::string name;
  Horizon soil;
  double clay_pct;
};

const std::vector<ClassSoil> soils{{"sandy loam", {0.097, 0.267, 0.458, 5.48, 0.0}, 12.0},
                                   {"sandy silt loam", {0.097, 0.297, 0.479, 3.89, 0.0}, 12.0},
                                   {"silt loam", {0.097, 0.327, 0.501, 3.22, 0.0}, 12.0},
                                   {"clay loam", {0.172, 0.352, 0.474, 6.33, 0.0}, 26.0},
                                   {"silty clay", {0.253, 0.423, 0.522, 8.38, 0.0}, 42.0},
                                   {"clay", {0.287, 0.457, 0.503, 10.53, 0.0}, 48.0}};

const ClassSoil& soil_named(const std::string& name) {
  for (const ClassSoil& soil : soils)
    if (soil.name == name) return soil;
  throw std::invalid_argument(name);
}

double theta_at(const ClassSoil& soil, double deficit_mm) {
  return soil.soil.field_capacity - deficit_mm / 300.0;
}

/// The same water content in topsoil and subsoil, of one soil.
GroundState<double> even_ground(const ClassSoil& soil, double theta) {
  GroundState<double> ground;
  ground.suction_topsoil_kpa = suction_kpa(soil.soil, theta);
  ground.suction_subsoil_kpa = ground.suction_topsoil_kpa;
  ground.subsoil_saturation = theta / soil.soil.saturation;
  ground.subsoil_saturation_at_capacity = soil.soil.field_capacity / soil.soil.saturation;
  ground.topsoil_deficit_mm = 300.0 * (soil.soil.field_capacity - theta);
  ground.clay_pct = soil.clay_pct;
  return ground;
}

double theta_of_suction(const ClassSoil& soil, double suction) {
  return soil.soil.field_capacity * std::pow(10.0 / suction, 1.0 / soil.soil.retention_b);
}

/// The printed values come from soils of more decimals than their table prints: up to 0.5 %.
double tolerance(double printed, double printed_to) {
  return printed_to / 2.0 + 0.005 * printed;
}

}  // namespace

TEST_CASE("suction rises with deficit as Saxton and Rawls's exponents (2006) give from 10 kPa") {
  struct Row {
    std::string soil;
    std::vector<double> printed_kpa;
    double deficit_for_20_kpa_mm;
  };
  const std::vector<double> deficits_mm{-5.0, 0.0, 3.0, 5.0, 10.0, 15.0, 20.0};
  const std::vector<Row> rows{{"sandy loam", {9.1, 10.0, 12.3, 14.3, 20.8, 31.3, 48.5}, 9.5},
                              {"sandy silt loam", {9.1, 10.0, 11.4, 12.5, 15.9, 20.5, 26.9}, 14.5},
                              {"silt loam", {9.0, 10.0, 11.1, 11.8, 14.1, 17.1, 20.8}, 19.0},
                              {"clay loam", {8.6, 10.0, 12.0, 13.6, 18.8, 26.3, 37.7}, 11.0},
                              {"silty clay", {8.3, 10.0, 12.2, 14.0, 19.9, 28.7, 42.0}, 10.1},
                              {"clay", {6.3, 10.0, 12.6, 14.8, 22.2, 33.9, 52.6}, 8.7}};
  for (const Row& row : rows) {
    const ClassSoil& soil = soil_named(row.soil);
    for (std::size_t i = 0; i < deficits_mm.size(); ++i) {
      INFO(row.soil << ", " << deficits_mm[i] << " mm in 300 mm, printed to 0.1 kPa");
      const double got = suction_kpa(soil.soil, theta_at(soil, deficits_mm[i]));
      CHECK(std::fabs(got - row.printed_kpa[i]) <= tolerance(row.printed_kpa[i], 0.1));
    }
    INFO(row.soil << ", deficit for 20 kPa, printed to 0.1 mm");
    const double got = suction_kpa(soil.soil, theta_at(soil, row.deficit_for_20_kpa_mm));
    CHECK(std::fabs(got - 20.0) <= tolerance(20.0, 0.1));
  }
}

TEST_CASE("bearing limit follows suction stress in the form of Schjønning et al. (2023)") {
  struct Row {
    std::string soil;
    std::vector<double> printed_kpa;
  };
  const std::vector<double> suctions_kpa{10.0, 20.0, 30.0, 60.0, 100.0};
  const std::vector<Row> rows{{"clay loam", {50, 56, 61, 76, 94}},
                              {"sandy loam", {50, 54, 58, 69, 82}},
                              {"clay", {50, 58, 65, 87, 114}}};
  const GroundLimits limits;
  for (const Row& row : rows) {
    const ClassSoil& soil = soil_named(row.soil);
    for (std::size_t i = 0; i < suctions_kpa.size(); ++i) {
      INFO(row.soil << " at " << suctions_kpa[i] << " kPa, printed to 1 kPa");
      const double theta = theta_of_suction(soil, suctions_kpa[i]);
      const double got = bearing_limit_kpa(even_ground(soil, theta), limits);
      CHECK(std::fabs(got - row.printed_kpa[i]) <= tolerance(0.0, 1.0));
    }
  }
}

TEST_CASE("three machines on four soils: stress after Söhne (1953), mass by the Swiss rule") {
  const GroundLimits limits;
  const MachineLoad sprayer{.heaviest_wheel = {1.3, 0.8}, .mass_t = 4.5};
  const MachineLoad tractor{.heaviest_wheel = {2.6, 1.0}, .mass_t = 8.0};
  const MachineLoad tanker{.heaviest_wheel = {4.0, 1.5}, .mass_t = 16.0};
  struct Row {
    std::string soil;
    double deficit_mm, suction_kpa, limit_kpa, sprayer, tractor, tanker;
  };
  const std::vector<Row> rows{{"clay loam", 5.0, 13.6, 52.2, 0.59, 0.97, 2.25},
                              {"clay loam", 12.0, 21.4, 56.7, 0.55, 0.89, 1.43},
                              {"sandy loam", 12.0, 24.4, 56.2, 0.55, 0.90, 1.37},
                              {"clay loam", 30.0, 82.7, 86.6, 0.31, 0.50, 0.76}};
  for (const Row& row : rows) {
    INFO(row.soil << " " << row.deficit_mm << " mm below field capacity in both layers");
    const ClassSoil& soil = soil_named(row.soil);
    const GroundState<double> ground = even_ground(soil, theta_at(soil, row.deficit_mm));
    const GroundStrength<double> strength = ground_strength(ground, limits);
    CHECK(std::fabs(ground.suction_subsoil_kpa - row.suction_kpa) <=
          tolerance(row.suction_kpa, 0.1));
    CHECK(std::fabs(strength.bears_kpa - row.limit_kpa) <= tolerance(row.limit_kpa, 0.1));
    const auto worst = [&](const MachineLoad& machine) {
      return worst_ratio(machine_stress(machine, limits), strength, limits);
    };
    CHECK(std::fabs(worst(sprayer) - row.sprayer) <= tolerance(row.sprayer, 0.01));
    CHECK(std::fabs(worst(tractor) - row.tractor) <= tolerance(row.tractor, 0.01));
    CHECK(std::fabs(worst(tanker) - row.tanker) <= tolerance(row.tanker, 0.01));
  }
}
