#include <algorithm>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/unit.hpp"
#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {
namespace {

std::string forms_of(Quantity quantity) {
  using enum ReadingForm;
  std::string forms;
  for (const ReadingForm form : {interval, counter, rate, instant}) {
    if (known_units(quantity, form).empty()) continue;
    if (!forms.empty()) forms += " or ";
    forms += to_word(form);
  }
  return forms;
}

/// A form the quantity cannot have, a unit the form cannot have.
void check_form_and_unit(const TableReader& table, const ReadingMap& map) {
  const std::string quantity(to_word(map.quantity));
  const std::string form(to_word(map.form));
  const std::string units = known_units(map.quantity, map.form);
  if (units.empty()) {
    table.problem("form",
                  "is \"" + form + "\"; " + quantity + " must come as " + forms_of(map.quantity));
  } else if (table.text("unit") && !known_unit(map.quantity, map.form, map.unit)) {
    table.problem("unit", "is \"" + map.unit + "\"; known for " + quantity + " as " + form +
                              " are: " + units);
  }
}

void check_keys_that_exclude(const TableReader& table, ReadingForm form) {
  const bool counts = form == ReadingForm::counter || form == ReadingForm::interval;
  if (table.has("step") && !counts) {
    table.problem("step",
                  "stands at a reading that counts nothing; remove it, or write form = "
                  "\"counter\", or \"interval\" for tips since the last message");
  }
  if (table.has("rolls_over_at") && form != ReadingForm::counter)
    table.problem("rolls_over_at", "stands at a reading that is no counter; remove it");
  for (const char* pointer : {"value", "time"}) {
    if (table.has("name") && table.has(pointer)) {
      table.problem(pointer,
                    "stands beside name; give name for SenML, or pointers into other "
                    "JSON");
    }
  }
}

ReadingMap read_map(const TableReader& table) {
  ReadingMap map;
  map.place = table.place();
  table.assign(map.topic, table.text("topic"));
  map.value_pointer = table.text("value");
  map.time_pointer = table.text("time");
  map.senml_name = table.text("name");
  table.assign(map.unit, table.text("unit"));
  table.assign(map.step, table.number("step"));
  map.rolls_over_at = table.number("rolls_over_at");
  const auto quantity = table.word<Quantity>("quantity");
  const auto form = table.word<ReadingForm>("form");
  table.assign(map.quantity, quantity);
  table.assign(map.form, form);
  if (quantity && form) check_form_and_unit(table, map);
  if (form) check_keys_that_exclude(table, *form);
  return map;
}

bool take_the_same(const ReadingMap& a, const ReadingMap& b) {
  return a.value_pointer == b.value_pointer && a.senml_name == b.senml_name &&
         (covers(a.topic, b.topic) || covers(b.topic, a.topic));
}

std::string one_value_twice(const ReadingMap& map, const ReadingMap& other) {
  std::string words =
      map.quantity == other.quantity ? "is mapped to " : "brings one value both as ";
  words += to_word(map.quantity);
  if (map.quantity == other.quantity) {
    words += " twice";
  } else {
    words += " and as ";
    words += to_word(other.quantity);
  }
  words += ", first at " + place_text(other.place);
  return words + (map.quantity == other.quantity
                      ? "; remove one"
                      : "; give each its own topic, or the value or name it has there");
}

/// The same value taken twice would count twice, and one taken for two quantities is neither.
void check_not_twice(const TableReader& table, const ReadingMap& map,
                     const std::vector<ReadingMap>& before) {
  if (map.topic.empty()) return;
  const auto same = std::find_if(before.begin(), before.end(), [&map](const ReadingMap& other) {
    return take_the_same(map, other) &&
           (other.quantity != map.quantity || other.topic == map.topic);
  });
  if (same != before.end()) table.problem("topic", one_value_twice(map, *same));
}

}  // namespace

void read_station(const TableReader& table, ConfigDraft& draft) {
  StationConfig station;
  read_identity(table, station);
  station.latitude = table.number("latitude");
  station.longitude = table.number("longitude");
  station.elevation_m = table.number("elevation_m");
  table.assign(station.wind_height_m, table.number("wind_height_m"));
  table.assign(station.krs, table.number("krs"));
  station.dew_point_offset_c = table.number("dew_point_offset_c");
  for (const TableReader& reading : table.children("reading")) {
    ReadingMap map = read_map(reading);
    check_not_twice(reading, map, station.readings);
    station.readings.push_back(std::move(map));
  }
  draft.farm.stations.push_back(std::move(station));
}

}  // namespace gley::daemon
