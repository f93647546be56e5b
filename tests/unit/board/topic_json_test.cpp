#include "daemon/board/documents/topic_json.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

using Json = nlohmann::ordered_json;
using Keys = std::vector<std::string>;

Keys keys_of(const Json& object) {
  Keys keys;
  for (const auto& item : object.items()) keys.push_back(item.key());
  return keys;
}

TEST_CASE("the board topic has its keys, words by id and water to a tenth") {
  const Json board = Json::parse(board_json(example_board()));
  CHECK(keys_of(board) == Keys{"time", "farm", "fields", "alerts", "doubts", "forecast_time"});
  CHECK(board["time"] == "2026-11-25T06:40:00Z");
  CHECK(board["farm"] == "alder");
  CHECK(board["forecast_time"].is_null());
  const Json& field = board["fields"].at(0);
  CHECK(keys_of(field) ==
        Keys{"id", "name", "wetness", "topsoil_deficit_mm", "surplus_mm", "machines", "spreading"});
  CHECK(field["topsoil_deficit_mm"].dump() == "3.4");
  CHECK(field["surplus_mm"].dump() == "0.0");
  CHECK(field["machines"]["drill"] == "with care");
  CHECK(field["spreading"]["nitrogen"] == "hold");
  CHECK(board["alerts"].at(0)["id"] == "rain-1");
}

TEST_CASE("the water topic has its keys") {
  const Json water = Json::parse(water_json(example_field(), example_time));
  CHECK(keys_of(water) == Keys{"time", "date", "wetness", "depletion_mm", "topsoil_deficit_mm",
                               "surplus_mm", "theta", "rain_today_mm", "et0_mm", "drains",
                               "uncertainty_mm", "flags"});
  CHECK(water["theta"].dump() == "[0.354,0.36]");
  CHECK(water["rain_today_mm"].dump() == "12.1");
  CHECK(water["drains"] == "dry");
  CHECK(water["flags"].dump() == R"(["start_assumed","humidity_estimated"])");
}

TEST_CASE("a field without weather is null, not nought") {
  FieldView field = example_field();
  field.known = false;
  const Json water = Json::parse(water_json(field, example_time));
  for (const char* key : {"date", "wetness", "depletion_mm", "topsoil_deficit_mm", "surplus_mm",
                          "rain_today_mm", "et0_mm", "drains"}) {
    INFO(key);
    CHECK(water[key].is_null());
  }
  CHECK(water["theta"].empty());
}

TEST_CASE("a machine's topic says null for what is not known yet") {
  const Json machine = Json::parse(machine_json(example_field().machines.front(), example_time));
  CHECK(keys_of(machine) == Keys{"time", "verdict", "margin", "reasons", "until", "next_window"});
  CHECK(machine["margin"].dump() == "0.12");
  CHECK(machine["until"].is_null());
  CHECK(machine["next_window"].is_null());
}

TEST_CASE("spreading advice always carries the caution") {
  const Json advice = Json::parse(spreading_json(example_field().spreading.front(), example_time));
  CHECK(keys_of(advice) ==
        Keys{"time", "advice", "reasons", "next_window", "n_at_risk_kg_ha", "caution"});
  CHECK(advice["caution"] == "Local codes and product labels decide.");
}

TEST_CASE("an alert's topic has the words of CAP") {
  const Json alert = Json::parse(alert_json(example_alert()));
  CHECK(keys_of(alert) == Keys{"id", "fields", "event", "severity", "urgency", "certainty", "onset",
                               "headline", "description", "instruction", "seen_by", "seen"});
  CHECK(alert["onset"] == "2026-11-25T03:40:00Z");
}

TEST_CASE("a name that is no UTF-8 still gives JSON") {
  BoardSnapshot board = example_board();
  board.fields.front().name = hostile_name;
  CHECK(Json::accept(board_json(board)));
}

TEST_CASE("an event tells the revision and the time, on one line") {
  CHECK(event_json(example_board()) == R"({"revision":7,"time":"2026-11-25T06:40:00Z"})");
}

}  // namespace
}  // namespace gley::daemon
