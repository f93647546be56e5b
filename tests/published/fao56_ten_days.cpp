#include <algorithm>

#include "model/crop/coefficients.hpp"
#include "model/crop/surface_evaporation.hpp"
#include "model/crop/water_stress.hpp"
#include "tests/published/published_check.hpp"

// The tables that run for ten days. The coefficients are the model's; the sums between them are
// written out here as in the print, so that this judges the coefficients alone.
namespace gley::published {
namespace {

using namespace gley::model;

constexpr std::size_t days = 10;

/// Example 31: a bare loam dries.
Results drying_loam(const Inputs& in) {
  Results table;
  double de_mm = in("de0_mm");
  for (std::size_t day = 0; day < days; ++day) {
    const double kr = evaporation_reduction_kr<double>({.depletion_mm = de_mm,
                                                        .readily_evaporable_mm = in("rew_mm"),
                                                        .totally_evaporable_mm = in("tew_mm")});
    const double ke = evaporation_coefficient_ke<double>(
        {.kr = kr, .kc_max = in("kc_max"), .kcb = in("kcb"), .few = in("few")});
    const double e_mm = ke * in("et0_mm");
    de_mm += e_mm / in("few");
    table["kr"].push_back(kr);
    table["ke"].push_back(ke);
    table["e"].push_back(e_mm);
    table["de_end"].push_back(de_mm);
    table["etc"].push_back((in("kcb") + ke) * in("et0_mm"));
  }
  return table;
}

double total_evaporable(const Inputs& in) {
  return total_evaporable_water_mm(
      {.field_capacity = in("th_fc"), .wilting_point = in("th_wp"), .depth_m = in("ze_m")});
}

double kc_max_on(const Inputs& in, std::size_t day) {
  return largest_coefficient_kc_max(
      {.kcb = in.list("kcb")[day],
       .climate = {.u2_m_s = in("u2_m_s"), .rh_min_pct = in("rhmin_pct"), .height_m = in("h_m")}});
}

struct SurfaceDay {
  double few, de_start_mm, kr, ke, e_mm, dpe_mm, de_end_mm, kc, etc_mm;
};

struct SurfaceBefore {
  double de_mm, fw, irrigation_mm;
};

/// A day of Example 35: early water, then evaporation (Eq. 77 and 79).
SurfaceDay surface_day(const Inputs& in, std::size_t day, const SurfaceBefore& before) {
  const auto [de_mm, fw, irrigation_mm] = before;
  SurfaceDay result{};
  const double water_mm = in.list("rain_mm")[day] + irrigation_mm / fw;
  const double tew_mm = total_evaporable(in);
  result.few = exposed_wetted_fraction_few<double>(
      {.exposed = in.list("one_minus_fc")[day], .wetted_fraction = fw});
  result.de_start_mm = std::max(de_mm - water_mm, 0.0);
  result.kr = evaporation_reduction_kr<double>({.depletion_mm = result.de_start_mm,
                                                .readily_evaporable_mm = in("rew_mm"),
                                                .totally_evaporable_mm = tew_mm});
  result.ke = evaporation_coefficient_ke<double>({.kr = result.kr,
                                                  .kc_max = kc_max_on(in, day),
                                                  .kcb = in.list("kcb")[day],
                                                  .few = result.few});
  result.e_mm = result.ke * in.list("et0_mm")[day];
  result.dpe_mm = std::max(water_mm - de_mm, 0.0);
  result.de_end_mm =
      std::clamp(de_mm - water_mm + result.e_mm / result.few + result.dpe_mm, 0.0, tew_mm);
  result.kc = in.list("kcb")[day] + result.ke;
  result.etc_mm = result.kc * in.list("et0_mm")[day];
  return result;
}

double wetted_fraction_after(const Inputs& in, std::size_t day, double before) {
  if (in.list("rain_mm")[day] >= 4.0) return 1.0;  // significant rain wets all (p. 149)
  return in.list("irrigation_mm")[day] > 0.0 ? in("fw_irrigation") : before;
}

/// Example 35: ten days by the dual coefficient.
Results dual_coefficient(const Inputs& in) {
  Results table{{"tew", {total_evaporable(in)}}, {"kc_max", {kc_max_on(in, 0)}}};
  double de_mm = in("de0_mm");
  double fw = 1.0;
  for (std::size_t day = 0; day < days; ++day) {
    fw = wetted_fraction_after(in, day, fw);
    const SurfaceDay today = surface_day(
        in, day, {.de_mm = de_mm, .fw = fw, .irrigation_mm = in.list("irrigation_mm")[day]});
    de_mm = today.de_end_mm;
    table["few"].push_back(today.few);
    table["de_start"].push_back(today.de_start_mm);
    table["kr"].push_back(today.kr);
    table["ke"].push_back(today.ke);
    table["e_few"].push_back(today.e_mm / today.few);
    table["dpe"].push_back(today.dpe_mm);
    table["de_end"].push_back(today.de_end_mm);
    table["e"].push_back(today.e_mm);
    table["kc"].push_back(today.kc);
    table["etc"].push_back(today.etc_mm);
  }
  return table;
}

/// Example 37: tomato on silt runs short of water.
Results tomato_under_stress(const Inputs& in) {
  const double taw = total_available_water_mm({.field_capacity = in("th_fc"),
                                               .wilting_point = in("th_wp"),
                                               .root_depth_mm = 1000.0 * in("zr_m")});
  RootZone<double> zone{
      .depletion_mm = in("dr0_mm"), .total_available_mm = taw, .depletion_fraction = in("p")};
  Results table{{"taw", {taw}}, {"raw", {readily_available_water_mm(zone)}}};
  for (std::size_t day = 0; day < days; ++day) {
    const double ks = stress_coefficient_ks(zone);
    const double etc_mm = ks * in("kc") * in("et0_mm");
    zone.depletion_mm += etc_mm;
    table["ks"].push_back(ks);
    table["etc_adj"].push_back(etc_mm);
    table["dr_end"].push_back(zone.depletion_mm);
  }
  return table;
}

enum class Drainage { before_et, after_et };

/// Example 38: the root zone over Example 35's ten days. It starts at RAW; day 10 is irrigated with
/// all that is missing, when it no longer matters how wide.
Results root_zone(const Inputs& in, Drainage order) {
  Results table;
  double de_mm = in("de0_mm");
  double fw = 1.0;
  double dr_mm = 0.0;
  for (std::size_t day = 0; day < days; ++day) {
    RootZone<double> zone{.depletion_mm = 0.0,
                          .total_available_mm = total_available_water_mm(
                              {.field_capacity = in("th_fc"),
                               .wilting_point = in("th_wp"),
                               .root_depth_mm = 1000.0 * in.list("zr_m")[day]}),
                          .depletion_fraction = in("p")};
    if (day == 0) dr_mm = readily_available_water_mm(zone);
    fw = wetted_fraction_after(in, day, fw);
    const double irrigation_mm = day == 9 ? dr_mm : in.list("irrigation_mm")[day];
    const SurfaceDay surface =
        surface_day(in, day, {.de_mm = de_mm, .fw = fw, .irrigation_mm = irrigation_mm});
    de_mm = surface.de_end_mm;
    const double water_mm = in.list("rain_mm")[day] + irrigation_mm;
    zone.depletion_mm = std::max(dr_mm - water_mm, 0.0);
    const double ks = stress_coefficient_ks(zone);
    const double etc_mm = (ks * in.list("kcb")[day] + surface.ke) * in.list("et0_mm")[day];
    const double et_first_mm = order == Drainage::after_et ? etc_mm : 0.0;
    const double dp_mm = std::max(water_mm - et_first_mm - dr_mm, 0.0);
    dr_mm = dr_mm - water_mm + etc_mm + dp_mm;
    table["raw"].push_back(readily_available_water_mm(zone));
    table["dr_start"].push_back(zone.depletion_mm);
    table["ks"].push_back(ks);
    table["etc"].push_back(etc_mm);
    table["dp"].push_back(dp_mm);
    table["dr_end"].push_back(dr_mm);
  }
  return table;
}

Results root_zone_as_printed(const Inputs& in) {
  return root_zone(in, Drainage::before_et);
}

Results root_zone_by_equation_88(const Inputs& in) {
  return {{"dp", root_zone(in, Drainage::after_et).at("dp")}};
}

}  // namespace

Calculations fao56_ten_days() {
  return {{"ex31", drying_loam},
          {"ex35", dual_coefficient},
          {"ex37", tomato_under_stress},
          {"ex38", root_zone_as_printed},
          {"ex38_eq88", root_zone_by_equation_88}};
}

}  // namespace gley::published
