#pragma once

/// Water vapour in the air. Temperatures in degC, pressures in kPa, humidities in percent.
/// Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, chapter 3, equations as
/// named.
namespace gley::model {

/// Saturation vapour pressure e0(T), kPa (Eq. 11). temperature_c: -60..60, our limit.
/// Check: Example 3 (p. 36): 24.5 -> 3.075, 15.0 -> 1.705.
[[nodiscard]] double saturation_vapour_pressure_kpa(double temperature_c) noexcept;

/// Slope of the saturation vapour pressure curve, kPa/degC (Eq. 13).
/// Check: Table 2.4 (p. 216): 20 -> 0.145.
[[nodiscard]] double saturation_slope_kpa_c(double temperature_c) noexcept;

/// The extremes of a day's air temperature; tmin_c above tmax_c is the caller's error.
struct TemperatureRange {
  double tmin_c = 0.0;
  double tmax_c = 0.0;
};

/// A day's mean temperature, always from the extremes (Eq. 9).
[[nodiscard]] double mean_temperature_c(const TemperatureRange& day) noexcept;

/// Saturation vapour pressure of a day, the mean of that at the extremes (Eq. 12).
/// Check: Example 3 (p. 36): 2.39.
[[nodiscard]] double mean_saturation_vapour_pressure_kpa(const TemperatureRange& day) noexcept;

struct HumidityRange {
  double rh_min_pct = 0.0;
  double rh_max_pct = 0.0;
};

/// Actual vapour pressure from both extremes of the humidity (Eq. 17).
/// Check: Example 5 (p. 39): 18..25 degC, 54..82 % -> 1.70.
[[nodiscard]] double vapour_pressure_from_extremes_kpa(const TemperatureRange& day,
                                                       const HumidityRange& humidity) noexcept;

struct NightHumidity {
  double tmin_c = 0.0;
  double rh_max_pct = 0.0;
};

/// Actual vapour pressure from the greatest humidity alone (Eq. 18), for where the least is in
/// doubt.
[[nodiscard]] double vapour_pressure_from_rh_max_kpa(const NightHumidity& night) noexcept;

/// Actual vapour pressure from the mean humidity (Eq. 19). Check: Example 5 (p. 39): 68 % -> 1.78.
[[nodiscard]] double vapour_pressure_from_rh_mean_kpa(const TemperatureRange& day,
                                                      double rh_mean_pct) noexcept;

struct AfternoonAir {
  double tmax_c = 0.0;
  double ea_kpa = 0.0;
};

/// Least relative humidity of a day, percent, as if its vapour stayed the same (Eq. 63, where e0 at
/// the dew point is ea); held to 0..100.
/// Check: none printed; by definition 100 where ea is e0(Tmax).
[[nodiscard]] double least_humidity_pct(const AfternoonAir& air) noexcept;

}  // namespace gley::model
