#include "daemon/board/pages/today_table.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/words/terminal_text.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

using std::chrono::hours;

const FarmClock clock_of_farm{"Europe/London"};

MachineView machine(const std::string& name, const std::string& verdict) {
  return {.id = name, .name = name, .verdict = verdict, .margin = {}, .reasons = {}, .until = {}};
}

/// Four fields, in the worst order, with a forecast of a week.
BoardSnapshot mixed_board() {
  BoardSnapshot board = example_board();
  board.forecast.emplace().days = 7;
  const auto field = [](const std::string& name, MachineView own) {
    FieldView view = example_field();
    view.name = name;
    view.machines = {std::move(own)};
    view.spreading.clear();
    return view;
  };
  MachineView later = machine("drill", "keep off");
  later.next_window = WindowView{example_time + hours{90}, example_time + hours{130}, 0.7};
  MachineView sooner = later;
  sooner.next_window->from = example_time + hours{41} + std::chrono::minutes{20};
  MachineView ends = machine("drill", "carries");
  ends.until = example_time + hours{8};
  board.fields = {field("unknown", machine("drill", "not known")),
                  field("leave", machine("drill", "keep off")),
                  field("later", later),
                  field("sooner", sooner),
                  field("care", machine("drill", "with care")),
                  field("ends", ends),
                  field("lasts", machine("drill", "carries"))};
  return board;
}

TEST_CASE("what can be done now comes first, then what opens next, then what to leave") {
  std::vector<std::string> order;
  for (const TodayRow& row : today_rows(mixed_board(), clock_of_farm))
    order.push_back(row.fields.front());
  CHECK(order ==
        std::vector<std::string>{"lasts", "ends", "care", "sooner", "later", "leave", "unknown"});
}

TEST_CASE("each row says until when, or when it opens and how likely") {
  std::vector<std::string> when;
  for (const TodayRow& row : today_rows(mixed_board(), clock_of_farm)) when.push_back(row.when);
  CHECK(when == std::vector<std::string>{"all 7 days", "to 14:40", "", "opens Fri, 7 in 10",
                                         "opens Sun 00:40, 7 in 10", "not in 7 days", ""});
}

TEST_CASE("a forecast of one day says today, not 1 days") {
  BoardSnapshot board = mixed_board();
  board.forecast->days = 1;
  const auto rows = today_rows(board, clock_of_farm);
  CHECK(rows.front().when == "today");
  CHECK(rows.at(5).when == "not today");
}

TEST_CASE("machines of a field with one answer share a row, and materials stand after them") {
  BoardSnapshot board = example_board();
  board.fields.front().machines = {machine("quad", "carries"), machine("drill", "carries"),
                                   machine("tanker", "keep off")};
  board.fields.front().spreading.front().advice = "clear";
  const auto rows = today_rows(board, clock_of_farm);
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].names == std::vector<std::string>{"quad", "drill"});
  CHECK(rows[1].names == std::vector<std::string>{"Nitrogen"});
  CHECK(rows[1].when.empty());
  CHECK(rows[2].now == "keep off");
}

TEST_CASE("fields on which the same machines have one answer share a row") {
  BoardSnapshot board = mixed_board();
  board.fields = {board.fields[6], board.fields[5], board.fields[6]};
  const auto rows = today_rows(board, clock_of_farm);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].fields == std::vector<std::string>{"lasts", "lasts"});
  board.fields = {board.fields[0], board.fields[2]};
  CHECK(today_rows(board, clock_of_farm).at(0).fields == std::vector<std::string>{"every field"});
}

TEST_CASE("names of any length and script leave the columns where they are") {
  for (const std::string& name :
       {std::string(200, 'x'), std::string("上の畑上の畑上の畑上の畑上の畑上の畑"),
        std::string("Ye\xCC\x81t\xCC\x81 field of the far hill"),
        std::string("الحقل العلوي الكبير جدا"), std::string("\xff\x1b[2J"), std::string()}) {
    INFO(name);
    BoardSnapshot board = mixed_board();
    for (FieldView& field : board.fields) {
      field.name = name;
      field.machines.push_back(machine(name, field.machines.front().verdict));
    }
    for (const std::size_t width : {60, 80, 132})
      for (const std::string& line : today_table(board, clock_of_farm, width))
        CHECK(columns_of(line) == width);
  }
}

TEST_CASE("columns are those of Unicode Standard Annex #11: wide in East Asia, none for marks") {
  CHECK(columns_of("field") == 5);
  CHECK(columns_of("上の畑") == 6);
  CHECK(columns_of("e\xCC\x81") == 1);
  CHECK(cell("上の畑の", 7) == "上の.. ");
}

}  // namespace
}  // namespace gley::daemon
