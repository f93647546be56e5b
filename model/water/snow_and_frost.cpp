#include "model/water/snow_and_frost.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

constexpr double snow_evaporation_mm_d = 0.4;

double snow_depth_cm(double snow_mm) {
  return snow_mm / (10.0 * snow_density);
}

}  // namespace

double snow_share(double tmean_c) {
  return held_between(0.0, (2.0 - tmean_c) / 2.0, 1.0);
}

double melt_potential_mm(const MeltWeather& weather) {
  const double warmth = greatest(0.0, weather.tmean_c);
  return 3.5 * warmth + 0.0125 * weather.rain_mm * warmth;
}

double frost_index(const FrostDay& day) {
  const double per_cm = day.tmean_c > 0.0 ? 0.5 : 0.08;
  const double shelter = exponential(-0.4 * per_cm * day.snow_depth_cm);
  return greatest(0.0, 0.97 * day.index_before - day.tmean_c * shelter);
}

bool counts_as_frozen(const TemperatureRange& day) {
  return mean_temperature_c(day) < -1.0 || (day.tmax_c <= 1.0 && day.tmin_c < -3.0);
}

GroundWeather step_snow(SnowPack& pack, const SnowWeather& weather) {
  GroundWeather ground;
  if (!weather.temperature) {
    ground.water_mm = weather.precipitation_mm;
    ground.covered = pack.snow_mm >= snow_covers_mm;
    return ground;
  }
  const double mean_c = mean_temperature_c(*weather.temperature);
  pack.frost_index_c_d = frost_index({.index_before = pack.frost_index_c_d,
                                      .tmean_c = mean_c,
                                      .snow_depth_cm = snow_depth_cm(pack.snow_mm)});
  const double snowfall_mm = weather.precipitation_mm * snow_share(mean_c);
  const double rain_mm = weather.precipitation_mm - snowfall_mm;
  pack.snow_mm += snowfall_mm;
  const double melt_mm =
      least(pack.snow_mm, melt_potential_mm({.tmean_c = mean_c, .rain_mm = rain_mm}));
  pack.snow_mm -= melt_mm;
  ground.covered = pack.snow_mm >= snow_covers_mm;
  if (ground.covered) {
    ground.snow_evaporation_mm = least(snow_evaporation_mm_d, weather.et0_mm);
    pack.snow_mm -= ground.snow_evaporation_mm;
  }
  ground.water_mm = rain_mm + melt_mm;
  ground.sealed = pack.frost_index_c_d > frost_seals_above;
  ground.frozen = counts_as_frozen(*weather.temperature);
  return ground;
}

}  // namespace gley::model
