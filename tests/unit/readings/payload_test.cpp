#include "daemon/readings/payload.hpp"

#include <catch2/catch.hpp>

using namespace gley::daemon;
using namespace std::chrono_literals;

namespace {

const Instant arrival{std::chrono::milliseconds(1700000000000)};  // 2023-11-14T22:13:20Z

ReadingMap mapping(Quantity quantity, ReadingForm form, const char* unit) {
  ReadingMap map;
  map.topic = "t";
  map.quantity = quantity;
  map.form = form;
  map.unit = unit;
  return map;
}

ReadingMap rain_mm() {
  return mapping(Quantity::rain, ReadingForm::interval, "mm");
}

DecodedMessage decode_with(std::vector<ReadingMap> maps, std::string_view payload,
                           bool timeless_is_unknown = false) {
  StationConfig station;
  station.id = "yard";
  station.readings = std::move(maps);
  FarmConfig farm;
  farm.stations.push_back(station);
  return decode(TopicMap(farm), "t", payload, arrival, timeless_is_unknown);
}

/// The one reading of a message that must have no other and no fault.
DecodedReading only_reading(const DecodedMessage& message) {
  for (const auto& rejection : message.rejections) UNSCOPED_INFO(rejection.detail);
  REQUIRE(message.rejections.empty());
  REQUIRE(message.readings.size() == 1);
  return message.readings[0];
}

Rejection only_rejection(const DecodedMessage& message) {
  CHECK(message.readings.empty());
  REQUIRE(message.rejections.size() == 1);
  return message.rejections[0].kind;
}

}  // namespace

TEST_CASE("a_bare_number_is_a_reading_at_its_arrival") {
  const auto got = only_reading(decode_with({rain_mm()}, " 0.2\r\n"));
  CHECK(got.reading == Reading{.station = "yard",
                               .quantity = Quantity::rain,
                               .form = ReadingForm::interval,
                               .source = "t",
                               .time = arrival,
                               .time_source = TimeSource::arrival,
                               .value = 0.2});
  CHECK(got.status == ReadingStatus::used);
}

TEST_CASE("text_that_is_not_a_number_alone_is_refused") {
  for (const char* payload : {"", " ", "nan", "inf", "-inf", "1e999", "0,2", "0.2 mm", "0x10",
                              "1 2", "\"0.2\"", "true", "null", "--1", "\xff\xfe"}) {
    INFO(payload);
    CHECK(only_rejection(decode_with({rain_mm()}, payload)) == Rejection::not_a_number);
  }
  CHECK(only_rejection(decode_with({rain_mm()}, std::string_view("1\0", 2))) ==
        Rejection::not_a_number);
}

TEST_CASE("a_refusal_shows_printable_text_of_bounded_length") {
  const auto message = decode_with({rain_mm()}, "\x1b[31m" + std::string(5000, 'x'));
  REQUIRE(message.rejections.size() == 1);
  CHECK(message.rejections[0].detail.size() < 130);
  CHECK(message.rejections[0].detail.starts_with("'?[31mxxx"));
  CHECK(message.rejections[0].station == "yard");
}

TEST_CASE("pointers_name_value_and_time_in_any_json") {
  auto map = rain_mm();
  map.value_pointer = "/rain/mm";
  map.time_pointer = "/ts";
  const Instant time{std::chrono::milliseconds(1699999000000)};
  for (const char* payload :
       {R"({"rain":{"mm":0.4},"ts":1699999000})", R"({"rain":{"mm":"0.4"},"ts":1699999000000})",
        R"({"rain":{"mm":0.4},"ts":"2023-11-14T21:56:40Z"})",
        R"({"rain":{"mm":0.4},"ts":"2023-11-14T22:56:40+01:00"})",
        R"({"rain":{"mm":0.4},"ts":"1699999000"})"}) {
    INFO(payload);
    const auto got = only_reading(decode_with({map}, payload));
    CHECK(got.reading.value == 0.4);
    CHECK(got.reading.time == time);
    CHECK(got.reading.time_source == TimeSource::payload);
    CHECK(got.reading.source == "t#/rain/mm");
  }
}

TEST_CASE("what_a_pointer_does_not_find_is_named") {
  auto map = rain_mm();
  map.value_pointer = "/mm";
  map.time_pointer = "/ts";
  const auto kind = [&](const char* payload) {
    return only_rejection(decode_with({map}, payload));
  };
  CHECK(kind("0.2") == Rejection::malformed);
  CHECK(kind("{\"mm\":0.2") == Rejection::malformed);
  CHECK(kind(R"({"ts":1699999000})") == Rejection::malformed);
  CHECK(kind(R"({"mm":null,"ts":1699999000})") == Rejection::not_a_number);
  CHECK(kind(R"({"mm":true,"ts":1699999000})") == Rejection::not_a_number);
  CHECK(kind(R"({"mm":"NaN","ts":1699999000})") == Rejection::not_a_number);
  CHECK(kind(R"({"mm":0.2})") == Rejection::bad_time);
  CHECK(kind(R"({"mm":0.2,"ts":"2023-11-14T22:00:00"})") == Rejection::bad_time);
  CHECK(kind(R"({"mm":0.2,"ts":1e300})") == Rejection::bad_time);
  CHECK(kind(R"({"mm":0.2,"ts":[]})") == Rejection::bad_time);
}

