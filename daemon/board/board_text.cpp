#include "daemon/board/board_text.hpp"

#include <algorithm>
#include <array>

#include "daemon/board/local_time.hpp"
#include "daemon/board/number_text.hpp"
#include "daemon/board/outlook_words.hpp"
#include "daemon/board/plain_words.hpp"
#include "daemon/board/topic_json.hpp"
#include "daemon/board/utf8.hpp"

namespace gley::daemon {
namespace {

constexpr std::size_t least_width = 60;

/// What may go to a terminal: controls become '?', as U+FFFD may not be in its font.
std::string plain(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const char32_t point = take_code_point(text);
    append_code_point(out, point == replacement_point || is_control(point) ? U'?' : point);
  }
  return out;
}

/// The first `count` code points.
std::string first_points(std::string_view text, std::size_t count) {
  std::string out;
  for (; count > 0 && !text.empty(); --count) append_code_point(out, take_code_point(text));
  return out;
}

/// Cut or filled to exactly `width` columns; what was cut ends in "..".
std::string cell(std::string_view text, std::size_t width) {
  const std::string safe = plain(text);
  const std::size_t length = code_points(safe);
  if (length > width) return first_points(safe, width - 2) + "..";
  return safe + std::string(width - length, ' ');
}

std::string right_cell(const std::string& text, std::size_t width) {
  return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

/// Collects lines no longer than the width, breaking at spaces and, if need be, inside words.
class Paragraphs {
 public:
  explicit Paragraphs(std::size_t width) : width_(width) {}

  void line(const std::string& text) { out_ += first_points(text, width_) + '\n'; }

  /// The first line begins with `lead`, the others are indented by `indent` spaces.
  void wrap(std::string_view lead, std::string_view text, std::size_t indent) {
    std::string line(lead);
    bool fresh = true;
    const std::string safe = plain(text);
    for (std::string_view rest = safe; !rest.empty();) {
      const std::size_t end = rest.find(' ');
      add_word(line, rest.substr(0, end), indent, fresh);
      rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
    }
    if (!line.empty()) out_ += line + '\n';
  }

  [[nodiscard]] std::string text() && { return std::move(out_); }

 private:
  void add_word(std::string& line, std::string_view word, std::size_t indent, bool& fresh) {
    const std::size_t space = fresh ? 0 : 1;
    if (!fresh && code_points(line) + space + code_points(word) > width_) {
      out_ += line + '\n';
      line.assign(indent, ' ');
      fresh = true;
    }
    if (!fresh) line += ' ';
    line += word;
    fresh = false;
    while (code_points(line) > width_) {
      const std::string head = first_points(line, width_);
      out_ += head + '\n';
      line = std::string(indent, ' ') + line.substr(head.size());
    }
  }

  std::size_t width_;
  std::string out_;
};

void write_alerts(Paragraphs& out, const BoardSnapshot& board, const FarmClock& clock) {
  for (const AlertView& alert : by_severity(board.alerts)) {
    out.wrap("! ", alert.headline, 2);
    if (!alert.instruction.empty()) out.wrap("  ", alert.instruction, 2);
    const std::string fields = alert_fields(alert);
    out.wrap(
        "  ",
        (fields.empty() ? "" : fields + "; ") + "since " + clock.as_seen(alert.onset, board.time),
        2);
  }
}

constexpr std::array<std::string_view, 3> number_heads{"Deficit mm", "Surplus mm", "Rain mm"};
constexpr std::size_t wetness_width = 19;
constexpr std::size_t number_width = 10;

std::size_t name_width(std::size_t width) {
  return width - 2 - wetness_width - 3 * (number_width + 1);
}

void write_table_head(Paragraphs& out, std::size_t width) {
  std::string line = cell("Field", name_width(width)) + "  " + cell("Wetness", wetness_width);
  for (const std::string_view head : number_heads) {
    line += ' ' + right_cell(std::string(head), number_width);
  }
  out.line(line);
  out.line(std::string(width, '-'));
}

std::string field_line(const FieldView& field, std::size_t width) {
  std::string line =
      cell(field.name, name_width(width)) + "  " + cell(wetness_text(field), wetness_width);
  for (const double mm : {field.topsoil_deficit_mm, field.surplus_mm, field.rain_today_mm}) {
    line += ' ' + right_cell(field.known ? mm_digits(mm) : "-", number_width);
  }
  return line;
}

template <typename View, typename Word>
std::string pairs(const std::vector<View>& views, Word word) {
  std::string out;
  for (const View& view : views) {
    if (!out.empty()) out += "; ";
    out += view.name + ": " + word(view);
  }
  return out;
}

void write_field(Paragraphs& out, const FieldView& field, std::size_t width) {
  out.line(field_line(field, width));
  if (!field.machines.empty()) {
    out.wrap("  ", pairs(field.machines, [](const MachineView& m) { return m.verdict; }), 4);
  }
  if (!field.spreading.empty()) {
    out.wrap("  ", pairs(field.spreading, [](const SpreadingView& s) { return s.advice; }), 4);
  }
  if (!field.flags.empty()) out.wrap("  (", flags_text(field) + ")", 4);
}

void write_stations(Paragraphs& out, const BoardSnapshot& board, const FarmClock& clock) {
  for (const StationView& station : board.stations) {
    const std::string heard = !station.last_heard
                                  ? "never heard"
                                  : (station.silent ? "SILENT since " : "last heard ") +
                                        clock.as_seen(*station.last_heard, board.time);
    out.wrap("", "Station " + station.id + ": " + heard, 2);
  }
}

void write_foot(Paragraphs& out, const BoardSnapshot& board, const FarmClock& clock) {
  out.line("");
  out.wrap("",
           "Deficit: below field capacity in the topsoil (300 mm). Surplus: above it, still "
           "to drain.",
           2);
  write_stations(out, board, clock);
  if (board.forecast_time) {
    const std::string more = board.forecast ? "; " + forecast_text(*board.forecast) : "";
    out.wrap("", "Forecast of " + clock.as_seen(*board.forecast_time, board.time) + more, 2);
  }
  const bool advice = std::any_of(board.fields.begin(), board.fields.end(),
                                  [](const FieldView& field) { return !field.spreading.empty(); });
  if (advice) out.wrap("", spreading_caution, 2);
}

bool nothing_known(const BoardSnapshot& board) {
  return std::none_of(board.fields.begin(), board.fields.end(),
                      [](const FieldView& field) { return field.known; });
}

}  // namespace

std::string board_text(const BoardSnapshot& board, std::size_t width) {
  width = width < least_width ? least_width : width;
  const FarmClock clock(board.time_zone);
  Paragraphs out(width);
  out.wrap(
      "", board.farm_name + ", " + clock.day(board.time) + ", as of " + clock.clock(board.time), 2);
  for (const std::string& trouble : service_troubles(board.service)) out.wrap("! ", trouble, 2);
  write_alerts(out, board, clock);
  out.line("");
  if (board.fields.empty()) {
    out.line("The configuration names no field.");
    return std::move(out).text();
  }
  if (nothing_known(board)) {
    out.wrap("", "No weather has arrived yet, so nothing is known of any field.", 0);
    out.line("");
  }
  write_table_head(out, width);
  for (const FieldView& field : board.fields) write_field(out, field, width);
  write_foot(out, board, clock);
  return std::move(out).text();
}

}  // namespace gley::daemon
