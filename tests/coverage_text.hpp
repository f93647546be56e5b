#pragma once
#include <nlohmann/json.hpp>
#include <vector>

#include "daemon/board/words/local_time.hpp"

namespace gley::tests {

/// A forecast by time: rain of each member, one temperature for all.
struct ForecastTable {
  struct Row {
    daemon::Instant time;
    std::vector<double> rain_mm;  ///< by member, since the row before
    double temperature_c = 0.0;
  };
  std::vector<Row> rows;
};

/// As CoverageJSON, a PointSeries (OGC 21-069r2).
[[nodiscard]] inline nlohmann::json coverage(const ForecastTable& table) {
  using nlohmann::json;
  json times = json::array(), rain = json::array(), temperature = json::array();
  for (const ForecastTable::Row& row : table.rows) {
    times.push_back(daemon::rfc3339(row.time));
    for (const double mm : row.rain_mm) rain.push_back(mm);
    temperature.push_back(row.temperature_c);
  }
  json members = json::array();
  for (std::size_t m = 0; m < table.rows.front().rain_mm.size(); ++m) members.push_back(m);
  json out = json::parse(R"({"type":"Coverage","domain":{"type":"Domain",
    "domainType":"PointSeries"},"parameters":{
    "rain":{"type":"Parameter","unit":{"symbol":"mm"}},
    "temperature":{"type":"Parameter","unit":{"symbol":"Cel"}}},"ranges":{
    "rain":{"type":"NdArray","dataType":"float","axisNames":["t","member"]},
    "temperature":{"type":"NdArray","dataType":"float","axisNames":["t"]}}})");
  out["domain"]["axes"] = {{"t", {{"values", times}}}, {"member", {{"values", members}}}};
  out["ranges"]["rain"]["shape"] = {times.size(), members.size()};
  out["ranges"]["rain"]["values"] = rain;
  out["ranges"]["temperature"]["shape"] = {times.size()};
  out["ranges"]["temperature"]["values"] = temperature;
  return out;
}

}  // namespace gley::tests
