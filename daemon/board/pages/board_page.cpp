#include "daemon/board/pages/board_page.hpp"

#include <algorithm>

#include "daemon/board/documents/topic_json.hpp"
#include "daemon/board/pages/alert_parts.hpp"
#include "daemon/board/pages/field_row.hpp"
#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/words/board_words.hpp"
#include "daemon/board/words/outlook_words.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

// Up to here a wall screen shows a field's every sign in one line; more fields stand in columns,
// each with its sign machine alone.
constexpr std::size_t most_rows = 14;
constexpr std::size_t most_signs = 9;
constexpr std::size_t few_rows = 6;

std::size_t signs_of(const BoardSnapshot& board) {
  std::size_t most = 0;
  for (const FieldView& field : board.fields) {
    most = std::max(most, field.machines.size() + field.spreading.size());
  }
  return most;
}

Markup body_class(const BoardSnapshot& board) {
  if (board.fields.size() > most_rows || signs_of(board) > most_signs) return "dense";
  return board.fields.size() <= few_rows ? Markup("matrix few") : Markup("matrix");
}

Html mast(const BoardSnapshot& board, const Moment& moment) {
  Html out;
  out.markup("<header class=\"mast\">\n<h1>")
      .text(board.farm_name)
      .markup("</h1>\n<p class=\"asof\">");
  out.text(moment.clock.day(board.time)).markup(", ");
  out.part(asof_time(board, moment.clock, moment.clock.clock(board.time)));
  out.markup("</p>\n<p class=\"sky\"><span>");
  out.text(rain_today_text(board)).markup(".</span> <span>").text(rain_ahead_text(board, moment));
  if (board.forecast) {
    out.markup(". <span class=\"aside\">Forecast of ");
    out.part(time_with_age(board.forecast->received, board.time, moment.clock)).markup("</span>");
  }
  return out.markup("</span></p>\n</header>\n");
}

/// The names of the signs, once over all rows; each row carries them too for other shapes of
/// screen and for readers by voice.
Html sign_heads(const BoardSnapshot& board) {
  Html out;
  if (board.fields.empty() || signs_of(board) == 0) return out;
  const FieldView& first = board.fields.front();
  out.markup("<ul class=\"heads\" aria-hidden=\"true\">");
  for (const MachineView& machine : first.machines) {
    out.markup("<li>").text(machine.name).markup("</li>");
  }
  for (const SpreadingView& material : first.spreading) {
    out.markup("<li>").text(material.name).markup("</li>");
  }
  return out.markup("</ul>\n");
}

Html rows(const std::vector<const FieldView*>& fields, const BoardSnapshot& board,
          const Moment& moment) {
  Html out;
  out.markup("<ul class=\"rows\">\n");
  for (const FieldView* field : fields) out.part(field_row(*field, board, moment));
  return out.markup("</ul>\n");
}

Html group(Place place, const BoardSnapshot& board, const Moment& moment) {
  Html out;
  const auto fields = fields_at(board.fields, place);
  if (fields.empty()) return out;
  const PlaceWords words = place_words(place);
  out.markup("<section class=\"group\"><h2>").text(words.name).markup(" <span class=\"aside\">");
  out.text(words.meaning).markup("</span></h2>\n").part(rows(fields, board, moment));
  return out.markup("</section>\n");
}

/// Shown by the script where the browser can tell a position.
Html nearest_first(const BoardSnapshot& board) {
  Html out;
  if (!board.has_plan) return out;
  out.markup("<div id=\"near\" hidden data-looking=\"").attribute(looking_for_position_text);
  out.markup("\" data-done=\"").attribute(nearest_done_text);
  out.markup("\" data-failed=\"").attribute(no_position_text);
  out.markup("\" data-here=\"").attribute(here_text);
  out.markup("\" data-away=\"").attribute(away_text).markup("\"><button type=\"button\">");
  out.text(nearest_button_text).markup("</button> <span class=\"aside\" role=\"status\"></span>");
  return out.markup("</div>\n");
}

Html in_one(Markup heading, const std::vector<const FieldView*>& fields, const BoardSnapshot& board,
            const Moment& moment) {
  Html out;
  out.markup("<section class=\"group\"><h2>").markup(heading).markup("</h2>\n");
  return out.part(rows(fields, board, moment)).markup("</section>\n");
}

