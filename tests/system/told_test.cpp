#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using nlohmann::json;

namespace {

const std::string bearer = "Authorization: Bearer open-sesame\r\n";
const std::string as_json = "Content-Type: application/json\r\n";

struct Post {
  std::string path;
  std::string body;
  std::string headers = bearer + as_json;
};

HttpAnswer post(const Gleyd& gleyd, const Post& message) {
  const std::string length = "Content-Length: " + std::to_string(message.body.size()) + "\r\n";
  return gleyd.ask(
      {.line = "POST " + message.path, .headers = message.headers + length, .body = message.body});
}

FarmText farm_with_token(std::uint16_t broker_port = FarmText::nobody) {
  FarmText farm(broker_port);
  farm.http = "token_file = \"token\"\n";
  farm.more = drill_text + nitrogen_text;
  return farm;
}

void write_token(const Gleyd& gleyd) {
  (void)gleyd.write("token", "open-sesame\n");
}

json dressings(const Gleyd& gleyd) {
  return gleyd.json("/api/field/top")["dressings"];
}

bool eventually_dressed(const Gleyd& gleyd, std::size_t times) {
  return eventually([&] { return dressings(gleyd).size() == times; });
}

const std::string dressing_path = "/api/field/top/dressing";
const std::string dressing = R"({"material":"nitrogen","rate_kg_ha":120,"by":"Ann"})";

}  // namespace

TEST_CASE("a_dressing_is_told_over_mqtt_http_and_the_command_line_and_outlives_a_restart") {
  const Broker broker;
  Gleyd gleyd(farm_with_token(broker.port()));
  write_token(gleyd);
  gleyd.start_online();

  const std::string over_mqtt = R"({"field":"top","material":"nitrogen","rate_kg_ha":90,"time":")" +
                                gley::daemon::date_text(today()) + R"(T00:00:00Z"})";
  broker.publish("gley/alder/tell/dressing", over_mqtt);
  broker.publish("gley/alder/tell/dressing", over_mqtt);
  REQUIRE(eventually_dressed(gleyd, 1));

  const HttpAnswer answer = post(gleyd, {dressing_path, dressing});
  CHECK(answer.status == 201);
  CHECK(json::parse(answer.body)["rate"] == 120);
  REQUIRE(eventually_dressed(gleyd, 2));

  const Said said = gleyd.command(
      "dressing", {"--field", "top", "--material", "nitrogen", "--rate", "40", "--by", "Bob"});
  CHECK(said.code == 0);
  CHECK(said.out.starts_with("kept: nitrogen on top, 40 kg/ha, "));
  REQUIRE(eventually_dressed(gleyd, 3));

  gleyd.stop(SIGKILL);
  gleyd.start();
  REQUIRE(eventually_dressed(gleyd, 3));
  CHECK(dressings(gleyd).at(0)["by"] == nullptr);
  CHECK(dressings(gleyd).at(0)["rate"] == 90);
  CHECK(gleyd.metric("gley_told_total{outcome=\"stored\"}") == 0);
}

TEST_CASE("what_is_told_wrong_over_mqtt_is_counted_and_named") {
  const Broker broker;
  Gleyd gleyd(farm_with_token(broker.port()));
  write_token(gleyd);
  gleyd.start_online();
  broker.publish("gley/alder/tell/report",
                 R"({"field":"tpo","report":"drove","time":"2026-01-01T00:00:00Z"})");
  CHECK(
      eventually([&] { return gleyd.metric("gley_told_total{outcome=\"unknown_field\"}") == 1; }));
  CHECK(
      gleyd.eventually_logs("gley/alder/tell/report: unknown_field: there is no field 'tpo'; "
                            "did you mean 'top'?"));
}

TEST_CASE("writes_without_a_token_file_are_refused") {
  Gleyd gleyd(FarmText{});
  gleyd.start();
  const HttpAnswer answer = post(gleyd, {dressing_path, dressing});
  CHECK(answer.status == 403);
  CHECK(answer.body.find("token_file") != std::string::npos);
}

