#include "daemon/board/pages/today_table.hpp"

#include <algorithm>
#include <optional>
#include <tuple>

#include "daemon/board/words/board_words.hpp"
#include "daemon/board/words/outlook_words.hpp"
#include "daemon/board/words/terminal_text.hpp"

namespace gley::daemon {

namespace {

/// Where an answer stands in the table.
enum class Turn { now, with_care, opens, leave, unknown };

struct Answer {
  bool is_material = false;
  Turn turn = Turn::unknown;
  std::string word;
  std::optional<Instant> until = {};
  std::optional<WindowView> window = {};

  friend bool operator==(const Answer&, const Answer&) = default;
};

/// One answer, the fields it is of and all that share it there.
struct Group {
  std::vector<std::size_t> fields;
  Answer answer;
  std::vector<std::string> names;
};

Turn turn_of(const std::string& word, const std::optional<WindowView>& window) {
  if (word == "carries" || word == "clear") return Turn::now;
  if (word == "with care") return Turn::with_care;
  if (word == "not known") return Turn::unknown;
  return window ? Turn::opens : Turn::leave;
}

Answer answer_of(const MachineView& machine) {
  const Turn turn = turn_of(machine.verdict, machine.next_window);
  Answer answer{.turn = turn, .word = machine.verdict};
  if (turn == Turn::now) answer.until = machine.until;
  if (turn == Turn::with_care || turn == Turn::opens) answer.window = machine.next_window;
  return answer;
}

Answer answer_of(const SpreadingView& material) {
  const Turn turn = turn_of(material.advice, material.next_window);
  Answer answer{.is_material = true, .turn = turn, .word = material.advice};
  if (turn == Turn::opens) answer.window = material.next_window;
  return answer;
}

template <class View>
void add_groups(const std::vector<View>& views, std::size_t field, std::vector<Group>& groups) {
  for (const View& view : views) {
    const Answer answer = answer_of(view);
    const auto known = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
      return group.fields.front() == field && group.answer == answer;
    });
    if (known == groups.end())
      groups.push_back({{field}, answer, {view.name}});
    else
      known->names.push_back(view.name);
  }
}

/// What lasts beyond the forecast comes before what ends.
auto order_of(const Group& group) {
  const Answer& answer = group.answer;
  const Instant never = Instant::max();
  const Instant lasts = answer.turn == Turn::now ? answer.until.value_or(never) : never;
  const Instant opens = answer.window ? answer.window->from : never;
  return std::tuple(answer.turn, -lasts.time_since_epoch(), opens, answer.is_material,
                    -static_cast<long>(group.names.size()));
}

void join_fields(std::vector<Group>&& of_field, std::vector<Group>& groups) {
  for (Group& own : of_field) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
      return group.answer == own.answer && group.names == own.names;
    });
    if (same == groups.end())
      groups.push_back(std::move(own));
    else
      same->fields.push_back(own.fields.front());
  }
}

std::vector<Group> groups_of(const BoardSnapshot& board) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < board.fields.size(); ++i) {
    std::vector<Group> of_field;
    add_groups(board.fields[i].machines, i, of_field);
    add_groups(board.fields[i].spreading, i, of_field);
    join_fields(std::move(of_field), groups);
  }
  std::stable_sort(groups.begin(), groups.end(),
                   [](const Group& a, const Group& b) { return order_of(a) < order_of(b); });
  return groups;
}

std::string when_text(const Answer& answer, const BoardSnapshot& board, const FarmClock& clock) {
  if (answer.turn == Turn::unknown) return "";
  if (answer.window)
    return "opens " + short_moment(answer.window->from, clock, board.time) + ", " +
           tenths_text(answer.window->probability);
  const bool fresh = board.forecast && board.forecast->days > 0;
  if (answer.turn == Turn::now && answer.until)
    return "to " + end_text(*answer.until, moment_of(board, clock));
  if (answer.is_material || answer.turn == Turn::with_care || !fresh) return "";
  const bool carried = answer.turn == Turn::now;
  if (board.forecast->days == 1) return carried ? "today" : "not today";
  return (carried ? "all " : "not in ") + std::to_string(board.forecast->days) + " days";
}

/// As many names a line as fit, a comma after each but the last.
std::vector<std::string> packed_names(const std::vector<std::string>& names, std::size_t width) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string name = plain(names[i]) + (i + 1 < names.size() ? "," : "");
    if (lines.empty() || columns_of(lines.back()) + 1 + columns_of(name) > width)
      lines.push_back(name);
    else
      lines.back() += " " + name;
  }
  return lines;
}

constexpr std::size_t now_width = 9;    // "with care", "not known"
constexpr std::size_t when_width = 24;  // "opens Sat 15:00, 7 in 10"
constexpr std::size_t gap = 2;

}  // namespace

std::vector<TodayRow> today_rows(const BoardSnapshot& board, const FarmClock& clock) {
  std::vector<TodayRow> rows;
  for (Group& group : groups_of(board)) {
    TodayRow row{
        {}, std::move(group.names), group.answer.word, when_text(group.answer, board, clock)};
    for (const std::size_t field : group.fields) row.fields.push_back(board.fields[field].name);
    if (row.fields.size() > 1 && row.fields.size() == board.fields.size())
      row.fields = {"every field"};
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<std::string> today_table(const BoardSnapshot& board, const FarmClock& clock,
                                     std::size_t width) {
  const std::size_t names = width - now_width - when_width - 3 * gap;
  const std::size_t field_width = names * 2 / 5;
  const std::size_t what_width = names - field_width;
  const std::string between(gap, ' ');
  std::vector<std::string> lines;
  const auto add = [&](std::string_view field, std::string_view what, std::string_view now,
                       std::string_view when) {
    lines.push_back(cell(field, field_width) + between + cell(what, what_width) + between +
                    cell(now, now_width) + between + cell(when, when_width));
  };
  add("Field", "Machine or material", "Now", "Until, or opens");
  lines.emplace_back(width, '-');
  for (const TodayRow& row : today_rows(board, clock)) {
    const std::vector<std::string> fields = packed_names(row.fields, field_width);
    const std::vector<std::string> what = packed_names(row.names, what_width);
    const auto at = [](const std::vector<std::string>& lines_of, std::size_t i) {
      return i < lines_of.size() ? std::string_view(lines_of[i]) : std::string_view();
    };
    add(fields.front(), what.front(), row.now, row.when);
    for (std::size_t i = 1; i < std::max(fields.size(), what.size()); ++i)
      add(at(fields, i), at(what, i), "", "");
  }
  return lines;
}

}  // namespace gley::daemon
