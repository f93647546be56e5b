#include <cmath>
#include <cstdint>

#include "daemon/readings/weather_csv.hpp"
#include "tests/fuzz/must.hpp"

using namespace gley::daemon;
using namespace gley::tests;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const WeatherFile file = parse_weather_csv(text, "past.csv");
  for (const std::string& problem : file.problems) must_be_a_line(problem);
  if (!file.problems.empty()) return 0;
  for (const auto& [date, day] : file.days) {
    must(!day.rain_mm || (std::isfinite(*day.rain_mm) && *day.rain_mm >= 0.0), "rain that can be");
    must(!day.tmin_c || !day.tmax_c || *day.tmin_c <= *day.tmax_c, "Tmin up to Tmax");
  }
  return 0;
}
