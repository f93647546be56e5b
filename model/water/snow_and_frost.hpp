#pragma once
#include <optional>

#include "model/weather/vapour_pressure.hpp"

namespace gley::model {

/// Share of a day's precipitation that falls as snow, by its mean temperature: all at or below
/// 0 degC, none from 2 degC, linear between (usual practice).
[[nodiscard]] double snow_share(double tmean_c);

/// Most snow that could melt in a day, mm of water.
/// Source: Kuusisto (1980), Nordic Hydrol. 11:235-246: 3.51 mm/degC/day in the open (3.5 here);
/// plus the heat of the rain itself, 4.19/334 mm per mm and degree.
struct MeltWeather {
  double tmean_c = 0.0;
  double rain_mm = 0.0;
};
[[nodiscard]] double melt_potential_mm(const MeltWeather& weather);

/// Frost index after a day, degC day; above 83 the soil is taken as sealed by frost.
/// Source: Molnau and Bissell (1983), 51st Western Snow Conf., 109-119, as transcribed by others.
struct FrostDay {
  double index_before = 0.0;
  double tmean_c = 0.0;
  double snow_depth_cm = 0.0;  ///< lying at the day's start
};
[[nodiscard]] double frost_index(const FrostDay& day);

inline constexpr double frost_seals_above = 83.0;
inline constexpr double snow_density = 0.1;  ///< of lying snow against water; our choice
/// Water in the snow from which it covers the ground.
inline constexpr double snow_covers_mm = 1.0;

/// Whether the ground counts as frozen for spreading on a day of which only the extremes are known:
/// mean below -1 degC, or never over 1 degC with a night below -3 degC. Our proxy for the English
/// guidance's 'frozen for more than 12 of the last 24 hours'.
[[nodiscard]] bool counts_as_frozen(const TemperatureRange& day);

/// Snow lying on the ground and frost in it: the same for every field under one station.
struct SnowPack {
  double snow_mm = 0.0;  ///< water held
  double frost_index_c_d = 0.0;

  friend bool operator==(const SnowPack&, const SnowPack&) = default;
};

struct SnowWeather {
  double precipitation_mm = 0.0;
  double et0_mm = 0.0;
  std::optional<TemperatureRange> temperature = {};  ///< unknown: all rain, no melt, no frost
};

/// What of a day's weather reaches the ground.
struct GroundWeather {
  double water_mm = 0.0;             ///< rain and melt
  double snow_evaporation_mm = 0.0;  ///< from the snow itself
  bool covered = false;              ///< snow covers the ground: soil and crop evaporate nothing
  bool sealed = false;               ///< frost has sealed the ground against water
  bool frozen = false;               ///< counts as frozen for spreading
};

/// Takes one day of weather into the pack. Closes: precipitation = water + evaporation + change.
/// Evaporation of snow: 0.4 mm/day as measured over snow (FAO-56 p. 209), at most ET0.
GroundWeather step_snow(SnowPack& pack, const SnowWeather& weather);

}  // namespace gley::model
