// Readings and fields come in any order; the days they make are the same to the byte.
#include <rapidcheck/catch.h>

#include "daemon/engine/day_keeper.hpp"
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/unit/scratch_directory.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

const sys_days monday = 2024y / 5 / 13;
constexpr int span_days = 6;

const std::vector<std::string> soils = {"sand", "clay loam", "silty clay", "sandy silt loam"};

FarmConfig farm(const std::vector<std::string>& field_soils) {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.4;
  farm.time_zone = "Europe/London";
  for (const char* station : {"yard", "brook"}) farm.stations.emplace_back().id = station;
  for (const std::string& soil : field_soils) {
    FieldConfig& field = farm.fields.emplace_back();
    field.id = "on " + soil;
    field.stations = soil == "sand" ? std::vector<std::string>{"brook"}
                                    : std::vector<std::string>{"yard", "brook"};
    field.soil = SoilByClass{soil};
    field.crop = std::string("grass");
  }
  return farm;
}

Reading any_reading() {
  using rc::gen::inRange;
  Reading reading;
  reading.station = *rc::gen::element<std::string>("yard", "brook");
  reading.time = monday + minutes(*inRange(0, span_days * 24 * 60));
  reading.time_source = TimeSource::payload;
  switch (*inRange(0, 3)) {
    case 0:
      reading.source = "a gauge";
      reading.value = *inRange(0, 300) / 10.0;
      reading.form = ReadingForm::interval;
      break;
    case 1:
      reading.source = "a tipping gauge";
      reading.value = *inRange(0, 100) * 0.2;
      reading.form = ReadingForm::counter;
      break;
    default:
      reading.source = "a thermometer";
      reading.quantity = Quantity::temperature;
      reading.value = *inRange(-50, 250) / 10.0;
      reading.form = ReadingForm::instant;
  }
  return reading;
}

/// Distinct in station, source and time: a second value for the same moment is a correction, and
/// of corrections the last to come counts.
std::vector<Reading> readings() {
  return *rc::gen::uniqueBy<std::vector<Reading>>(
      *rc::gen::inRange(1, 40), rc::gen::exec(any_reading), [](const Reading& reading) {
        return std::tuple(reading.station, reading.source, reading.time);
      });
}

/// A store and what is derived from it.
class Farm {
 public:
  explicit Farm(const std::vector<std::string>& field_soils) : config_(farm(field_soils)) {}

  void hear(const Reading& reading) {
    inbox_.store({{{reading, ReadingStatus::used}}, {}}, monday + days{20});
  }
  void catch_up_and_close() {
    keeper_.catch_up();
    book_.close(monday + days{span_days});
  }
  [[nodiscard]] std::string days_of(const std::string& field) const {
    return book_.days_csv(book_.index_of(field).value(), {}, {});
  }

 private:
  ScratchDirectory directory_;
  FarmConfig config_;
  Database database_ = open_store(directory_ / "farm.db", Durability::process);
  Inbox inbox_{directory_ / "farm.db", Durability::process};
  FieldBook book_{config_};
  DayKeeper keeper_{config_, database_, book_};
};

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
    Farm calm(soils);
    for (const Reading& reading : in_order) calm.hear(reading);
    calm.catch_up_and_close();

    Farm radio(soils);
    for (const Reading& reading : shuffled(in_order)) {
      radio.hear(reading);
      if (*rc::gen::inRange(0, 4) == 0) radio.hear(reading);
      if (*rc::gen::inRange(0, 4) == 0) radio.catch_up_and_close();
    }
    radio.catch_up_and_close();
    for (const std::string& soil : soils)
      RC_ASSERT(radio.days_of("on " + soil) == calm.days_of("on " + soil));
  });
}

TEST_CASE("A field's days do not depend on which fields stand before it") {
  rc::prop("fields", [] {
    const std::vector<Reading> heard = readings();
    Farm as_listed(soils);
    Farm otherwise(shuffled(soils));
    for (const Reading& reading : heard) {
      as_listed.hear(reading);
      otherwise.hear(reading);
    }
    as_listed.catch_up_and_close();
    otherwise.catch_up_and_close();
    for (const std::string& soil : soils)
      RC_ASSERT(otherwise.days_of("on " + soil) == as_listed.days_of("on " + soil));
  });
}

}  // namespace
}  // namespace gley::daemon
