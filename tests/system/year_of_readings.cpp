#include "tests/system/year_of_readings.hpp"

#include <algorithm>
#include <stdexcept>

#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/system/senml_text.hpp"

namespace gley::tests {
namespace {

using daemon::date_text;
using daemon::Instant;
using daemon::number_text;
using std::chrono::hours;
using std::chrono::sys_days;

std::size_t records_in(const std::string& pack_text) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = pack_text.find("\"v\":", at)) != std::string::npos; ++at) ++count;
  return count;
}

/// Parts of a total, one an hour, that give it back to the last bit when summed in order: the last
/// part is what the others leave.
std::vector<double> parts_of(double total, double at_most, std::size_t hours_of_day) {
  std::vector<double> parts(hours_of_day, 0.0);
  const double step = total > at_most * 6.0 ? at_most : total / 6.0;
  double sum = 0.0;
  std::size_t hour = 4;
  const double left_at_most = std::min(at_most, total / 2.0);
  for (; hour + 1 < hours_of_day && total - sum > left_at_most; ++hour) sum += parts[hour] = step;
  parts[hour] = total - sum;
  if (sum + parts[hour] != total) throw std::logic_error("the parts do not give the total back");
  return parts;
}

}  // namespace

daemon::WeatherByDay dublin_2018() {
  const auto file = daemon::read_weather_csv(std::string(GLEY_TEST_DATA) +
                                             "/met-eireann/dublin-airport-2010-2019.csv");
  daemon::WeatherByDay year;
  for (const auto& [date, weather] : file.days)
    if (std::chrono::year_month_day(date).year() == std::chrono::year{2018}) year[date] = weather;
  if (year.size() != 365) throw std::runtime_error("the record of 2018 is not whole");
  return year;
}

std::string weather_file(const daemon::WeatherByDay& days) {
  const auto cell = [](const std::optional<double>& value) {
    return "," + (value ? number_text(*value) : "");
  };
  std::string text = "date,rain_mm,tmin_c,tmax_c,wind_m_s,sun_h\n";
  for (const auto& [date, day] : days)
    text += date_text(date) + cell(day.rain_mm) + cell(day.tmin_c) + cell(day.tmax_c) +
            cell(day.wind_m_s) + cell(day.sun_h) + "\n";
  return text;
}

std::string DayMessages::by_the_hour(const char* name, double total, double at_most,
                                     sys_days day) const {
  const Instant begins = calendar_.begins(day);
  const auto count = static_cast<std::size_t>((calendar_.ends(day) - begins) / hours{1});
  std::vector<SenmlValue> values;
  Instant end = begins;
  for (const double part : parts_of(total, at_most, count))
    values.push_back({name, end += hours{1}, part});
  return senml_pack(values);
}

std::string DayMessages::rain(sys_days day) const {
  const double total = days_.at(day).rain_mm.value();
  const bool once_a_day = day.time_since_epoch().count() % 3 == 0;
  if (once_a_day) return senml_pack({{"rain", calendar_.ends(day), total}});
  return by_the_hour("rain", total, 1.5, day);
}

std::string DayMessages::air(sys_days day) const {
  const model::DailyWeather& weather = days_.at(day);
  const Instant begins = calendar_.begins(day);
  const double between = (*weather.tmin_c + *weather.tmax_c) / 2.0;
  return senml_pack({{"temperature", begins + hours{5}, *weather.tmin_c},
                     {"temperature", begins + hours{9}, between},
                     {"temperature", begins + hours{14}, *weather.tmax_c},
                     {"wind", begins, *weather.wind_m_s},
                     {"wind", begins + hours{20}, *weather.wind_m_s}});
}

std::string DayMessages::sunshine(sys_days day) const {
  return by_the_hour("sunshine", days_.at(day).sun_h.value(), 1.0, day);
}

std::vector<std::string> DayMessages::all(int& readings) const {
  std::vector<std::string> messages;
  readings = 0;
  for (const auto& [day, weather] : days_)
    for (std::string message : {rain(day), air(day), sunshine(day)}) {
      readings += static_cast<int>(records_in(message));
      messages.push_back(std::move(message));
    }
  return messages;
}

}  // namespace gley::tests
