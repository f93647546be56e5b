#include "daemon/board/documents/health.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono_literals;

Workings at_example_time() {
  Workings workings;
  workings.now = example_time;
  return workings;
}

/// The word of the only reason, "ok" without one.
std::string illness(const BoardSnapshot& board, const Workings& workings) {
  const Health health = health_of(board, workings);
  if (health.ill.empty()) return "ok";
  return health.ill.size() == 1 ? std::string(health.ill.front().what) : "several";
}

TEST_CASE("a daemon that does its work is healthy") {
  CHECK(illness(example_board(), at_example_time()) == "ok");
  CHECK(health_of(example_board(), at_example_time()).noted.empty());
}

TEST_CASE("a store that is not written is an illness and says why") {
  BoardSnapshot board = example_board();
  board.service.store_message = "alder.db: database or disk is full";
  const Health health = health_of(board, at_example_time());
  REQUIRE(health.ill.size() == 1);
  CHECK(health.ill.front().what == "store_not_written");
  CHECK(health.ill.front().text.find("disk is full") != std::string::npos);
  Workings stuck = at_example_time();
  stuck.message_stuck = true;
  CHECK(illness(example_board(), stuck) == "message_stuck");
}

TEST_CASE("a broker away is noted, and an illness once it is away longer than allowed") {
  Workings workings = at_example_time();
  workings.broker_away_allowed = 10min;
  workings.broker_away = 599s;
  CHECK(illness(example_board(), workings) == "ok");
  CHECK(health_of(example_board(), workings).noted.size() == 1);
  workings.broker_away = 600s;
  CHECK(illness(example_board(), workings) == "broker_away");
}

TEST_CASE("no reading from any station for long is an illness, from one of them is not") {
  BoardSnapshot board = example_board();
  board.service.started = example_time - 240h;
  board.stations = {{"yard", example_time - 7h, true}, {"brook", example_time - 1h, false}};
  CHECK(illness(board, at_example_time()) == "ok");
  board.stations[1].last_heard = example_time - 6h - 1min;
  CHECK(illness(board, at_example_time()) == "no_readings");
  board.stations[0].last_heard.reset();
  CHECK(illness(board, at_example_time()) == "no_readings");
  // Just started: the stations have had no time yet.
  board.service.started = example_time - 1h;
  CHECK(illness(board, at_example_time()) == "ok");
}

TEST_CASE("a thread that stood still or a board that grows old is an illness") {
  Workings workings = at_example_time();
  workings.stood_still = 25s;
  CHECK(illness(example_board(), workings) == "stood_still");
  workings = at_example_time();
  workings.now += 6min;
  CHECK(illness(example_board(), workings) == "board_old");
}

TEST_CASE("health is told as JSON, whatever is in its words") {
  BoardSnapshot board = example_board();
  board.service.store_message = "\"\xff\n";
  const auto json =
      nlohmann::json::parse(health_json(health_of(board, at_example_time()), at_example_time()));
  CHECK(json["status"] == "ill");
  CHECK(json["time"] == "2026-11-25T06:40:00Z");
  CHECK(json["reasons"].at(0)["reason"] == "store_not_written");
  CHECK(json["notes"].empty());
}

}  // namespace
}  // namespace gley::daemon
