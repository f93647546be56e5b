#pragma once

namespace gley::model {

/// Mass shares of the mineral soil under 2 mm, USDA sand limit (50 um), and organic matter.
struct Texture {
  double sand_pct = 0.0;
  double clay_pct = 0.0;
  double organic_pct = 0.0;
};

/// What a soil's texture says of its water.
struct Retention {
  double wilting_point = 0.0;  ///< m3/m3 at 1500 kPa
  double theta_33 = 0.0;       ///< m3/m3 at 33 kPa
  double saturation = 0.0;     ///< m3/m3
  double b = 0.0;              ///< exponent of suction = A theta^-b
  double saturated_conductivity_mm_h = 0.0;
};

/// Water retention and conductivity from texture.
/// Source: Saxton and Rawls (2006), Soil Sci. Soc. Am. J. 70:1569-1578, Table 1.
/// Range: organic matter to 8 %, clay to 60 % (from memory); not for peat.
/// Check: its Table 3, loam 40 % sand 20 % clay 2.5 % organic: 0.14, 0.28, 0.46, 15.5 mm/h.
[[nodiscard]] Retention retention_from_texture(const Texture& texture);

/// Suction that field capacity stands for (why: config/soils.toml).
inline constexpr double suction_at_field_capacity_kpa = 10.0;

/// Three points of a soil's retention curve, m3/m3.
struct WaterContents {
  double wilting_point = 0.0;
  double field_capacity = 0.0;
  double saturation = 0.0;
};

/// Saturated conductivity, mm/h, where only three water contents are known: the same paper's, with
/// the pores above field capacity for those above 33 kPa. Our use, so an order of magnitude.
[[nodiscard]] double conductivity_from_contents_mm_h(const WaterContents& contents);

/// Exponent b of the retention curve between field capacity and 1500 kPa.
[[nodiscard]] double retention_b_from_contents(const WaterContents& contents);

/// The British sand limit is 60 um, the American 50: this share of the silt (2 to 60 um) counts as
/// sand there. Log-linear between the limits; our choice, at most 4 points of sand.
[[nodiscard]] Texture with_american_sand_limit(const Texture& british);

}  // namespace gley::model
