#include <cmath>
#include <cstdint>

#include "daemon/readings/forecast.hpp"
#include "daemon/readings/forecast_days.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/unit/readings/forecast_example.hpp"

using namespace gley::daemon;
using namespace gley::tests;

namespace {

void must_be_sound(const ForecastSeries& series, std::size_t members) {
  must(series.times.size() >= 2, "two times at least");
  must(std::is_sorted(series.times.begin(), series.times.end()), "times that rise");
  must(series.members.size() == 1 || series.members.size() == members, "a row for each member");
  for (const auto& member : series.members) {
    must(member.size() == series.times.size(), "a value for each time");
    for (const auto& value : member) must(!value || std::isfinite(*value), "numbers");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const ForecastTerms terms = example_terms();
  const std::string_view payload(reinterpret_cast<const char*>(data), size);
  const DecodedForecast forecast = decode_forecast(terms, payload, forecast_came);
  if (!forecast) {
    must_be_a_line(forecast.error().detail);
    return 0;
  }
  must(forecast->find(Quantity::rain) != nullptr, "a forecast that has rain");
  for (const ForecastSeries& series : forecast->series) must_be_sound(series, forecast->members);
  const ForecastDays days = forecast_days(*forecast, terms.calendar, forecast_came, 7);
  must(days.days <= 8, "no more days than were asked for");
  for (const auto& member : days.weather)
    for (const auto& day : member)
      must(!day.rain_mm || (std::isfinite(*day.rain_mm) && *day.rain_mm >= 0.0), "rain of a day");
  return 0;
}
