#include "daemon/board/pages/board_text.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "daemon/board/words/plain_words.hpp"
#include "daemon/board/words/terminal_text.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

std::size_t longest_line(const std::string& text) {
  std::istringstream lines(text);
  std::size_t longest = 0;
  for (std::string line; std::getline(lines, line);) {
    longest = std::max(longest, columns_of(line));
  }
  return longest;
}

TEST_CASE("the text board says what the page says") {
  const std::string text = board_text(example_board());
  CHECK(text.starts_with("Alder Farm, Wednesday 25 November 2026, as of 06:40\n"));
  CHECK(has(text, "! Heavy rain likely on Thursday\n  Hold nitrogen.\n"));
  CHECK(has(text, "near field capacity        3.4          0         12\n"));
  CHECK(has(text, "Top Field         Tractor and drill          with care\n"));
  CHECK(has(text, "Top Field         Nitrogen                   hold\n"));
  CHECK(has(text, "(start assumed; humidity estimated)"));
  CHECK(has(text, "Station yard: last heard 06:38"));
  CHECK(text.find("Heavy rain") < text.find("Top Field "));
  CHECK(has(text, "No forecast has come"));
}

TEST_CASE("an alert names its fields once") {
  BoardSnapshot board = example_board();
  AlertView& alert = board.alerts.front();
  const std::string headline = "Waterlogged: " + alert_fields(alert);
  CHECK(has(board_text(board), "  " + alert_fields(alert) + "; since "));
  alert.headline = headline;
  const std::string text = board_text(board);
  CHECK(has(text, "! " + headline + "\n"));
  CHECK_FALSE(has(text, "; since "));
  CHECK(has(text, "  since "));
}

TEST_CASE("no line of the text board is wider than the terminal") {
  BoardSnapshot board = example_board();
  FieldView& field = board.fields.front();
  field.name = std::string(200, 'x');
  field.machines.assign(9, field.machines.front());
  field.machines[4].name = std::string(200, 'w');
  board.alerts.front().headline = std::string(90, 'a') + ' ' + std::string(300, 'b');
  for (const std::size_t width : {60, 80, 132}) {
    INFO(width);
    CHECK(longest_line(board_text(board, width)) <= width);
  }
  CHECK(longest_line(board_text(board)) == 80);
}

TEST_CASE("long words are broken, not lost") {
  BoardSnapshot board = example_board();
  board.alerts.front().headline = std::string(200, 'Q');
  const std::string text = board_text(board);
  CHECK(std::count(text.begin(), text.end(), 'Q') == 200);
}

TEST_CASE("a name cannot command the terminal") {
  BoardSnapshot board = example_board();
  board.farm_name = board.fields.front().name = hostile_name +
                                                "\r\n\xC2\x9B"
                                                "31m";
  board.alerts.front().headline = hostile_name;
  const std::string text = board_text(board);
  CHECK(text.find('\x1b') == std::string::npos);
  CHECK(text.find('\r') == std::string::npos);
  CHECK_FALSE(has(text, "\xC2\x9B"));
  CHECK(has(text, "<script>\"'&?[2J?"));
}

TEST_CASE("the text board says when nothing is known, and when the broker is away") {
  BoardSnapshot board = example_board();
  board.fields.front().known = false;
  board.service.broker_connected = false;
  const std::string text = board_text(board);
  CHECK(has(text, "No weather has arrived yet"));
  CHECK(has(text, "no weather yet               -          -          -"));
  CHECK(has(text, "! Not connected to the broker localhost:1883"));
}

}  // namespace
}  // namespace gley::daemon
