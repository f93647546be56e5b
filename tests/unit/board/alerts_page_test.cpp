#include "daemon/board/pages/alerts_page.hpp"

#include <catch2/catch.hpp>
#include <memory>

#include "daemon/board/pages/board_page.hpp"
#include "daemon/board/pages/field_page.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

AlertView seen_alert(const std::string& name) {
  AlertView alert = example_alert();
  alert.seen_by = name;
  alert.seen = example_time - std::chrono::hours{2};
  return alert;
}

AlertView ended_alert() {
  AlertView alert = example_alert();
  alert.id = "capacity-1";
  alert.headline = "At field capacity: Top Field";
  alert.instruction = "Keep heavy machines off.";
  alert.onset = example_time - std::chrono::hours{48};
  alert.seen = example_time - std::chrono::hours{47};
  alert.ended = example_time - std::chrono::hours{1};
  alert.seen_by = "Ann";
  return alert;
}

BoardSnapshot board_with_past(std::vector<AlertView> past) {
  BoardSnapshot board = example_board();
  board.past_alerts = std::make_shared<const std::vector<AlertView>>(std::move(past));
  return board;
}

TEST_CASE("a past alert stands with when it began, who saw it, when it ended and what to do") {
  const std::string page = alerts_page(board_with_past({ended_alert()}));
  for (const char* words : {"At field capacity: Top Field", "Mon 23 Nov 06:40",
                            "by Ann, Mon 23 Nov 07:40", "05:40", "Keep heavy machines off."}) {
    INFO(words);
    CHECK(has(page, words));
  }
}

TEST_CASE("an alert that nobody saw says so, and one of no field is of the whole farm") {
  AlertView alert = ended_alert();
  alert.seen_by.clear();
  alert.seen.reset();
  alert.fields.clear();
  alert.field_names.clear();
  const std::string page = alerts_page(board_with_past({alert}));
  CHECK(has(page, "by nobody"));
  CHECK(has(page, "the whole farm"));
}

TEST_CASE("alerts that stand come before those that ended") {
  const std::string page = alerts_page(board_with_past({ended_alert()}));
  CHECK(page.find("Heavy rain likely on Thursday") < page.find("At field capacity: Top Field"));
}

TEST_CASE("a farm without alerts says that none stands and none ended") {
  BoardSnapshot board = example_board();
  board.alerts.clear();
  for (const auto& past :
       {decltype(board.past_alerts){}, std::make_shared<const std::vector<AlertView>>()}) {
    board.past_alerts = past;
    const std::string page = alerts_page(board);
    CHECK(has(page, "No alert stands now."));
    CHECK(has(page, "No alert ended in the last 60 days."));
    CHECK_FALSE(has(page, "<table"));
  }
}

TEST_CASE("the seen button stands only where writes are taken and nobody has seen the alert yet") {
  BoardSnapshot board = example_board();
  for (const bool takes_writes : {false, true}) {
    board.takes_writes = takes_writes;
    for (const char* name : {"", "Ann"}) {
      board.alerts = {*name ? seen_alert(name) : example_alert()};
      for (const std::string& page :
           {board_page(board), alerts_page(board), field_page(board.fields.front(), board)}) {
        INFO(takes_writes << name);
        CHECK(has(page, "data-alert=\"rain-1\"") == (takes_writes && !*name));
        CHECK(has(page, "<dialog id=\"seen-form\"") == takes_writes);
        CHECK(has(page, "seen by Ann at 04:40") == (*name != '\0'));
      }
    }
  }
}

TEST_CASE("without a token the page of alerts says how to give one") {
  BoardSnapshot board = example_board();
  CHECK(has(alerts_page(board), "token_file under [http]"));
  board.takes_writes = true;
  CHECK_FALSE(has(alerts_page(board), "token_file under [http]"));
}

TEST_CASE("names in alerts cannot break out of the page of alerts") {
  BoardSnapshot board = example_board();
  board.takes_writes = true;
  board.farm_name = hostile_name;
  AlertView alert = seen_alert(hostile_name);
  alert.headline = alert.instruction = alert.field_names.front() = hostile_name;
  AlertView past = alert;
  past.ended = example_time;
  AlertView unseen = alert;
  unseen.seen_by.clear();
  unseen.id = "\"><script>";
  board.alerts = {alert, unseen};
  board.past_alerts = std::make_shared<const std::vector<AlertView>>(1, past);
  const std::string page = alerts_page(board);
  CHECK_FALSE(has(page, "<script>"));
  CHECK_FALSE(has(page, "\x1b"));
}

}  // namespace
}  // namespace gley::daemon
