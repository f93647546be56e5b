#pragma once
#include <vector>

#include "daemon/farm/farm_config.hpp"
#include "model/water/field_day.hpp"
#include "tests/measured/series.hpp"

/// The daemon's own fields, driven by a record's weather, and the simple models they must beat.
namespace gley::measured {

struct Place {
  double latitude = 0.0;
  double longitude = 0.0;
  double elevation_m = 0.0;
  double wind_height_m = 2.0;
  std::optional<double> dew_point_offset_c = {};
};

using Weather = std::map<Date, model::DailyWeather>;

/// A farm of one station that stands at a place and no fields yet.
[[nodiscard]] daemon::FarmConfig farm_at(const Place& place);

/// The days of one field under the weather, from its first day to its last.
[[nodiscard]] std::vector<model::FieldDay> run_field(const Place& place, daemon::FieldConfig field,
                                                     const Weather& weather);

/// Water content of the top 200 mm, m3/m3: the first layer and half of the second.
[[nodiscard]] Series top_200_mm(const daemon::FieldConfig& field,
                                const std::vector<model::FieldDay>& days);

/// Depletion less surplus, mm: how far the rooted soil is from field capacity, either way.
[[nodiscard]] Series net_deficit_mm(const std::vector<model::FieldDay>& days);
[[nodiscard]] Series depletion_mm(const std::vector<model::FieldDay>& days);

/// A single store that gives off all of PE until it is empty, and passes on what it cannot hold.
[[nodiscard]] Series single_bucket_mm(const Weather& weather, double capacity_mm);

/// For the dates of `wanted`, the mean of the same season (15 days to each side) in the other years
/// of `known`.
[[nodiscard]] Series climatology(const Series& known, const Series& wanted);

}  // namespace gley::measured
