#include "daemon/board/pages/board_text.hpp"

#include <algorithm>
#include <array>

#include "daemon/board/documents/topic_json.hpp"
#include "daemon/board/pages/today_table.hpp"
#include "daemon/board/words/board_words.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/local_time.hpp"
#include "daemon/board/words/outlook_words.hpp"
#include "daemon/board/words/plain_words.hpp"
#include "daemon/board/words/terminal_text.hpp"

namespace gley::daemon {
namespace {

constexpr std::size_t least_width = 60;

void write_alerts(Paragraphs& out, const BoardSnapshot& board, const FarmClock& clock) {
  for (const AlertView& alert : by_severity(board.alerts)) {
    out.wrap("! ", alert.headline, 2);
    if (!alert.instruction.empty()) out.wrap("  ", alert.instruction, 2);
    const std::string fields = alert_fields_beside_headline(alert);
    const std::string seen = seen_text(alert, board.time, clock);
    out.wrap("  ",
             (fields.empty() ? "" : fields + "; ") + "since " +
                 clock.as_seen(alert.onset, board.time) + (seen.empty() ? "" : "; " + seen),
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

void write_field(Paragraphs& out, const FieldView& field, std::size_t width) {
  out.line(field_line(field, width));
  if (!field.flags.empty()) out.wrap("  (", flags_text(field) + ")", 4);
  if (field.uncertainty_mm)
    out.wrap("  ",
             "may be " + mm_text(*field.uncertainty_mm) +
                 " wetter: the rain of some days before is not known",
             4);
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

std::string age_text(std::chrono::milliseconds age) {
  const auto hours = std::chrono::floor<std::chrono::hours>(age).count();
  if (hours < 1) return "under an hour old";
  const std::string old = std::to_string(hours) + " h old";
  return hours < 24 ? old : old + ", too old to go by";
}

void write_foot(Paragraphs& out, const BoardSnapshot& board, const FarmClock& clock) {
  out.line("");
  out.wrap("",
           "Deficit: below field capacity in the topsoil (300 mm). Surplus: above it, still "
           "to drain.",
           2);
  write_stations(out, board, clock);
  if (board.forecast) {
    const Instant received = board.forecast->received;
    out.wrap("",
             "Forecast of " + clock.as_seen(received, board.time) + ", " +
                 age_text(board.time - received) + "; " + forecast_text(*board.forecast),
             2);
  } else {
    out.wrap("", "No forecast has come: spreading is not known, nor until when a field carries.",
             2);
  }
  if (advises_on_spreading(board)) out.wrap("", spreading_caution, 2);
}

bool has_answers(const BoardSnapshot& board) {
  return std::any_of(board.fields.begin(), board.fields.end(), [](const FieldView& field) {
    return !field.machines.empty() || !field.spreading.empty();
  });
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
    out.wrap("", no_fields_text, 0);
    return std::move(out).text();
  }
  if (nothing_known(board)) {
    out.wrap("", first_day_text, 0);
    out.line("");
  }
  if (has_answers(board)) {
    for (const std::string& line : today_table(board, clock, width)) out.line(line);
    out.line("");
  }
  write_table_head(out, width);
  for (const FieldView& field : board.fields) write_field(out, field, width);
  write_foot(out, board, clock);
  return std::move(out).text();
}

}  // namespace gley::daemon
