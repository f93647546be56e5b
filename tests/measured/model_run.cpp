#include "tests/measured/model_run.hpp"

#include <algorithm>
#include <map>

#include "daemon/engine/field_book.hpp"
#include "daemon/farm/field_setup.hpp"

namespace gley::measured {

daemon::FarmConfig farm_at(const Place& place) {
  daemon::FarmConfig farm;
  farm.id = "measured";
  farm.latitude = place.latitude;
  farm.longitude = place.longitude;
  farm.elevation_m = place.elevation_m;
  farm.time_zone = "UTC";
  daemon::StationConfig station;
  station.id = "station";
  station.wind_height_m = place.wind_height_m;
  station.dew_point_offset_c = place.dew_point_offset_c;
  farm.stations.push_back(station);
  return farm;
}

std::vector<model::FieldDay> run_field(const Place& place, daemon::FieldConfig field,
                                       const Weather& weather) {
  daemon::FarmConfig farm = farm_at(place);
  field.id = "field";
  field.stations = {"station"};
  farm.fields.push_back(std::move(field));
  daemon::FieldBook book(farm);
  for (const auto& [date, day] : weather)
    book.put("station", date, {.weather = day, .flags = {}, .complete = true, .loaded = true});
  book.close(weather.rbegin()->first);
  std::vector<model::FieldDay> days;
  book.history(0).each(book.weather(0).days(), weather.begin()->first, weather.rbegin()->first,
                       [&](const model::FieldDay& day) { days.push_back(day); });
  return days;
}

Series top_200_mm(const daemon::FieldConfig& field, const std::vector<model::FieldDay>& days) {
  const model::SoilProfile soil = daemon::field_of(field).parameters.soil;
  Series out;
  for (const model::FieldDay& day : days)
    out[day.date] = (model::theta_of(soil, day.evening.water, 0) +
                     model::theta_of(soil, day.evening.water, 1)) /
                    2.0;
  return out;
}

Series net_deficit_mm(const std::vector<model::FieldDay>& days) {
  Series out;
  for (const model::FieldDay& day : days) out[day.date] = day.depletion_mm - day.surplus_mm;
  return out;
}

Series depletion_mm(const std::vector<model::FieldDay>& days) {
  Series out;
  for (const model::FieldDay& day : days) out[day.date] = day.depletion_mm;
  return out;
}

Series single_bucket_mm(const Weather& weather, double capacity_mm) {
  Series out;
  double deficit_mm = 0.0;
  for (const auto& [date, day] : weather) {
    deficit_mm += day.et0_mm.value_or(0.0) - day.rain_mm.value_or(0.0);
    deficit_mm = std::clamp(deficit_mm, 0.0, capacity_mm);
    out[date] = deficit_mm;
  }
  return out;
}

Series climatology(const Series& measured) {
  struct Sum {
    double of_values = 0.0;
    int days = 0;
  };
  using std::chrono::days;
  constexpr int half_window = 15;
  const auto new_year_of = [](Date date) {
    return Date{std::chrono::year_month_day{date}.year() / 1 / 1};
  };
  std::map<Date, std::map<long, Sum>> by_year;  // by New Year's Day, then by day of the year
  for (const auto& [date, value] : measured) {
    const long day = (date - new_year_of(date)).count();
    for (long d = day - half_window; d <= day + half_window; ++d) {
      Sum& sum = by_year[new_year_of(date)][(d + 366) % 366];
      sum.of_values += value;
      ++sum.days;
    }
  }
  Series out;
  for (const auto& [date, value] : measured) {
    Sum others;
    for (auto& [year, days_of_year] : by_year) {
      if (year == new_year_of(date)) continue;
      const Sum& sum = days_of_year[(date - new_year_of(date)).count()];
      others.of_values += sum.of_values;
      others.days += sum.days;
    }
    if (others.days > 0) out[date] = others.of_values / others.days;
  }
  return out;
}

}  // namespace gley::measured
