// Whatever finite weather comes, a field's water stays within its bounds and closes.
#include <rapidcheck/catch.h>

#include "daemon/farm/field_setup.hpp"
#include "tests/properties/field_bounds.hpp"

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

TEST_CASE("No finite weather takes a field's water out of its bounds, or loses any of it") {
  rc::prop("weather", [] {
    const Field field = daemon::field_of(any_field());
    StationDays whole({.latitude_deg = tenths(-65, 65), .elevation_m = tenths(-400, 3000)});
    const sys_days start = sys_days{2024y / 1 / 1} + days{*rc::gen::inRange(0, 366)};
    FieldState state;
    const int length = *rc::gen::inRange(1, 40);
    for (int n = 0; n < length; ++n) {
      const StationDay met = whole.next(start + days{n}, any_weather());
      const FieldState before = state;
      const FieldDay day = step_field(field, met, state);
      RC_ASSERT(std::abs(unaccounted_mm(field.parameters, before, day)) < 1e-9);
      RC_ASSERT(out_of_bounds(field.parameters, day) == std::string());
    }
  });
}

}  // namespace
}  // namespace gley::model
