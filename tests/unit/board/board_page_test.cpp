#include "daemon/board/board_page.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/field_page.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

bool has(const std::string& page, const std::string& words) {
  return page.find(words) != std::string::npos;
}

TEST_CASE("the board says each field's water, why, and what to mind, with units") {
  const std::string page = board_page(example_board());
  for (const char* words :
       {"Top Field", "near field capacity", "3.4 mm", "12 mm of rain today", "start assumed",
        "humidity estimated", "with care", "12 mm<", "Heavy rain likely on Thursday",
        "Hold nitrogen.", "as of", "06:40", "Station yard last heard", "06:38",
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
  CHECK_FALSE(has(page, "Machines"));
  CHECK_FALSE(has(page, "Spreading"));
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

}  // namespace
}  // namespace gley::daemon
