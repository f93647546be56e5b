#include "model/crop/coefficients.hpp"
#include "model/crop/surface_evaporation.hpp"
#include "model/crop/water_stress.hpp"
#include "tests/published/published_check.hpp"

namespace gley::published {
namespace {

using namespace gley::model;

Results maize_at_two_places(const Inputs& in) {
  Series kc;
  for (std::size_t i = 0; i < in.list("u2_m_s").size(); ++i) {
    kc.push_back(climate_adjusted_mid(in("kc_tab"), {.u2_m_s = in.list("u2_m_s")[i],
                                                     .rh_min_pct = in.list("rhmin_pct")[i],
                                                     .height_m = in("h_m")}));
  }
  return {{"kc_mid", kc}};
}

CropClimate climate_of(const Inputs& in) {
  return {.u2_m_s = in("u2_m_s"), .rh_min_pct = in("rhmin_pct"), .height_m = in("h_m")};
}

Results beans_at_kimberly(const Inputs& in) {
  return {{"kc_mid", {climate_adjusted_mid(in("kc_tab"), climate_of(in))}}};
}

Results basal_beans(const Inputs& in) {
  return {{"kcb_ini", {in("kcb_ini")}},
          {"kcb_mid", {climate_adjusted_mid(in("kcb_mid"), climate_of(in))}},
          {"kcb_end", {climate_adjusted_end(in("kcb_end"), climate_of(in))}}};
}

SeasonCourse course_of(const Inputs& in) {
  const Series& days = in.list("stages_d");
  const Series& k = in.list("k");
  return {.lengths = {.initial_d = static_cast<int>(days[0]),
                      .development_d = static_cast<int>(days[1]),
                      .mid_season_d = static_cast<int>(days[2]),
                      .late_season_d = static_cast<int>(days[3])},
          .coefficients = {.initial = k[0], .mid_season = k[1], .end = k[2]}};
}

Series on_days(const Inputs& in) {
  Series k;
  for (const double day : in.list("days")) {
    k.push_back(stage_coefficient(course_of(in), static_cast<int>(day)));
  }
  return k;
}

Results coefficient_on_days(const Inputs& in) {
  return {{"kc", on_days(in)}};
}

Results basal_coefficient_on_days(const Inputs& in) {
  return {{"kcb", on_days(in)}};
}

/// Figure 36: the third ten days hold the end of the initial stage, so the print averages their
/// halves; the middle of the second half lies between days 27 and 28.
Results ten_day_means(const Inputs& in) {
  const SeasonCourse course = course_of(in);
  Series kc;
  Series etc;
  for (int decade = 0; decade < 10; ++decade) {
    double k = stage_coefficient(course, 10 * decade + 5);
    if (decade == 2) {
      const double second_half =
          (stage_coefficient(course, 27) + stage_coefficient(course, 28)) / 2;
      k = (stage_coefficient(course, 23) + second_half) / 2;
    }
    kc.push_back(k);
    etc.push_back(k * in.list("et0_mm")[static_cast<std::size_t>(decade)]);
  }
  return {{"kc", kc}, {"etc", etc}};
}

/// Examples 32 to 34: cotton under one weather, wetted in three ways.
struct Cotton {
  double kcb;
  double kc_max;
  double cover;
  double few;
  double ke;

  Cotton(const Inputs& in, double wetted_fraction)
      : kcb(in("kcb")),
        kc_max(largest_coefficient_kc_max({.kcb = kcb, .climate = climate_of(in)})),
        cover(cover_fraction({.kcb = kcb, .kc_max = kc_max, .height_m = in("h_m")})),
        few(exposed_wetted_fraction_few<double>(
            {.exposed = 1.0 - cover, .wetted_fraction = wetted_fraction})),
        ke(evaporation_coefficient_ke<double>(
            {.kr = 1.0, .kc_max = kc_max, .kcb = kcb, .few = few})) {}
};

Results cotton_sprinkled(const Inputs& in) {
  const Cotton cotton(in, in("fw"));
  return {{"kc_max", {cotton.kc_max}},
          {"fc", {cotton.cover}},
          {"few", {cotton.few}},
          {"ke", {cotton.ke}},
          {"kc", {cotton.kcb + cotton.ke}}};
}

Results wetted_in_part(const Cotton& cotton) {
  return {{"few", {cotton.few}}, {"ke", {cotton.ke}}, {"kc", {cotton.kcb + cotton.ke}}};
}

Results cotton_in_furrows(const Inputs& in) {
  return wetted_in_part(Cotton(in, in("fw")));
}

Results cotton_under_drip(const Inputs& in) {
  const double cover = Cotton(in, in("fw")).cover;
  return wetted_in_part(
      Cotton(in, shaded_drip_wetted_fraction({.cover = cover, .wetted_fraction = in("fw")})));
}

Results available_water(const Inputs& in) {
  Series taw;
  Series raw;
  for (std::size_t crop = 0; crop < in.list("zr_m").size(); ++crop) {
    for (std::size_t soil = 0; soil < in.list("th_fc").size(); ++soil) {
      const double total =
          total_available_water_mm({.field_capacity = in.list("th_fc")[soil],
                                    .wilting_point = in.list("th_wp")[soil],
                                    .root_depth_mm = 1000.0 * in.list("zr_m")[crop]});
      taw.push_back(total);
      raw.push_back(readily_available_water_mm<double>({.depletion_mm = 0.0,
                                                        .total_available_mm = total,
                                                        .depletion_fraction = in.list("p")[crop]}));
    }
  }
  return {{"taw", taw}, {"raw", raw}};
}

}  // namespace

Calculations fao56_crop() {
  return {{"ex27", maize_at_two_places}, {"box15", beans_at_kimberly},
          {"fig36", ten_day_means},      {"ex28", coefficient_on_days},
          {"ex29", basal_beans},         {"ex30", basal_coefficient_on_days},
          {"ex32", cotton_sprinkled},    {"ex33", cotton_in_furrows},
          {"ex34", cotton_under_drip},   {"ex36", available_water}};
}

}  // namespace gley::published