TEST_CASE("forged_and_faulty_writes_are_refused_and_change_nothing") {
  Gleyd gleyd(farm_with_token());
  write_token(gleyd);
  gleyd.start();
  const auto status = [&](const Post& message) { return post(gleyd, message).status; };
  CHECK(status({dressing_path, dressing, as_json}) == 401);
  CHECK(status({dressing_path, dressing, "Authorization: Bearer open-sesam\r\n" + as_json}) == 401);
  CHECK(status({"/nothing", dressing, as_json}) == 401);
  CHECK(status({"/nothing", dressing}) == 405);
  CHECK(status({dressing_path, dressing, bearer + as_json + "Origin: https://evil.example\r\n"}) ==
        403);
  CHECK(status({dressing_path, dressing, bearer + as_json + "Sec-Fetch-Site: cross-site\r\n"}) ==
        403);
  CHECK(status({dressing_path, dressing, bearer + "Content-Type: text/plain\r\n"}) == 415);
  CHECK(status({dressing_path, std::string(5000, ' ')}) == 413);
  CHECK(status({dressing_path, std::string(20000, ' ')}) == 413);
  CHECK(status({dressing_path, "{"}) == 400);
  CHECK(status({"/api/field/other/dressing", dressing}) == 404);
  CHECK(status({dressing_path, R"({"material":"nitrogen","rate_kg_ha":-1})"}) == 400);
  CHECK(status({dressing_path,
                R"({"material":"nitrogen","rate_kg_ha":1,"time":"2126-01-01T00:00:00Z"})"}) == 400);
  CHECK(status({"/api/alert/none/seen", R"({"by":"Ann"})"}) == 404);
  CHECK(dressings(gleyd).empty());
  CHECK(gleyd.metric("gley_told_total{outcome=\"bad_rate\"}") == 1);
  CHECK(gleyd.metric("gley_told_total{outcome=\"in_the_future\"}") == 1);
  CHECK(status({dressing_path, dressing,
                bearer + as_json +
                    "Origin: http://localhost\r\n"
                    "Sec-Fetch-Site: same-origin\r\n"}) == 201);
}

TEST_CASE("writes_that_are_not_let_in_do_not_fill_the_log") {
  Gleyd gleyd(farm_with_token());
  write_token(gleyd);
  gleyd.start();
  for (int i = 0; i < 20; ++i) CHECK(post(gleyd, {dressing_path, dressing, as_json}).status == 401);
  const std::string line = "http: a write from 127.0.0.1 is not let in: POST " + dressing_path;
  const std::string log = gleyd.log();
  const std::size_t first = log.find(line);
  REQUIRE(first != std::string::npos);
  CHECK(log.find("not let in", first + line.size()) == std::string::npos);
}

TEST_CASE("the_command_line_says_what_is_wrong_with_what_is_told") {
  const Gleyd gleyd(farm_with_token());
  write_token(gleyd);
  const Said field =
      gleyd.command("dressing", {"--field", "tpo", "--material", "nitrogen", "--rate", "40"});
  CHECK(field.code == 2);
  CHECK(field.err == "there is no field 'tpo'; did you mean 'top'?\n");
  const Said word = gleyd.command("report", {"--field", "top", "--report", "wet"});
  CHECK(word.code == 2);
  CHECK(word.err == "--report: must be 'drove', 'left ruts' or 'drains running'\n");
  const Said report =
      gleyd.command("report", {"--field", "top", "--report", "left ruts", "--machine", "drill",
                               "--time", gley::daemon::date_text(today()) + "T00:00:00Z"});
  CHECK(report.code == 0);
  CHECK(report.out.starts_with("kept: left ruts on top with drill, "));
}

TEST_CASE("an_alert_is_seen_once_by_name_and_kept_when_it_has_ended") {
  const Broker broker;
  Gleyd gleyd(farm_with_token(broker.port()));
  write_token(gleyd);
  const auto load = [&](const PlainDay& day) { gleyd.load(days_up_to_yesterday(200, day)); };
  load({.rain_mm = "8", .et0_mm = "1"});
  gleyd.start_online();
  const auto find = [&](const std::string& event) -> json {
    const json all = gleyd.json("/api/alerts")["alerts"];
    for (const json& alert : all)
      if (alert["event"] == event) return alert;
    return nullptr;
  };
  REQUIRE(eventually([&] { return !find("at field capacity").is_null(); }));
  const std::string id = find("at field capacity")["id"];
  const std::string path = "/api/alert/" + id + "/seen";
  CHECK(post(gleyd, {path, R"({"by":"<script>alert(1)</script>"})"}).status == 200);
  const HttpAnswer second = post(gleyd, {path, R"({"by":"Bob"})"});
  CHECK(second.status == 200);
  CHECK(json::parse(second.body)["seen_by"] == "<script>alert(1)</script>");
  CHECK(find("at field capacity")["ended"] == nullptr);
  CHECK(gleyd.get("/").body.find("<script>alert") == std::string::npos);
  CHECK(gleyd.get("/field/top").body.find("<script>alert") == std::string::npos);
  REQUIRE(eventually_retained(broker, [&](const auto& topics) {
    const auto alert = topics.find("gley/alder/alert/" + id);
    return alert != topics.end() &&
           json::parse(alert->second)["seen_by"] == "<script>alert(1)</script>";
  }));

  load({.rain_mm = "0", .et0_mm = "3"});
  gleyd.reload();
  REQUIRE(eventually([&] { return !find("at field capacity")["ended"].is_null(); }));
  CHECK(find("at field capacity")["seen_by"] == "<script>alert(1)</script>");
  CHECK(find("at field capacity")["id"] == id);
}
