// Names and words that try to command a browser, a terminal or a reader's eye, through everything
// the daemon writes: pages, JSON, CSV, metrics, topics, calendar, commands and log.
#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using Catch::Contains;

namespace {

const std::string escape = "\x1b";
const std::string reordering = "\u202e";  // right-to-left override (Unicode Standard Annex #9)
// As TOML writes it: a configuration with control characters is refused, so there are none here.
const std::string in_toml =
    "</title><script>alert(1)</script>'&\\\"=1+1,;BEGIN:VEVENT" + reordering + "gnp";
// As JSON writes it, for what comes over MQTT.
const std::string in_json = R"(<script>alert(1)</script>\u001b[2J\u202e\r\nEND:VCALENDAR)";

std::string named(const std::string& table, const std::string& keys) {
  return "[[" + table + "]]\nname = \"" + in_toml + "\"\n" + keys;
}

FarmText hostile_farm(std::uint16_t mqtt_port) {
  FarmText farm(mqtt_port);
  farm.fields =
      "[[field]]\nid = \"top\"\nname = \"" + in_toml +
      "\"\nstation = \"yard\"\nsoil = \"clay loam\"\ndrainage = \"moderate\"\ncrop = \"grass\"\n"
      "boundary = \"top.geojson\"\n";
  farm.more = forecast_text +
              named("machine", "id = \"drill\"\nwheel_load_t = 2.6\ntyre_pressure_bar = 1.0\n") +
              named("material", "id = \"slurry\"\nkind = \"slurry\"\n");
  return farm;
}

/// What no text for eyes may hold.
void check_harmless(const std::string& text) {
  CHECK(text.find(escape) == std::string::npos);
  CHECK(text.find(reordering) == std::string::npos);
  CHECK(text.find('\0') == std::string::npos);
}

std::string forecast_of_rain() {
  const auto now =
      std::chrono::time_point_cast<std::chrono::hours>(std::chrono::system_clock::now());
  std::vector<SenmlValue> values;
  for (int h = 1; h <= 72; ++h) {
    const auto time = now + std::chrono::hours{h};
    values.push_back({"rain", time, 2.0, "mm"});
    values.push_back({"temperature", time, 9.0, "Cel"});
  }
  return senml_pack(values);
}

void tell_hostile_things(const Broker& broker) {
  const std::string now = gley::daemon::date_text(today()) + "T00:00:00Z";
  const auto tell = [&](const std::string& topic, const std::string& body) {
    broker.publish(topic, body);
  };
  tell("weather/forecast", forecast_of_rain());
  tell("gley/alder/tell/dressing",
       R"({"field":"top","material":"slurry","rate_m3_ha":20,"time":")" + now +
           R"(","by":"Ann <b>& Bob</b>"})");
  tell("gley/alder/tell/dressing",
       R"({"field":"top","material":"slurry","rate_m3_ha":20,"time":")" + now + R"(","by":")" +
           in_json + R"("})");
  tell("gley/alder/tell/report", R"({"field":")" + in_json + R"(","report":"drove"})");
  tell("gley/alder/tell/report", R"({"field":"top","report":")" + in_json + R"("})");
  tell("gley/alder/tell/seen", R"({"alert":")" + in_json + R"(","by":"x"})");
  tell("weather/yard/pack", R"([{"n":")" + in_json + R"(","u":"mm","v":1}])");
  tell("weather/yard/pack", R"([{"n":"rain","u":")" + in_json + R"(","v":1}])");
  tell("weather/yard/pack", escape + "]0;owned\a" + reordering);
  tell("weather/yard/rain", escape + "[2J<script>alert(1)</script>");
  tell("weather/forecast", R"({"type":")" + in_json + R"("})");
}

}  // namespace

