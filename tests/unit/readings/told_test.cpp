#include "daemon/readings/told.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;
using Catch::Matchers::Contains;

const Instant now = sys_days(2026y / 3 / 20) + 9h + 30min;
const TellTerms terms{
    .fields = {"top", "low"},
    .materials = {{"nitrogen", MaterialKind::mineral_fertiliser}, {"slurry", MaterialKind::slurry}},
    .machines = {"drill"}};
const TellContext over_mqtt{.now = now, .field = {}, .time_needed = true};
const TellContext over_http{.now = now, .field = "top"};

TellFault fault_of(const std::string& json, const TellContext& context = over_http) {
  const auto told = decode_dressing(json, terms, context);
  REQUIRE_FALSE(told.has_value());
  CHECK_FALSE(told.error().detail.empty());
  return told.error().fault;
}

TellFault report_fault(const std::string& json) {
  const auto told = decode_report(json, terms, over_http);
  REQUIRE_FALSE(told.has_value());
  return told.error().fault;
}

}  // namespace

TEST_CASE("a dressing is told with field, material, rate in its unit, time and name") {
  const auto told = decode_dressing(
      R"({"field":"low","material":"slurry","rate_m3_ha":30,"time":"2026-03-20T10:00:00+01:00","by":" Ann "})",
      terms, over_mqtt);
  REQUIRE(told.has_value());
  CHECK(told->told == Dressing{.field = "low",
                               .material = "slurry",
                               .rate = 30.0,
                               .unit = "m3/ha",
                               .time = sys_days(2026y / 3 / 20) + 9h});
  CHECK(told->name == "Ann");
}

TEST_CASE("over HTTP the address names the field and the time is now unless it is told") {
  const auto told =
      decode_dressing(R"({"material":"nitrogen","rate_kg_ha":120.5})", terms, over_http);
  REQUIRE(told.has_value());
  CHECK(told->told.field == "top");
  CHECK(told->told.time == now);
  CHECK(told->told.unit == "kg/ha");
  CHECK(told->name.empty());
  CHECK(fault_of(R"({"field":"low","material":"nitrogen","rate_kg_ha":120})") ==
        TellFault::malformed);
}

TEST_CASE("what is wrong with a dressing is told by kind") {
  CHECK(fault_of("") == TellFault::malformed);
  CHECK(fault_of("[1]") == TellFault::malformed);
  CHECK(fault_of("{\"material\":") == TellFault::malformed);
  CHECK(fault_of(R"({"rate_kg_ha":120})") == TellFault::malformed);
  CHECK(fault_of(R"({"material":7,"rate_kg_ha":120})") == TellFault::malformed);
  CHECK(fault_of(R"({"material":"nitrogen","rate_kg_ha":120,"rate_t_ha":1})") ==
        TellFault::malformed);
  CHECK(fault_of(std::string(5000, ' ')) == TellFault::malformed);
  CHECK(fault_of(R"({"material":"lime","rate_t_ha":4})") == TellFault::unknown_material);
  CHECK(fault_of(R"({"field":"top","material":"nitrogen","rate_kg_ha":120})", over_mqtt) ==
        TellFault::bad_time);
  CHECK(
      fault_of(
          R"({"field":"tpo","material":"nitrogen","rate_kg_ha":120,"time":"2026-03-20T09:00:00Z"})",
          over_mqtt) == TellFault::unknown_field);
  for (const char* rate : {"0", "-5", "2000.5", "\"120\"", "null"}) {
    INFO(rate);
    CHECK(fault_of(R"({"material":"nitrogen","rate_kg_ha":)" + std::string(rate) + "}") ==
          TellFault::bad_rate);
  }
  CHECK(fault_of(R"({"material":"nitrogen","rate_kg_ha":1e400})") == TellFault::malformed);
  CHECK(fault_of(R"({"material":"nitrogen","rate_m3_ha":30})") == TellFault::bad_rate);
  CHECK(fault_of(R"({"material":"nitrogen","rate_kg_ha":120,"time":"yesterday"})") ==
        TellFault::bad_time);
  CHECK(fault_of(R"({"material":"nitrogen","rate_kg_ha":120,"time":"2026-03-20T09:41:00Z"})") ==
        TellFault::in_the_future);
  CHECK(fault_of(R"({"material":"nitrogen","rate_kg_ha":120,"time":"2024-03-20T09:41:00Z"})") ==
        TellFault::too_old);
}

TEST_CASE("a near name is suggested") {
  const auto told = decode_dressing(R"({"material":"nitrogn","rate_kg_ha":120})", terms, over_http);
  REQUIRE_FALSE(told.has_value());
  CHECK_THAT(told.error().detail, Contains("did you mean 'nitrogen'?"));
}

TEST_CASE("a report is told in our words, with or without a machine") {
  const auto told =
      decode_report(R"({"report":"left ruts","machine":"drill","by":"Ann"})", terms, over_http);
  REQUIRE(told.has_value());
  CHECK(
      told->told ==
      FieldReport{.field = "top", .kind = ReportKind::left_ruts, .machine = "drill", .time = now});
  CHECK(decode_report(R"({"report":"drains running"})", terms, over_http).has_value());
  CHECK(report_fault(R"({"report":"wet"})") == TellFault::unknown_report);
  CHECK(report_fault(R"({"report":"drove","machine":"plough"})") == TellFault::unknown_machine);
}

TEST_CASE("a name may hold markup, which is text, but nothing that moves a cursor") {
  CHECK(decode_seen(R"({"by":"<b>Ann</b> & Bob"})") == "<b>Ann</b> & Bob");
  CHECK(decode_seen(R"({"by":"  "})").error().fault == TellFault::bad_name);
  CHECK(decode_seen(R"({"by":"a\u001b[2J"})").error().fault == TellFault::bad_name);
  CHECK(decode_seen(R"({"by":"\u202eAnn"})").error().fault == TellFault::bad_name);
  CHECK(decode_seen("{\"by\":\"" + std::string(61, 'a') + "\"}").error().fault ==
        TellFault::bad_name);
  CHECK(decode_seen(R"({"name":"Ann"})").error().fault == TellFault::malformed);
}

}  // namespace gley::daemon
