#include "daemon/engine/weather/roll_overs.hpp"

#include "daemon/farm/unit.hpp"
#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {

namespace {

bool comes_from(const Reading& reading, const ReadingMap& map) {
  const auto mark = reading.source.find('#');  // which no topic holds
  const std::string name = mark == std::string::npos ? "" : reading.source.substr(mark + 1);
  return reading.form == ReadingForm::counter && reading.quantity == map.quantity &&
         (!map.senml_name || *map.senml_name == name) &&
         topic_matches(map.topic, reading.source.substr(0, mark));
}

}  // namespace

RollOvers roll_overs_of(const StationConfig& station, const DayReadings& readings) {
  RollOvers out;
  for (const ReadingMap& map : station.readings) {
    if (!map.rolls_over_at) continue;
    const auto at = convert(*map.rolls_over_at * map.step, map.unit, map.quantity, map.form);
    for (const Reading& reading : readings.of_day)
      if (at && comes_from(reading, map)) out[{reading.source, reading.quantity}] = *at;
  }
  return out;
}

}  // namespace gley::daemon
