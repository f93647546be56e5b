#pragma once

/// Crop coefficients of the dual method: how a crop's basal coefficient, height, cover and roots
/// go through the season. Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56,
/// equations as named.
namespace gley::model {

/// Lengths of the four growth stages, days (FAO-56 Table 11).
struct StageLengths {
  int initial_d = 0;
  int development_d = 0;
  int mid_season_d = 0;
  int late_season_d = 0;
};

/// A coefficient at its three fixed points: initial, mid-season and at the end.
struct StageCoefficients {
  double initial = 0.0;
  double mid_season = 0.0;
  double end = 0.0;
};

struct SeasonCourse {
  StageLengths lengths;
  StageCoefficients coefficients;
};

/// Coefficient on day `day_of_season` of the growing season, 1 on its first day (Eq. 66); a part of
/// a day where the season is counted in warmth. Before the first day the initial value, after the
/// last the end value.
/// Check: Example 28 (p. 133): day 40 -> 0.77, day 95 -> 0.56; Example 30 (p. 141).
[[nodiscard]] double stage_coefficient(const SeasonCourse& course, double day_of_season) noexcept;

/// What the air and the height of a crop do to its coefficient.
struct CropClimate {
  double u2_m_s = 2.0;       ///< wind at 2 m, mean over the stage
  double rh_min_pct = 45.0;  ///< daily least humidity, mean over the stage
  double height_m = 0.0;     ///< plant height
};

/// A tabled mid-season coefficient moved to the climate (Eq. 62 and 70), within the equation's
/// limits: wind held to 1..6 m/s, RHmin to 20..80 %, height to at most 10 m; none below 0.1 m.
/// Check: Example 27 (p. 125): 1.20 -> 1.07 at Taipei, 1.30 at Mocha; Example 29 (p. 136).
[[nodiscard]] double climate_adjusted_mid(double table_kc, const CropClimate& climate) noexcept;

/// The same for the coefficient at the end of the season, which is adjusted only from 0.45 up
/// (Eq. 65 and 70): a crop left to dry or die does not answer to the air.
/// Check: Example 29 (p. 136): 0.25 stays 0.25.
[[nodiscard]] double climate_adjusted_end(double table_kc, const CropClimate& climate) noexcept;

struct WetSurface {
  double kcb = 0.0;
  CropClimate climate;
  double base = 1.2;
};

/// Largest Kc of a wet surface, Kcmax (Eq. 72), wind and humidity not held to limits. `base` is
/// 1.2, or down to 1.1 where the ground is wetted daily or every second day (p. 144).
/// Check: Example 32 (p. 150): Kcb 0.9, u2 3, RHmin 20, h 1 -> 1.30.
[[nodiscard]] double largest_coefficient_kc_max(const WetSurface& surface) noexcept;

struct CoverFromKcb {
  double kcb = 0.0;
  double kc_min = 0.15;  ///< dry bare soil with no cover; 0.15-0.20
  double kc_max = 1.2;
  double height_m = 0.0;
};

/// Fraction of the ground under vegetation, fc, 0..0.99 (Eq. 76).
/// Check: Example 32 (p. 150): Kcb 0.9, Kcmin 0.15, Kcmax 1.30, h 1 -> 0.53.
[[nodiscard]] double cover_fraction(const CoverFromKcb& crop) noexcept;

struct EvaporableSoil {
  double field_capacity = 0.0;
  double wilting_point = 0.0;
  double depth_m = 0.1;  ///< Ze, 0.10-0.15
};

/// Total evaporable water of the surface layer, TEW, mm (Eq. 73).
/// Check: Example 35 (p. 154): 0.23, 0.10, 0.10 m -> 18.
[[nodiscard]] double total_evaporable_water_mm(const EvaporableSoil& soil) noexcept;

struct RootGrowth {
  double smallest_m = 0.15;  ///< Zr at planting, 0.15-0.20 for annuals
  double largest_m = 0.15;
  double kcb_initial = 0.0;
  double kcb_mid = 0.0;
  double kcb_today = 0.0;
};

/// Depth of roots while they grow with the basal coefficient, m (Eq. 8-1); from mid-season on the
/// largest depth (Eq. 8-2), so the caller passes `kcb_today` = `kcb_mid` there.
/// Check: none printed; by hand: 0.15..1.2 m, Kcb 0.15..1.15, today 0.65 -> 0.675.
[[nodiscard]] double root_depth_m(const RootGrowth& roots) noexcept;

struct HeightGrowth {
  double largest_m = 0.0;
  double kcb_mid = 0.0;    ///< above 0
  double kcb_today = 0.0;  ///< the greatest so far, for a crop does not shrink
};

/// Height from the basal coefficient, m: Kcb / Kcb mid of the largest (Annex 8).
/// Check: none printed; by hand: Kcb 0.55 of 1.10, 1 m -> 0.5.
[[nodiscard]] double crop_height_m(const HeightGrowth& crop) noexcept;

}  // namespace gley::model
