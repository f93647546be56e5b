#pragma once
#include <chrono>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "daemon/readings/forecast.hpp"

namespace gley::tests {

using namespace std::chrono_literals;

inline const std::chrono::sys_days forecast_day = std::chrono::year{2026} / 3 / 2;  // GMT in London
inline const daemon::Instant forecast_came{forecast_day + 10h};

inline daemon::ForecastTerms example_terms() {
  return {.names = {{"precipitation", "rain"}},
          .latitude = 53.9,
          .longitude = -1.3,
          .calendar = daemon::FarmCalendar("Europe/London", std::chrono::minutes{0}),
          .wind_height_m = 10.0};
}

/// A PointSeries as OGC 21-069r2 has it (clauses 9.4 to 9.6 and Annex A): two members, four times
/// six hours apart from 12:00 on, rain by member, temperature for all members.
inline nlohmann::json example_coverage() {
  return nlohmann::json::parse(R"json({
    "type": "Coverage",
    "domain": {
      "type": "Domain",
      "domainType": "PointSeries",
      "axes": {
        "x": { "values": [-1.3] },
        "y": { "values": [53.9] },
        "z": { "values": [57] },
        "t": { "values": ["2026-03-02T12:00:00Z", "2026-03-02T18:00:00Z",
                          "2026-03-03T00:00:00Z", "2026-03-03T06:00:00Z"] },
        "member": { "values": [0, 1] }
      },
      "referencing": [{
        "coordinates": ["x", "y", "z"],
        "system": { "type": "GeographicCRS", "id": "http://www.opengis.net/def/crs/EPSG/0/4979" }
      }, {
        "coordinates": ["t"],
        "system": { "type": "TemporalRS", "calendar": "Gregorian" }
      }]
    },
    "parameters": {
      "precipitation": {
        "type": "Parameter",
        "observedProperty": { "label": { "en": "Precipitation" } },
        "unit": { "symbol": { "value": "mm", "type": "http://www.opengis.net/def/uom/UCUM/" } }
      },
      "temperature": {
        "type": "Parameter",
        "observedProperty": { "label": { "en": "Air temperature" } },
        "unit": { "symbol": "K" }
      }
    },
    "ranges": {
      "precipitation": {
        "type": "NdArray", "dataType": "float",
        "axisNames": ["member", "t"], "shape": [2, 4],
        "values": [0.0, 1.0, 2.0, null, 0.5, 0.0, 4.0, 8.0]
      },
      "temperature": {
        "type": "NdArray", "dataType": "float",
        "axisNames": ["t"], "shape": [4],
        "values": [283.15, 282.15, 278.15, 276.15]
      }
    }
  })json");
}

}  // namespace gley::tests
