#include "model/crop/coefficients.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {
namespace {

struct Span {
  double from = 0.0;
  double to = 0.0;
};

double along(const Span& span, double part) noexcept {
  return span.from + part * (span.to - span.from);
}

/// The second term of Eq. 62, 65, 70 and 72.
double climate_term(const CropClimate& climate) noexcept {
  return (0.04 * (climate.u2_m_s - 2.0) - 0.004 * (climate.rh_min_pct - 45.0)) *
         power(climate.height_m / 3.0, 0.3);
}

/// Eq. 70 was fitted for crops of at least 0.1 m (p. 123, 136): lower ones keep their value.
double bounded_climate_term(const CropClimate& climate) noexcept {
  if (climate.height_m < 0.1) return 0.0;
  return climate_term({.u2_m_s = held_between(1.0, climate.u2_m_s, 6.0),
                       .rh_min_pct = held_between(20.0, climate.rh_min_pct, 80.0),
                       .height_m = least(climate.height_m, 10.0)});
}

}  // namespace

double stage_coefficient(const SeasonCourse& course, double day_of_season) noexcept {
  const auto& [initial, mid_season, end] = course.coefficients;
  double day = day_of_season - course.lengths.initial_d;
  if (day <= 0) return initial;
  if (day <= course.lengths.development_d) {
    return along({.from = initial, .to = mid_season}, day / course.lengths.development_d);
  }
  day -= course.lengths.development_d + course.lengths.mid_season_d;
  if (day <= 0) return mid_season;
  if (day >= course.lengths.late_season_d) return end;
  return along({.from = mid_season, .to = end}, day / course.lengths.late_season_d);
}

double climate_adjusted_mid(double table_kc, const CropClimate& climate) noexcept {
  return table_kc + bounded_climate_term(climate);
}

double climate_adjusted_end(double table_kc, const CropClimate& climate) noexcept {
  return table_kc < 0.45 ? table_kc : table_kc + bounded_climate_term(climate);
}

double largest_coefficient_kc_max(const WetSurface& surface) noexcept {
  return greatest(surface.base + climate_term(surface.climate), surface.kcb + 0.05);
}

double cover_fraction(const CoverFromKcb& crop) noexcept {
  const double above_bare = greatest(0.01, crop.kcb - crop.kc_min);
  const double whole = crop.kc_max - crop.kc_min;
  if (above_bare >= whole) return 0.99;
  return least(0.99, power(above_bare / whole, 1.0 + 0.5 * crop.height_m));
}

double total_evaporable_water_mm(const EvaporableSoil& soil) noexcept {
  return 1000.0 * (soil.field_capacity - 0.5 * soil.wilting_point) * soil.depth_m;
}

double root_depth_m(const RootGrowth& roots) noexcept {
  const double whole = roots.kcb_mid - roots.kcb_initial;
  if (whole <= 0.0) return roots.largest_m;  // a stand without a growing stage, as grass
  const double part = held_between(0.0, (roots.kcb_today - roots.kcb_initial) / whole, 1.0);
  return along({.from = roots.smallest_m, .to = roots.largest_m}, part);
}

double crop_height_m(const HeightGrowth& crop) noexcept {
  return held_between(0.0, crop.kcb_today / crop.kcb_mid, 1.0) * crop.largest_m;
}

}  // namespace gley::model