TEST_CASE("senml_records_of_the_mapped_name_are_readings") {
  auto map = rain_mm();
  map.senml_name = "rain";
  const auto message = decode_with({map}, R"([
    {"bn":"urn:dev:yard:","bt":1699999000,"n":"rain","u":"mm","v":0.2},
    {"n":"temp","u":"Cel","v":11},
    {"n":"rain","t":60,"u":"m","v":0.0004}])");
  CHECK(message.rejections.empty());
  REQUIRE(message.readings.size() == 2);
  CHECK(message.readings[0].reading.source == "t#urn:dev:yard:rain");
  CHECK(message.readings[0].reading.value == 0.2);
  CHECK(message.readings[1].reading.value == Approx(0.4).epsilon(1e-12));
  CHECK(message.readings[1].reading.time == Instant(std::chrono::seconds(1699999060)));
}

TEST_CASE("one_senml_message_feeds_several_quantities") {
  auto rain = rain_mm();
  rain.senml_name = "rain";
  auto temperature = mapping(Quantity::temperature, ReadingForm::instant, "Cel");
  temperature.senml_name = "urn:dev:yard:temp";
  const auto message =
      decode_with({rain, temperature},
                  R"([{"bn":"urn:dev:yard:","n":"rain","v":0.2},{"n":"temp","u":"K","v":284.15}])");
  CHECK(message.rejections.empty());
  REQUIRE(message.readings.size() == 2);
  CHECK(message.readings[1].reading.quantity == Quantity::temperature);
  CHECK(message.readings[1].reading.value == Approx(11.0).margin(1e-9));
}

TEST_CASE("without_a_mapped_name_every_record_counts") {
  const auto message = decode_with({rain_mm()}, R"([{"n":"a","v":0.2},{"n":"b","v":0.4},
    {"n":"c","vs":"wet"},{"n":"d","u":"Cel","v":4}])");
  CHECK(message.readings.size() == 2);
  REQUIRE(message.rejections.size() == 2);
  CHECK(message.rejections[0].kind == Rejection::not_a_number);
  CHECK(message.rejections[1].kind == Rejection::wrong_unit);
}

TEST_CASE("a_pack_without_the_mapped_name_is_unmapped") {
  auto map = rain_mm();
  map.senml_name = "rain";
  CHECK(only_rejection(decode_with({map}, R"([{"n":"temp","v":1}])")) == Rejection::unmapped);
  CHECK(only_rejection(decode_with({map}, "[]")) == Rejection::unmapped);
  CHECK(only_rejection(decode_with({map}, "0.2")) == Rejection::malformed);
}

TEST_CASE("a_pack_with_some_of_the_mapped_records_lacks_nothing") {
  const auto named = [](const char* name, Quantity quantity, const char* unit) {
    ReadingMap map = mapping(quantity, ReadingForm::instant, unit);
    map.senml_name = name;
    return map;
  };
  const auto message = decode_with(
      {named("air", Quantity::temperature, "Cel"), named("damp", Quantity::humidity, "%RH")},
      R"([{"n":"air","v":4.5}])");
  CHECK(message.readings.size() == 1);
  CHECK(message.rejections.empty());
}

TEST_CASE("a_topic_without_a_mapping_is_unmapped") {
  CHECK(only_rejection(decode(TopicMap(FarmConfig{}), "t", "1", arrival, false)) ==
        Rejection::unmapped);
}

TEST_CASE("a_counter_keeps_its_count_times_its_step") {
  auto map = rain_mm();
  map.form = ReadingForm::counter;
  map.step = 0.2;
  CHECK(only_reading(decode_with({map}, "1500")).reading.value == 1500 * 0.2);
  map.senml_name = "tips";
  const auto value = [&](const char* payload) {
    return only_reading(decode_with({map}, payload)).reading.value;
  };
  CHECK(value(R"([{"n":"tips","u":"count","v":1500}])") == 1500 * 0.2);
  CHECK(value(R"([{"n":"tips","v":1500}])") == 1500 * 0.2);
  // An amount in a unit of its own is no count.
  CHECK(value(R"([{"n":"tips","u":"m","v":0.3}])") == Approx(300.0).epsilon(1e-12));
}

TEST_CASE("a_tip_of_a_bucket_is_an_amount_of_its_own") {
  auto map = rain_mm();
  map.form = ReadingForm::interval;
  map.step = 0.2;
  CHECK(only_reading(decode_with({map}, "1")).reading.value == 0.2);
  CHECK(only_reading(decode_with({map}, R"([{"n":"tip","u":"count","v":3}])")).reading.value ==
        3 * 0.2);
  CHECK(only_reading(decode_with({map}, R"([{"n":"rain","u":"cm","v":0.5}])")).reading.value ==
        5.0);
}

