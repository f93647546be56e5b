#include "daemon/readings/senml.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using gley::daemon::Instant;
using gley::daemon::read_senml;
using gley::daemon::senml_time;
using gley::daemon::SenmlRecord;
using gley::daemon::TimeSource;

namespace {

std::vector<SenmlRecord> records(const char* text) {
  auto read = read_senml(nlohmann::json::parse(text));
  REQUIRE(read.has_value());
  return *read;
}

std::string error(const char* text) {
  const auto read = read_senml(nlohmann::json::parse(text));
  return read ? "" : read.error();
}

const Instant arrival{std::chrono::milliseconds(1700000000000)};

}  // namespace

TEST_CASE("rfc_8428_section_5_1_1_single_data_point") {
  const auto pack = records(R"([{"n":"urn:dev:ow:10e2073a01080063","u":"Cel","v":23.1}])");
  REQUIRE(pack.size() == 1);
  CHECK(pack[0].name == "urn:dev:ow:10e2073a01080063");
  CHECK(pack[0].unit == "Cel");
  CHECK(pack[0].value == 23.1);
  CHECK_FALSE(pack[0].time.has_value());
}

TEST_CASE("rfc_8428_section_5_1_2_base_name_time_and_unit_reach_later_records") {
  const auto pack = records(R"([
    {"bn":"urn:dev:ow:10e2073a0108006:","bt":1.276020076001e+09,"bu":"A","bver":5,
     "n":"voltage","u":"V","v":120.1},
    {"n":"current","t":-5,"v":1.2},
    {"n":"current","v":1.7}])");
  REQUIRE(pack.size() == 3);
  CHECK(pack[0].name == "urn:dev:ow:10e2073a0108006:voltage");
  CHECK(pack[0].unit == "V");
  CHECK(pack[1].name == "urn:dev:ow:10e2073a0108006:current");
  CHECK(pack[1].local_name == "current");
  CHECK(pack[1].unit == "A");
  CHECK(senml_time(pack[1], arrival)->time == Instant(std::chrono::milliseconds(1276020071001)));
  CHECK(senml_time(pack[2], arrival)->time == Instant(std::chrono::milliseconds(1276020076001)));
  CHECK(senml_time(pack[2], arrival)->source == TimeSource::payload);
}

TEST_CASE("rfc_8428_section_5_1_3_records_of_one_name_differ_by_unit") {
  const auto pack = records(R"([
    {"bn":"urn:dev:ow:10e2073a01080063","bt":1.320067464e+09,"bu":"%RH","v":20},
    {"u":"lon","v":24.30621},{"u":"lat","v":60.07965},{"t":60,"v":20.3}])");
  REQUIRE(pack.size() == 4);
  CHECK(pack[0].unit == "%RH");
  CHECK(pack[1].unit == "lon");
  CHECK(pack[3].unit == "%RH");
  CHECK(pack[3].value == 20.3);
  CHECK(senml_time(pack[3], arrival)->time == Instant(std::chrono::milliseconds(1320067524000)));
}

TEST_CASE("rfc_8428_section_5_1_5_texts_and_truths_have_no_number") {
  const auto pack = records(R"([
    {"bn":"urn:dev:ow:10e2073a01080063:","n":"temp","u":"Cel","v":23.1},
    {"n":"label","vs":"Machine Room"},{"n":"open","vb":false},
    {"n":"nfc-reader","vd":"aGkgCg"}])");
  REQUIRE(pack.size() == 4);
  CHECK(pack[0].value == 23.1);
  for (std::size_t i = 1; i < 4; ++i) CHECK_FALSE(pack[i].value.has_value());
}

TEST_CASE("base_value_is_added") {
  const auto pack = records(R"([{"bn":"a","bv":20},{"v":0.5},{"v":-1}])");
  REQUIRE(pack.size() == 2);
  CHECK(pack[0].value == 20.5);
  CHECK(pack[1].value == 19.0);
}

TEST_CASE("times_below_2_to_the_28_are_relative_to_now") {
  // RFC 8428 Section 4.5.3.
  const auto pack = records(R"([{"n":"a","t":-60,"v":1},{"n":"a","t":268435455,"v":1},
                                {"n":"a","t":268435456,"v":1},{"n":"a","v":1}])");
  CHECK(senml_time(pack[0], arrival)->time == arrival - std::chrono::minutes(1));
  CHECK(senml_time(pack[0], arrival)->source == TimeSource::arrival);
  CHECK(senml_time(pack[1], arrival)->time == arrival + std::chrono::seconds(268435455));
  CHECK(senml_time(pack[2], arrival)->time == Instant(std::chrono::seconds(268435456)));
  CHECK(senml_time(pack[3], arrival)->time == arrival);
  CHECK(senml_time(pack[3], arrival)->source == TimeSource::arrival);
}

TEST_CASE("times_beyond_the_calendar_are_no_times") {
  const auto pack = records(R"([{"n":"a","t":1e300,"v":1},{"n":"a","t":-1e300,"v":1}])");
  CHECK_FALSE(senml_time(pack[0], arrival).has_value());
  CHECK_FALSE(senml_time(pack[1], arrival).has_value());
}

TEST_CASE("a_pack_that_asks_for_more_than_is_understood_is_refused") {
  // RFC 8428 Section 4.4.
  CHECK(error(R"([{"bver":11,"n":"a","v":1}])") == "SenML: a version above 10");
  CHECK(error(R"([{"n":"a","v":1,"x_":1}])") == "SenML: field x_ must be understood and is not");
  CHECK(error(R"([{"n":"a","v":1,"x":1}])").empty());
}

TEST_CASE("a_malformed_pack_says_what_is_wrong") {
  CHECK(error(R"({"n":"a","v":1})") == "a SenML pack is a JSON array");
  CHECK(error("[1]") == "a SenML record is a JSON object");
  CHECK(error(R"([{"n":1,"v":1}])") == "SenML: n is not a text");
  CHECK(error(R"([{"n":"a","v":"1"}])") == "SenML: v is not a number");
  CHECK(error(R"([{"n":"a","bt":null,"v":1}])") == "SenML: bt is not a number");
}