TEST_CASE("hostile_text_commands_neither_browser_nor_terminal_nor_reader") {
  const Broker broker;
  Gleyd gleyd(hostile_farm(broker.port()));
  (void)gleyd.write("top.geojson",
                    R"({"type":"Feature","properties":{"name":")" + in_json +
                        R"("},"geometry":{"type":"Polygon","coordinates":[[[-6.24,53.42],)"
                        R"([-6.23,53.42],[-6.23,53.43],[-6.24,53.42]]]}})");
  gleyd.load(days_up_to_yesterday(40, {"6.0", "0.5"}));
  gleyd.start_online();
  tell_hostile_things(broker);
  REQUIRE(gleyd.eventually_logs("weather/forecast"));
  REQUIRE(eventually([&] { return !gleyd.json("/api/board")["alerts"].empty(); }));
  REQUIRE(eventually([&] { return gleyd.get("/plan").status == 200; }));

  const std::string yesterday = gley::daemon::date_text(today() - std::chrono::days{1});
  for (const std::string path :
       {"/", "/?by=name", "/field/top", "/plan", "/plan?machine=drill", "/alerts",
        "/field/top/seasons", "/field/<script>alert(1)", "/nothing%3Cscript%3E"}) {
    INFO(path);
    const HttpAnswer page = gleyd.get(path);
    check_harmless(page.head + page.body);
    CHECK(page.body.find("<script>alert") == std::string::npos);
    CHECK(page.body.find("Ann <b>") == std::string::npos);
    if (page.head.find("text/html") != std::string::npos)
      CHECK(page.head.find("script-src 'self'") != std::string::npos);
  }
  const HttpAnswer explained = gleyd.get("/field/top/explain?date=" + yesterday);
  CHECK(explained.status == 200);
  check_harmless(explained.body);
  CHECK(explained.body.find("<script>alert") == std::string::npos);

  for (const std::string path :
       {"/api/board", "/api/forecast", "/api/alerts", "/api/field/top", "/api/field/top/record",
        "/api/field/top/ahead", "/api/field/top/seasons", "/healthz"}) {
    INFO(path);
    const HttpAnswer answer = gleyd.get(path);
    CHECK(nlohmann::json::accept(answer.body));
    CHECK(answer.body.find(escape) == std::string::npos);
    CHECK(answer.head.find("application/json") != std::string::npos);
  }
  for (const std::string path :
       {"/api/field/top/days.csv", "/api/field/top/seasons.csv", "/metrics", "/windows.ics"}) {
    INFO(path);
    check_harmless(gleyd.get(path).body);
  }
  for (const auto& [topic, body] : retained(broker)) {
    INFO(topic);
    CHECK(topic.find('<') == std::string::npos);
    CHECK(body.find(escape) == std::string::npos);
    if (body.starts_with('{') || body.starts_with('[')) CHECK(nlohmann::json::accept(body));
  }
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {"check"},
           {"today"},
           {"doubts"},
           {"explain", "--field", "top", "--date", yesterday},
           {"explain", "--field", in_toml + escape, "--date", yesterday},
           {"explain", "--" + escape + reordering},
           {"seen", "--alert", escape + reordering, "--by", escape},
           {"dressing", "--field", "top", "--material", escape + reordering, "--rate", "1"}}) {
    INFO(arguments.front());
    const Said said = gleyd.command(arguments.front(), {arguments.begin() + 1, arguments.end()});
    check_harmless(said.out);
    check_harmless(said.err);
    CHECK_FALSE((said.out + said.err).empty());
  }
  INFO(gleyd.log());
  check_harmless(gleyd.log());
}

TEST_CASE("the_board_answers_to_its_own_names_only") {
  FarmText farm;
  farm.http = "host_names = \"board.example.org\"\n";
  Gleyd gleyd(farm);
  gleyd.start();
  const auto status_for = [&](const std::string& host) {
    return gleyd.ask({.line = "GET /", .host = host}).status;
  };
  CHECK(status_for("board.example.org") == 200);
  CHECK(status_for("127.0.0.1:8080") == 200);
  CHECK(status_for("rebound.example") == 421);
  CHECK(gleyd.metric("gley_http_refused_total{why=\"host name\"}") == 1.0);

  gleyd.farm.http = "host_names = [\"rebound.example\"]\n";
  gleyd.configure();
  gleyd.reload();
  REQUIRE(gleyd.eventually_logs("configuration taken up"));
  CHECK(status_for("rebound.example") == 200);
  CHECK(status_for("board.example.org") == 421);
}