TEST_CASE("values_beyond_physics_are_out_of_range") {
  const auto refused = [](Quantity quantity, ReadingForm form, const char* unit,
                          const char* value) {
    const auto message = decode_with({mapping(quantity, form, unit)}, value);
    return message.rejections.size() == 1 && message.rejections[0].kind == Rejection::out_of_range;
  };
  CHECK(refused(Quantity::rain, ReadingForm::interval, "mm", "-0.1"));
  CHECK(refused(Quantity::rain, ReadingForm::interval, "mm", "401"));
  CHECK(refused(Quantity::rain, ReadingForm::counter, "mm", "-1"));
  CHECK(refused(Quantity::temperature, ReadingForm::instant, "Cel", "85"));
  CHECK(refused(Quantity::temperature, ReadingForm::instant, "Cel", "-127"));
  CHECK(refused(Quantity::humidity, ReadingForm::instant, "%RH", "106"));
  CHECK_FALSE(refused(Quantity::humidity, ReadingForm::instant, "%RH", "101"));
  CHECK(refused(Quantity::wind, ReadingForm::instant, "km/h", "300"));
  CHECK(refused(Quantity::sunshine, ReadingForm::interval, "min", "1441"));
  CHECK(refused(Quantity::radiation, ReadingForm::instant, "W/m2", "1601"));
  CHECK_FALSE(refused(Quantity::radiation, ReadingForm::instant, "W/m2", "-6"));
}

TEST_CASE("readings_of_another_age_are_kept_aside_and_counted") {
  auto map = rain_mm();
  map.value_pointer = "/v";
  map.time_pointer = "/t";
  const auto with_time = [&](std::chrono::seconds offset) {
    const auto time = std::chrono::floor<std::chrono::seconds>(arrival + offset).time_since_epoch();
    return decode_with({map}, R"({"v":1,"t":)" + std::to_string(time.count()) + "}");
  };
  const auto old = with_time(-30 * 24h - 1s);
  REQUIRE(old.readings.size() == 1);
  CHECK(old.readings[0].status == ReadingStatus::too_old);
  REQUIRE(old.rejections.size() == 1);
  CHECK(old.rejections[0].kind == Rejection::too_old);
  const auto ahead = with_time(10min + 1s);
  CHECK(ahead.readings[0].status == ReadingStatus::in_the_future);
  CHECK(ahead.rejections[0].kind == Rejection::in_the_future);
  CHECK(only_reading(with_time(-30 * 24h)).status == ReadingStatus::used);
  CHECK(only_reading(with_time(10min)).status == ReadingStatus::used);
}

TEST_CASE("in_the_backlog_only_readings_with_a_time_are_used") {
  const auto bare = only_reading(decode_with({rain_mm()}, "0.2", true));
  CHECK(bare.status == ReadingStatus::time_unknown);
  CHECK(bare.reading.time_source == TimeSource::unknown);
  CHECK(bare.reading.time == arrival);
  const auto relative =
      only_reading(decode_with({rain_mm()}, R"([{"n":"a","t":-60,"v":1}])", true));
  CHECK(relative.status == ReadingStatus::time_unknown);
  const auto timed =
      only_reading(decode_with({rain_mm()}, R"([{"n":"a","t":1699999000,"v":1}])", true));
  CHECK(timed.status == ReadingStatus::used);
}

TEST_CASE("hostile_payloads_are_refused_without_harm") {
  auto pointer = rain_mm();
  pointer.value_pointer = "/a";
  const std::string deep(200000, '[');
  CHECK(only_rejection(decode_with({pointer}, deep)) == Rejection::malformed);
  const DecodedMessage pack = decode_with({rain_mm()}, deep);
  CHECK(only_rejection(pack) == Rejection::malformed);
  CHECK_THAT(pack.rejections.front().detail, Catch::Matchers::Contains("more than 64 deep"));
  CHECK(only_rejection(decode_with({pointer}, "{\"a\":" + std::string(100000, '{'))) ==
        Rejection::malformed);
  CHECK(only_rejection(decode_with({pointer}, "{\"a\":\"\xc3\x28\"}")) == Rejection::malformed);
  CHECK(only_rejection(decode_with({pointer}, R"({"a":1e400})")) == Rejection::malformed);
  CHECK(only_rejection(decode_with({pointer}, "{\"a\":1" + std::string(400, '0') + "}")) ==
        Rejection::malformed);
  CHECK(only_rejection(decode_with({rain_mm()}, std::string(256 * 1024 + 1, '1'))) ==
        Rejection::too_large);
  // As large as is taken: a string full of brackets, and a number of 256 KiB.
  CHECK(only_rejection(decode_with({pointer}, "{\"a\":\"" + deep + "\"}")) ==
        Rejection::not_a_number);
  CHECK(only_rejection(decode_with({rain_mm()}, std::string(256 * 1024, '9'))) ==
        Rejection::not_a_number);
}

TEST_CASE("every_rejection_has_a_word_of_its_own") {
  std::vector<std::string_view> words;
  for (int i = 0; i <= static_cast<int>(Rejection::too_large); ++i) {
    const auto word = to_word(static_cast<Rejection>(i));
    CHECK(std::find(words.begin(), words.end(), word) == words.end());
    words.push_back(word);
  }
}
