#include <cmath>
#include <cstdint>

#include "daemon/readings/payload.hpp"
#include "daemon/readings/told.hpp"
#include "tests/fuzz/must.hpp"

using namespace gley::daemon;
using namespace gley::tests;

namespace {

const Instant arrival{std::chrono::milliseconds(1700000000000)};

ReadingMap mapping(const char* topic, Quantity quantity, ReadingForm form, const char* unit) {
  ReadingMap map;
  map.topic = topic;
  map.quantity = quantity;
  map.form = form;
  map.unit = unit;
  return map;
}

FarmConfig farm() {
  FarmConfig farm;
  StationConfig& station = farm.stations.emplace_back();
  station.id = "yard";
  ReadingMap counter = mapping("t", Quantity::rain, ReadingForm::counter, "mm");
  counter.step = 0.2;
  ReadingMap pointed = mapping("t", Quantity::temperature, ReadingForm::instant, "Cel");
  pointed.value_pointer = "/t/v";
  pointed.time_pointer = "/ts";
  ReadingMap named = mapping("t", Quantity::humidity, ReadingForm::instant, "%RH");
  named.senml_name = "humidity";
  station.readings = {counter, pointed, named,
                      mapping("t", Quantity::wind, ReadingForm::instant, "m/s"),
                      mapping("t", Quantity::radiation, ReadingForm::interval, "MJ/m2")};
  return farm;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const TopicMap map(farm());
  const std::string_view payload(reinterpret_cast<const char*>(data), size);
  const DecodedMessage message = decode(map, "t", payload, arrival, size % 2 == 0);
  must(!message.readings.empty() || !message.rejections.empty(), "a message is taken or refused");
  for (const DecodedReading& decoded : message.readings) {
    must(std::isfinite(decoded.reading.value), "a value that is a number");
    must(decoded.reading.station == "yard", "a reading of its station");
    if (decoded.status == ReadingStatus::used)
      must(decoded.reading.time <= arrival + std::chrono::minutes(10), "no reading of the future");
  }
  for (const RejectedRecord& rejected : message.rejections) must_be_a_line(rejected.detail);
  return 0;
}