Html all_fields(const BoardSnapshot& board, const Moment& moment, BoardOrder order) {
  Html out;
  if (board.fields.empty()) {
    return out.markup("<p class=\"lead\">").text(no_fields_text).markup("</p>\n");
  }
  if (nothing_known(board)) {
    out.markup("<p class=\"lead\">").text(first_day_text).markup("</p>\n");
  }
  if (order == BoardOrder::by_name) out.part(nearest_first(board));
  out.markup("<div class=\"fields ").markup(body_class(board)).markup("\">\n");
  out.part(sign_heads(board));
  if (order == BoardOrder::by_name) {
    out.part(in_one("By name", fields_by_name(board.fields), board, moment));
  } else if (signs_of(board) == 0) {
    std::vector<const FieldView*> as_configured;
    for (const FieldView& field : board.fields) as_configured.push_back(&field);
    out.part(in_one("Fields", as_configured, board, moment));
  } else {
    for (const Place place : places) out.part(group(place, board, moment));
  }
  return out.markup("</div>\n");
}

Html station_item(const StationView& station, const Moment& moment) {
  Html out;
  out.markup("<li>Station ").text(station.id);
  if (!station.last_heard) return out.markup(": <strong>never heard</strong></li>\n");
  out.markup(station.silent ? Markup(": <strong>silent since ") : Markup(" last heard "));
  out.part(time_with_age(*station.last_heard, moment.now, moment.clock));
  return out.markup(station.silent ? Markup("</strong></li>\n") : Markup("</li>\n"));
}

Html complaints(const std::vector<std::string>& complaints) {
  Html out;
  if (complaints.empty()) return out;
  out.markup("<details id=\"complaints\"><summary>Messages not taken as readings, the latest of ");
  out.markup("each topic</summary>\n<ul>\n");
  for (const std::string& complaint : complaints) {
    out.markup("<li>").text(complaint).markup("</li>\n");
  }
  return out.markup("</ul></details>\n");
}

Html other_order(BoardOrder order) {
  Html out;
  if (order == BoardOrder::by_name)
    return out.markup("<a href=\"?by=work\">By what can be done</a>");
  return out.markup("<a href=\"?by=name\">Fields by name</a>");
}

Html footer(const BoardSnapshot& board, const Moment& moment, BoardOrder order) {
  Html out;
  out.markup("<footer>\n<nav aria-label=\"Pages\">").part(other_order(order));
  if (board.has_plan) out.markup("<a href=\"plan\">Plan of the farm</a>");
  out.markup("<a href=\"alerts\">All alerts</a>");
  out.markup("<a href=\"api/board\">As JSON</a></nav>\n");
  out.markup("<ul class=\"sources\">\n");
  for (const StationView& station : board.stations) out.part(station_item(station, moment));
  if (board.forecast) {
    out.markup("<li>Forecast: ").text(forecast_text(*board.forecast)).markup("</li>\n");
  }
  if (advises_on_spreading(board)) out.markup("<li>").text(spreading_caution).markup("</li>\n");
  return out.markup("</ul>\n").part(complaints(board.service.complaints)).markup("</footer>\n");
}

/// For a phone, which shows of most alerts the headline alone.
Html what_to_do(const BoardSnapshot& board) {
  Html out;
  if (board.alerts.empty()) return out;
  return out.markup("<p class=\"to-do\"><a href=\"alerts\">What to do about each alert</a></p>\n");
}

}  // namespace

std::string board_page(const BoardSnapshot& board, BoardOrder order) {
  const FarmClock clock(board.time_zone);
  const Moment moment = moment_of(board, clock);
  Html live;
  live.part(mast(board, moment)).markup("<main>\n");
  live.part(notices(board, by_severity(board.alerts), clock)).part(what_to_do(board));
  live.part(all_fields(board, moment, order)).markup("</main>\n");
  live.part(footer(board, moment, order));
  return framed({.title = board.farm_name + ": soil water",
                 .root = "",
                 .revision = board.revision,
                 .page = "board",
                 .scripts = {"near.js", "seen.js"}},
                live, seen_form(board));
}

}  // namespace gley::daemon
