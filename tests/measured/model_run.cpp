#include "tests/measured/model_run.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/engine/fields/field_book.hpp"
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
  book.history(0).each(book.weather(0).days(), {weather.begin()->first, weather.rbegin()->first},
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

namespace {

/// Sums of a series up to a day, so that any window's mean takes two look-ups.
class RunningSum {
 public:
  explicit RunningSum(const Series& series) : first_(series.begin()->first) {
    const auto days = static_cast<std::size_t>((series.rbegin()->first - first_).count()) + 1;
    values_.assign(days + 1, 0.0);
    counts_.assign(days + 1, 0.0);
    for (const auto& [date, value] : series) {
      const auto day = static_cast<std::size_t>((date - first_).count());
      values_[day + 1] = value;
      counts_[day + 1] = 1.0;
    }
    for (std::size_t i = 1; i <= days; ++i) {
      values_[i] += values_[i - 1];
      counts_[i] += counts_[i - 1];
    }
  }
  struct Sum {
    double of_values = 0.0;
    double days = 0.0;
  };
  [[nodiscard]] Sum between(Date from, Date to) const {
    const std::size_t before = index(from);
    const std::size_t after = index(to + std::chrono::days{1});
    return {values_[after] - values_[before], counts_[after] - counts_[before]};
  }

 private:
  [[nodiscard]] std::size_t index(Date date) const {
    const auto last = static_cast<long>(values_.size()) - 1;
    return static_cast<std::size_t>(std::clamp<long>((date - first_).count(), 0, last));
  }
  Date first_;
  std::vector<double> values_;
  std::vector<double> counts_;
};

}  // namespace

Series climatology(const Series& known, const Series& wanted) {
  constexpr std::chrono::days half_window{15};
  constexpr int most_years = 100;
  const RunningSum sums(known);
  Series out;
  for (const auto& [date, value] : wanted) {
    RunningSum::Sum season;
    for (int year = -most_years; year <= most_years; ++year) {
      if (year == 0) continue;
      const Date there = date + std::chrono::days{std::lround(365.25 * year)};
      const RunningSum::Sum own = sums.between(there - half_window, there + half_window);
      season.of_values += own.of_values;
      season.days += own.days;
    }
    if (season.days > 0.0) out[date] = season.of_values / season.days;
  }
  return out;
}

}  // namespace gley::measured
