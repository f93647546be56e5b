#include "daemon/board/pages/board_page.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/pages/alerts_page.hpp"
#include "daemon/board/pages/field_page.hpp"
#include "daemon/board/pages/plan_page.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

TEST_CASE("the board says each field's water, why, and what to mind, with units") {
  const std::string page = board_page(example_board());
  for (const char* words :
       {"Top Field", "near field capacity", "topsoil 3 mm below field capacity", "start assumed",
        "with care", "Rain today: 12 mm at yard", "Heavy rain likely on Thursday", "Hold nitrogen.",
        "Wednesday 25 November 2026", "06:40", "Station yard last heard", "06:38 (2 min ago)",
        "Local codes and product labels decide."}) {
    INFO(words);
    CHECK(has(page, words));
  }
}

TEST_CASE("troubles of broker and store are told on the page") {
  BoardSnapshot board = example_board();
  board.service.broker_connected = false;
  board.service.broker_message = "connection refused";
  board.service.store_message = "disk full";
  const std::string page = board_page(board);
  CHECK(has(page, "Not connected to the broker localhost:1883: connection refused"));
  CHECK(has(page, "Readings cannot be stored: disk full"));
}

TEST_CASE("a field without weather shows no number") {
  BoardSnapshot board = example_board();
  board.alerts.clear();
  FieldView& field = board.fields.front();
  field.known = false;
  field.flags.clear();
  field.reasons.clear();
  for (const std::string& page : {board_page(board), field_page(field, board)}) {
    CHECK(has(page, "no weather yet"));
    CHECK_FALSE(has(page, " mm<"));
  }
}

TEST_CASE("without machines and materials their columns do not stand") {
  BoardSnapshot board = example_board();
  board.fields.front().machines.clear();
  board.fields.front().spreading.clear();
  const std::string page = board_page(board);
  CHECK_FALSE(has(page, "class=\"heads\""));
  CHECK_FALSE(has(page, "class=\"job\""));
  CHECK(has(page, "Top Field"));
}

TEST_CASE("ground that carries stands above ground to keep off") {
  BoardSnapshot board = example_board();
  board.fields.assign(3, example_field());
  const char* verdicts[] = {"keep off", "with care", "carries"};
  const char* names[] = {"Marsh", "Middling", "Firm"};
  for (std::size_t i = 0; i < 3; ++i) {
    board.fields[i].name = names[i];
    board.fields[i].machines.front().verdict = verdicts[i];
  }
  const std::string page = board_page(board);
  CHECK(page.find("Firm") < page.find("Middling"));
  CHECK(page.find("Middling") < page.find("Marsh"));
}

TEST_CASE("by name the fields stand from A to Z") {
  BoardSnapshot board = example_board();
  board.fields.assign(3, example_field());
  const char* names[] = {"Withy Moor", "alder bottom", "Sandpit"};
  for (std::size_t i = 0; i < 3; ++i) board.fields[i].name = names[i];
  const std::string page = board_page(board, BoardOrder::by_name);
  CHECK(page.find("alder bottom") < page.find("Sandpit"));
  CHECK(page.find("Sandpit") < page.find("Withy Moor"));
}

TEST_CASE("a farm of no field, one, or five hundred has a page that says so") {
  BoardSnapshot board = example_board();
  board.fields.clear();
  CHECK(has(board_page(board), "The configuration names no field."));
  board.fields.assign(1, example_field());
  CHECK(has(board_page(board), "matrix few"));
  board.fields.assign(500, example_field());
  const std::string page = board_page(board);
  CHECK(has(page, "dense"));
  CHECK(page.find("</html>") != std::string::npos);
}

TEST_CASE("the gravest alert stands first") {
  BoardSnapshot board = example_board();
  board.alerts.insert(board.alerts.begin(), example_alert());
  board.alerts.front().severity = "Minor";
  board.alerts.front().headline = "A small matter";
  const std::string page = board_page(board);
  CHECK(page.find("Heavy rain likely") < page.find("A small matter"));
}

TEST_CASE("a field's page shows only its own alerts") {
  BoardSnapshot board = example_board();
  board.alerts.front().fields = {"other"};
  CHECK_FALSE(has(field_page(board.fields.front(), board), "Heavy rain likely"));
}

TEST_CASE("every page that says when it was made tells the script too, for when the line is lost") {
  const BoardSnapshot board = example_board();
  for (const std::string& page : {board_page(board), field_page(board.fields.front(), board),
                                  alerts_page(board), plan_page(board, PlanView{}, "")}) {
    const std::size_t at = page.find("id=\"asof\"");
    REQUIRE(at != std::string::npos);
    CHECK(has(page.substr(at, page.find('>', at) - at), "data-day=\"Wed 25 Nov 06:40\""));
  }
}

}  // namespace
}  // namespace gley::daemon
