#include "model/soil/retention.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

struct Shares {
  double sand;
  double clay;
  double organic_pct;
};

double wilting_point(const Shares& s) {
  const double first = -0.024 * s.sand + 0.487 * s.clay + 0.006 * s.organic_pct +
                       0.005 * s.sand * s.organic_pct - 0.013 * s.clay * s.organic_pct +
                       0.068 * s.sand * s.clay + 0.031;
  return first + 0.14 * first - 0.02;
}

double theta_33(const Shares& s) {
  const double first = -0.251 * s.sand + 0.195 * s.clay + 0.011 * s.organic_pct +
                       0.006 * s.sand * s.organic_pct - 0.027 * s.clay * s.organic_pct +
                       0.452 * s.sand * s.clay + 0.299;
  return first + 1.283 * first * first - 0.374 * first - 0.015;
}

double pores_above_33(const Shares& s) {
  const double first = 0.278 * s.sand + 0.034 * s.clay + 0.022 * s.organic_pct -
                       0.018 * s.sand * s.organic_pct - 0.027 * s.clay * s.organic_pct -
                       0.584 * s.sand * s.clay + 0.078;
  return first + 0.636 * first - 0.107;
}

}  // namespace

Retention retention_from_texture(const Texture& texture) {
  const Shares s{texture.sand_pct / 100.0, texture.clay_pct / 100.0, texture.organic_pct};
  Retention r;
  r.wilting_point = wilting_point(s);
  r.theta_33 = theta_33(s);
  r.saturation = r.theta_33 + pores_above_33(s) - 0.097 * s.sand + 0.043;
  r.b = natural_logarithm(1500.0 / 33.0) / natural_logarithm(r.theta_33 / r.wilting_point);
  r.saturated_conductivity_mm_h = 1930.0 * power(r.saturation - r.theta_33, 3.0 - 1.0 / r.b);
  return r;
}

double retention_b_from_contents(const WaterContents& c) {
  return natural_logarithm(1500.0 / suction_at_field_capacity_kpa) /
         natural_logarithm(c.field_capacity / c.wilting_point);
}

double conductivity_from_contents_mm_h(const WaterContents& c) {
  return 1930.0 * power(c.saturation - c.field_capacity, 3.0 - 1.0 / retention_b_from_contents(c));
}

Texture with_american_sand_limit(const Texture& british) {
  static const double share = natural_logarithm(60.0 / 50.0) / natural_logarithm(60.0 / 2.0);
  const double silt_pct = 100.0 - british.sand_pct - british.clay_pct;
  return {.sand_pct = british.sand_pct + share * silt_pct,
          .clay_pct = british.clay_pct,
          .organic_pct = british.organic_pct};
}

}  // namespace gley::model
