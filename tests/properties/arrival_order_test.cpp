// Readings and fields come in any order; the days they make are the same to the byte.
#include <rapidcheck/catch.h>

#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days monday = 2024y / 5 / 13;
constexpr int span_days = 6;

const std::vector<std::string> soils = {"sand", "clay loam", "silty clay", "sandy silt loam"};

FarmConfig farm(const std::vector<std::string>& field_soils) {
  FarmConfig farm = farm_of_stations({"yard", "brook"});
  farm.time_zone = "Europe/London";
  for (const std::string& soil : field_soils) {
    FieldConfig& field = add_field(farm, "on " + soil, {"yard", "brook"});
    if (soil == "sand") field.stations = {"brook"};
    field.soil = SoilByClass{soil};
  }
  return farm;
}

/// What one of a station's three sensors may send: `minute` since Monday, `number` its display.
Reading reading_of(const std::string& station, int minute, int sensor, int number) {
  Reading reading;
  reading.station = station;
  reading.time = monday + minutes(minute);
  switch (sensor) {
    case 0:
      reading.source = "a gauge";
      reading.value = number / 10.0;
      reading.form = ReadingForm::interval;
      break;
    case 1:
      reading.source = "a tipping gauge";
      reading.value = number % 100 * 0.2;
      reading.form = ReadingForm::counter;
      break;
    default:
      reading.source = "a thermometer";
      reading.quantity = Quantity::temperature;
      reading.value = (number - 50) / 10.0;
      reading.form = ReadingForm::instant;
  }
  return reading;
}

rc::Gen<Reading> any_reading() {
  using rc::gen::inRange;
  return rc::gen::map(
      rc::gen::tuple(rc::gen::element<std::string>("yard", "brook"),
                     inRange(0, span_days * 24 * 60), inRange(0, 3), inRange(0, 300)),
      [](const auto& drawn) { return std::apply(reading_of, drawn); });
}

/// Distinct in station, source and time: a second value for the same moment is a correction, and
/// of corrections the last to come counts.
std::vector<Reading> readings() {
  return *rc::gen::uniqueBy<std::vector<Reading>>(
      *rc::gen::inRange(1, 40), any_reading(), [](const Reading& reading) {
        return std::tuple(reading.station, reading.source, reading.time);
      });
}

void hear(KeptFarm& farm, const Reading& reading) {
  farm.store.put(reading, monday + days{20});
}

void catch_up_and_close(KeptFarm& farm) {
  farm.keeper.catch_up();
  farm.book.close(monday + days{span_days});
}

std::string days_of(const FieldBook& book, const std::string& soil) {
  return book.days_csv(book.index_of("on " + soil).value(), {});
}

template <class T>
std::vector<T> shuffled(std::vector<T> things) {
  for (std::size_t i = things.size(); i > 1; --i)
    std::swap(things[i - 1], things[*rc::gen::inRange<std::size_t>(0, i)]);
  return things;
}

bool less_by_time(const Reading& a, const Reading& b) {
  return a.time < b.time;
}

TEST_CASE("Readings in any order, some twice, leave every day as readings in their order do") {
  rc::prop("arrival", [] {
    std::vector<Reading> in_order = readings();
    std::stable_sort(in_order.begin(), in_order.end(), less_by_time);
    KeptFarm calm(farm(soils));
    for (const Reading& reading : in_order) hear(calm, reading);
    catch_up_and_close(calm);

    KeptFarm radio(farm(soils));
    for (const Reading& reading : shuffled(in_order)) {
      hear(radio, reading);
      if (*rc::gen::inRange(0, 4) == 0) hear(radio, reading);
      if (*rc::gen::inRange(0, 4) == 0) catch_up_and_close(radio);
    }
    catch_up_and_close(radio);
    for (const std::string& soil : soils)
      RC_ASSERT(days_of(radio.book, soil) == days_of(calm.book, soil));
  });
}

TEST_CASE("A field's days do not depend on which fields stand before it") {
  rc::prop("fields", [] {
    const std::vector<Reading> heard = readings();
    KeptFarm as_listed(farm(soils));
    for (const Reading& reading : heard) hear(as_listed, reading);
    catch_up_and_close(as_listed);
    const FarmConfig shuffled_farm = farm(shuffled(soils));
    FieldBook otherwise(shuffled_farm);
    const DayKeeper keeper(shuffled_farm, as_listed.store.database, otherwise);
    otherwise.close(monday + days{span_days});
    for (const std::string& soil : soils)
      RC_ASSERT(days_of(otherwise, soil) == days_of(as_listed.book, soil));
  });
}

}  // namespace
}  // namespace gley::daemon
