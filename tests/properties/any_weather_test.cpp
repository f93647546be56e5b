// Whatever finite weather comes, a field's water stays within its bounds and closes.
#include <rapidcheck/catch.h>

#include <cmath>

#include "daemon/farm/field_setup.hpp"
#include "model/water/field_day.hpp"

namespace gley::model {
namespace {

using namespace std::chrono;

/// A whole number of tenths: what a station sends, and what shrinks to 0.
double tenths(int low, int high) {
  return *rc::gen::inRange(low * 10, high * 10 + 1) / 10.0;
}

std::optional<double> perhaps(double value) {
  return *rc::gen::inRange(0, 8) == 0 ? std::nullopt : std::optional(value);
}

/// Anything that a day's readings can add up to, however unlikely together: the ranges are those
/// of daemon/readings/physical_range.cpp.
DailyWeather any_weather() {
  DailyWeather weather;
  weather.rain_mm = perhaps(*rc::gen::inRange(0, 3) == 0 ? tenths(0, 2000) : tenths(0, 10));
  weather.irrigation_mm = *rc::gen::inRange(0, 8) == 0 ? tenths(0, 400) : 0.0;
  const double low_c = tenths(-60, 60);
  weather.tmin_c = perhaps(low_c);
  weather.tmax_c = perhaps(low_c + tenths(0, 40));
  if (!weather.tmin_c || !weather.tmax_c) weather.tmin_c = weather.tmax_c = std::nullopt;
  weather.rh_mean_pct = perhaps(tenths(0, 105));
  weather.wind_m_s = perhaps(tenths(0, 75));
  weather.sun_h = perhaps(tenths(0, 24));
  return weather;
}

daemon::FieldConfig any_field() {
  using rc::gen::element;
  daemon::FieldConfig field;
  field.id = "any";
  field.soil = daemon::SoilByClass{
      *element<std::string>("sand", "sandy loam", "clay loam", "silty clay", "clay")};
  field.drainage = *element(DrainageClass::free, DrainageClass::moderate, DrainageClass::slow,
                            DrainageClass::poor);
  field.crop = *element<std::string>("grass", "pasture", "winter wheat", "potatoes", "bare soil");
  field.textbook = *rc::gen::inRange(0, 5) == 0;
  return field;
}

void check_bounds(const FieldParameters& field, const FieldDay& day) {
  const FieldWater<double>& water = day.evening.water;
  for (int l = 0; l < max_layers; ++l) {
    RC_ASSERT(water.excess_mm[l] >= -field.available_mm[l] - 1e-9);
    RC_ASSERT(water.excess_mm[l] <= field.room_mm[l] + 1e-9);
  }
  RC_ASSERT(water.pond_mm >= 0.0);
  RC_ASSERT(water.pond_mm <= field.pond_limit_mm);
  RC_ASSERT(water.surface_depletion_mm >= 0.0);
  RC_ASSERT(water.surface_depletion_mm <= field.tew_mm);
  RC_ASSERT(std::isfinite(day.depletion_mm));
  RC_ASSERT(std::isfinite(day.surplus_mm));
  RC_ASSERT(std::isfinite(day.suction_topsoil_kpa));
  RC_ASSERT(std::isfinite(day.suction_subsoil_kpa));
  RC_ASSERT(day.fluxes.evaporation_mm >= -1e-12);
  RC_ASSERT(day.fluxes.transpiration_mm >= -1e-12);
  RC_ASSERT(day.fluxes.runoff_mm >= 0.0);
  RC_ASSERT(day.fluxes.drainage_mm >= -1e-12);
  RC_ASSERT(day.fluxes.pipe_drain_mm >= 0.0);
}

TEST_CASE("No finite weather takes a field's water out of its bounds, or loses any of it") {
  rc::prop("weather", [] {
    const Field field = daemon::field_of(any_field());
    StationDays whole({.latitude_deg = tenths(-65, 65), .elevation_m = tenths(-400, 3000)});
    const sys_days start = sys_days{2024y / 1 / 1} + days{*rc::gen::inRange(0, 366)};
    FieldState state;
    const int length = *rc::gen::inRange(1, 40);
    for (int n = 0; n < length; ++n) {
      const StationDay met = whole.next(start + days{n}, any_weather());
      const double before_mm = stored_mm(field.parameters, state);
      const FieldDay day = step_field(field, met, state);
      const double in_mm = day.rain_mm + day.irrigation_mm;
      const double out_mm = day.fluxes.evaporation_mm + day.fluxes.transpiration_mm +
                            day.fluxes.runoff_mm + day.fluxes.drainage_mm +
                            day.fluxes.pipe_drain_mm;
      RC_ASSERT(std::abs(in_mm - out_mm - (stored_mm(field.parameters, state) - before_mm)) < 1e-9);
      check_bounds(field.parameters, day);
    }
  });
}

}  // namespace
}  // namespace gley::model
