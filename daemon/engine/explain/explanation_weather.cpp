#include "daemon/engine/explain/explanation_sections.hpp"
#include "daemon/farm/with_id.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;

/// A value of a day's weather: how it is called and which readings it is made from.
struct WeatherValue {
  std::optional<double> DailyWeather::*member;
  const char* key;
  const char* name;
  std::optional<Quantity> quantity;
  const char* made;  ///< from a day's readings
};

constexpr WeatherValue rain{&DailyWeather::rain_mm, "rain_mm", "rain", Quantity::rain, "sum of"};
constexpr WeatherValue irrigation{&DailyWeather::irrigation_mm, "irrigation_mm", "irrigation",
                                  Quantity::irrigation, "sum of"};

constexpr WeatherValue of_the_air[] = {
    {&DailyWeather::tmin_c, "tmin_c", "least temperature Tmin", Quantity::temperature, "least of"},
    {&DailyWeather::tmax_c, "tmax_c", "greatest temperature Tmax", Quantity::temperature,
     "greatest of"},
    {&DailyWeather::dew_point_c, "dew_point_c", "dew point Tdew", Quantity::dew_point, "mean of"},
    {&DailyWeather::rh_max_pct, "rh_max_pct", "greatest humidity RHmax", Quantity::humidity,
     "greatest of"},
    {&DailyWeather::rh_min_pct, "rh_min_measured_pct", "least humidity RHmin", Quantity::humidity,
     "least of"},
    {&DailyWeather::rh_mean_pct, "rh_mean_pct", "mean humidity RHmean", Quantity::humidity,
     "mean of"},
    {&DailyWeather::wind_m_s, "wind_m_s", "wind at the station uz", Quantity::wind, "mean of"},
    {&DailyWeather::sun_h, "sun_h", "bright sunshine n", Quantity::sunshine, "sum of"},
    {&DailyWeather::solar_mj_m2, "solar_mj_m2", "solar radiation", Quantity::radiation,
     "sum over the day of"},
    {&DailyWeather::et0_mm, "et0_given_mm", "ET0 with the weather", std::nullopt, ""},
};

std::string topics_of(const ExplainedDay& day, const std::string& station, Quantity quantity) {
  std::string topics;
  for (const ReadingMap& reading : with_id(day.farm.stations, station)->readings)
    if (reading.quantity == quantity && topics.find(reading.topic) == std::string::npos)
      topics += (topics.empty() ? "" : ", ") + reading.topic;
  return topics;
}

std::string measured_at(const ExplainedDay& day, const SeenDay& seen, const WeatherValue& value) {
  if (seen.record.loaded) return "station " + seen.station + ", from a weather file";
  std::string text = "measured at station " + seen.station;
  const std::string topics = value.quantity ? topics_of(day, seen.station, *value.quantity) : "";
  if (!topics.empty()) text += ": " + std::string(value.made) + " the readings on " + topics;
  if (day.so_far) return text + ", so far";
  return seen.record.complete ? text : text + "; the station was not heard all day";
}

/// The part of the day's weather that a value belongs to: the place of its station in order of
/// trust.
std::optional<std::size_t> place_of(const ExplainedDay& day, const WeatherValue& value) {
  if (value.member == rain.member) return day.choice.rain;
  if (value.member == irrigation.member) return day.choice.irrigation;
  switch (value.quantity.value_or(Quantity::temperature)) {
    case Quantity::humidity:
    case Quantity::dew_point:
      return day.choice.humidity;
    case Quantity::wind:
      return day.choice.wind;
    case Quantity::sunshine:
    case Quantity::radiation:
      return day.choice.radiation;
    default:
      return day.choice.air;
  }
}

const SeenDay* station_of(const ExplainedDay& day, const WeatherValue& value) {
  const auto place = place_of(day, value);
  for (const SeenDay& seen : day.seen)
    if (place && seen.station == day.config.stations[*place]) return &seen;
  return nullptr;
}

/// Why a value is not from the first station of trust; empty if it is.
std::string why_borrowed(const ExplainedDay& day, const WeatherValue& value) {
  if (place_of(day, value).value_or(0) == 0) return "";
  return "; borrowed: station " + day.config.stations.front() + ", trusted more, has none to use";
}

std::string carried_over(const ExplainedDay& day) {
  return day.temperatures_known_on
             ? "carried over from " + date_text(*day.temperatures_known_on) +
                   ", the last day with both extremes, and not past the day's other one"
             : "carried over";
}

std::string origin_of(const ExplainedDay& day, const WeatherValue& value) {
  const std::optional<double> used = day.weather.weather.*value.member;
  const SeenDay* seen = station_of(day, value);
  const bool is_seen = seen != nullptr && day.choice.weather.*value.member == used;
  if (is_seen) return measured_at(day, *seen, value) + why_borrowed(day, value);
  const bool as_yesterday = day.weather_before && day.weather_before->weather.*value.member == used;
  if (day.so_far && as_yesterday)
    return "the day before's value, until this day has ended (our choice)";
  if (day.so_far) return "as expected for the rest of the day, widened by what was seen";
  const bool is_temperature =
      value.member == &DailyWeather::tmin_c || value.member == &DailyWeather::tmax_c;
  if (is_temperature) return carried_over(day);
  return "from the stations " + day.config.stations.front() + " and after";
}

ExplanationLine line_of(const ExplainedDay& day, const WeatherValue& value, double used) {
  return {.key = value.key, .name = value.name, .value = used, .source = origin_of(day, value)};
}

ExplanationLine rain_line(const ExplainedDay& day) {
  ExplanationLine line = line_of(day, rain, day.day.rain_mm);
  if (station_of(day, rain) == nullptr && day.day.flags.has(model::DayFlag::rain_missing))
    line.source = "no rain to use: taken as 0 mm and flagged rain_missing (our choice)";
  return line;
}

ExplanationLine irrigation_line(const ExplainedDay& day) {
  ExplanationLine line = line_of(day, irrigation, day.day.irrigation_mm);
  if (!day.weather.weather.irrigation_mm) line.source = "none on record";
  return line;
}

std::string not_measured(const ExplainedDay& day) {
  std::string names;
  for (const WeatherValue& value : of_the_air) {
    if (day.weather.weather.*value.member || !value.quantity) continue;
    names += (names.empty() ? "" : "; ") + std::string(value.name);
  }
  return names;
}

}  // namespace

ExplanationSection weather_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Weather", .lines = {}};
  if (day.seen.empty())
    out.lines.push_back({.key = "weather",
                         .name = "on record",
                         .value = "nothing for this date",
                         .source = "its station was silent: filled as said below"});
  out.lines.push_back(rain_line(day));
  out.lines.push_back(irrigation_line(day));
  for (const WeatherValue& value : of_the_air)
    if (const auto used = day.weather.weather.*value.member)
      out.lines.push_back(line_of(day, value, *used));
  if (const std::string names = not_measured(day); !names.empty())
    out.lines.push_back({.key = "not_measured", .name = "not measured", .value = names});
  return out;
}

}  // namespace gley::daemon
