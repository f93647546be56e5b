#include "daemon/board/board_page.hpp"

#include <algorithm>
#include <array>

#include "daemon/board/number_text.hpp"
#include "daemon/board/outlook_words.hpp"
#include "daemon/board/page_frame.hpp"
#include "daemon/board/plain_words.hpp"
#include "daemon/board/signs.hpp"
#include "daemon/board/topic_json.hpp"

namespace gley::daemon {
namespace {

/// Columns that stand only where there is something to say in them.
struct Columns {
  bool machines = false;
  bool spreading = false;
};

Columns columns_of(const std::vector<FieldView>& fields) {
  Columns columns;
  for (const FieldView& field : fields) {
    columns.machines = columns.machines || !field.machines.empty();
    columns.spreading = columns.spreading || !field.spreading.empty();
  }
  return columns;
}

Html field_head(const FieldView& field) {
  Html out;
  out.markup("<th scope=\"row\" role=\"rowheader\"><span class=\"field\">");
  out.part(soil_column(field)).markup("<span><a href=\"field/").url(field.id).markup("\">");
  out.text(field.name).markup("</a> <span class=\"aside\">").text(field.crop);
  if (!field.crop.empty() && !field.soil.empty()) out.markup(", ");
  return out.text(field.soil).markup("</span></span></span></th>\n");
}

/// The wetness, and why.
Html wetness_cell(const FieldView& field) {
  Html out;
  out.markup("<td role=\"cell\"><b class=\"wetness\">").text(wetness_text(field)).markup("</b>");
  if (!field.reasons.empty()) {
    out.markup(" <span class=\"aside\">").text(joined(field.reasons, "; ")).markup("</span>");
  }
  return out.markup("</td>\n");
}

Html water_cell(const FieldView& field) {
  Html out;
  out.markup("<td role=\"cell\">");
  if (!field.known) return out.markup("not known</td>\n");
  for (const WaterPhrase& phrase : water_phrases(field)) {
    out.markup("<span class=\"amount\">");
    if (!phrase.amount.empty()) out.markup("<b>").text(phrase.amount).markup("</b> ");
    out.text(phrase.words).markup("</span> ");
  }
  if (!field.flags.empty()) {
    out.markup("<span class=\"flags\">").text(flags_text(field)).markup("</span>");
  }
  return out.markup("</td>\n");
}

Html rain_cell(const FieldView& field) {
  Html out;
  out.markup("<td role=\"cell\" class=\"rain\"><span class=\"label\">Rain today </span>");
  return out.text(field.known ? mm_text(field.rain_today_mm) : std::string(not_known))
      .markup("</td>\n");
}

Html machine_cell(const FieldView& field) {
  Html out;
  out.markup("<td role=\"cell\"><ul class=\"signs\">");
  for (const MachineView& machine : field.machines) out.part(machine_item(machine));
  return out.markup("</ul></td>\n");
}

Html spreading_cell(const FieldView& field) {
  Html out;
  out.markup("<td role=\"cell\"><ul class=\"signs\">");
  for (const SpreadingView& material : field.spreading) out.part(spreading_item(material));
  return out.markup("</ul></td>\n");
}

Html field_row(const FieldView& field, Columns columns) {
  Html out;
  out.markup("<tr role=\"row\">\n").part(field_head(field)).part(wetness_cell(field));
  out.part(water_cell(field)).part(rain_cell(field));
  if (columns.machines) out.part(machine_cell(field));
  if (columns.spreading) out.part(spreading_cell(field));
  return out.markup("</tr>\n");
}

struct Group {
  Carrying carrying;
  Markup heading;
};

/// What can be done now stands first, what to leave last.
constexpr std::array groups{
    Group{Carrying::every_machine, "Carries every machine"},
    Group{Carrying::some, "Carries some, or with care"},
    Group{Carrying::none, "Keep off"},
    Group{Carrying::unknown, "Not known"},
};

/// How much of the machinery a field takes: two for each machine carried, one for each with care.
int ease(const FieldView& field) {
  int points = 0;
  for (const MachineView& machine : field.machines) {
    points += machine.verdict == "carries" ? 2 : machine.verdict == "with care" ? 1 : 0;
  }
  return points;
}

/// Easiest ground first; fields alike stay as the configuration lists them.
std::vector<const FieldView*> by_ease(const std::vector<FieldView>& fields) {
  std::vector<const FieldView*> order;
  order.reserve(fields.size());
  for (const FieldView& field : fields) order.push_back(&field);
  std::stable_sort(order.begin(), order.end(),
                   [](const FieldView* a, const FieldView* b) { return ease(*a) > ease(*b); });
  return order;
}

Html group_rows(const std::vector<const FieldView*>& fields, const Group& group, Columns columns) {
  Html rows;
  for (const FieldView* field : fields) {
    if (carrying(*field) == group.carrying) rows.part(field_row(*field, columns));
  }
  if (rows.empty()) return rows;
  Html out;
  out.markup("<tbody role=\"rowgroup\">\n<tr role=\"row\" class=\"group\"><th role=\"rowheader\" ");
  out.markup("scope=\"rowgroup\" colspan=\"");
  out.text(std::to_string(5 + (columns.spreading ? 1 : 0))).markup("\">").markup(group.heading);
  return out.markup("</th></tr>\n").part(rows).markup("</tbody>\n");
}

Html table_head(Columns columns) {
  Html out;
  out.markup("<thead role=\"rowgroup\"><tr role=\"row\">");
  out.markup("<th scope=\"col\" role=\"columnheader\">Field</th>");
  out.markup("<th scope=\"col\" role=\"columnheader\">Wetness, and why</th>");
  out.markup("<th scope=\"col\" role=\"columnheader\">Water</th>");
  out.markup("<th scope=\"col\" role=\"columnheader\">Rain today</th>");
  if (columns.machines) out.markup("<th scope=\"col\" role=\"columnheader\">Machines</th>");
  if (columns.spreading) out.markup("<th scope=\"col\" role=\"columnheader\">Spreading</th>");
  return out.markup("</tr></thead>\n");
}

Html field_table(const std::vector<FieldView>& fields) {
  Html out;
  const Columns columns = columns_of(fields);
  out.markup("<h2 id=\"fields\" class=\"unseen\">Fields</h2>\n");
  if (fields.empty()) return out.markup("<p>The configuration names no field.</p>\n");
  out.markup("<table role=\"table\" class=\"board\" aria-labelledby=\"fields\">\n");
  out.part(table_head(columns));
  if (columns.machines) {
    const auto order = by_ease(fields);
    for (const Group& group : groups) out.part(group_rows(order, group, columns));
  } else {
    out.markup("<tbody role=\"rowgroup\">\n");
    for (const FieldView& field : fields) out.part(field_row(field, columns));
    out.markup("</tbody>\n");
  }
  return out.markup("</table>\n");
}

Html station_item(const StationView& station, Instant now, const FarmClock& clock) {
  Html out;
  out.markup("<li>Station ").text(station.id);
  if (!station.last_heard) return out.markup(": <strong>never heard</strong></li>\n");
  out.markup(station.silent ? Markup(": <strong>silent since ") : Markup(" last heard "));
  out.part(time_with_age(*station.last_heard, now, clock));
  return out.markup(station.silent ? Markup("</strong></li>\n") : Markup("</li>\n"));
}

Html complaints(const std::vector<std::string>& complaints) {
  Html out;
  if (complaints.empty()) return out;
  out.markup(
      "<details id=\"complaints\"><summary>Messages not taken as readings, the latest of each ");
  out.markup("topic</summary>\n<ul>\n");
  for (const std::string& complaint : complaints) {
    out.markup("<li>").text(complaint).markup("</li>\n");
  }
  return out.markup("</ul></details>\n");
}

Html footer(const BoardSnapshot& board, const FarmClock& clock) {
  Html out;
  out.markup("<footer>\n<ul class=\"sources\">\n");
  for (const StationView& station : board.stations) {
    out.part(station_item(station, board.time, clock));
  }
  if (board.forecast_time) {
    out.markup("<li>Forecast of ").part(time_with_age(*board.forecast_time, board.time, clock));
    if (board.forecast) out.markup("; ").text(forecast_text(*board.forecast));
    out.markup("</li>\n");
  }
  out.markup("<li><a href=\"api/board\">The same as JSON</a></li>\n</ul>\n");
  if (columns_of(board.fields).spreading) {
    out.markup("<p>").text(spreading_caution).markup("</p>\n");
  }
  return out.part(complaints(board.service.complaints)).markup("</footer>\n");
}

Html header(const BoardSnapshot& board, const FarmClock& clock) {
  Html out;
  out.markup("<header>\n<h1>").text(board.farm_name).markup("</h1>\n<p class=\"asof\">");
  out.text(clock.day(board.time)).markup(", as of <time id=\"asof\" datetime=\"");
  out.attribute(rfc3339(board.time)).markup("\">").text(clock.clock(board.time));
  return out.markup("</time></p>\n</header>\n");
}

bool nothing_known(const BoardSnapshot& board) {
  return !board.fields.empty() && std::none_of(board.fields.begin(), board.fields.end(),
                                               [](const FieldView& field) { return field.known; });
}

}  // namespace

std::string board_page(const BoardSnapshot& board) {
  const FarmClock clock(board.time_zone);
  Html live;
  live.part(header(board, clock)).markup("<main>\n");
  live.part(notices(board, by_severity(board.alerts), clock));
  if (nothing_known(board)) {
    live.markup(
        "<p class=\"lead\">No weather has arrived yet, so nothing is known of any field. The ");
    live.markup("board fills with the first day that has a reading.</p>\n");
  }
  live.part(field_table(board.fields)).markup("</main>\n").part(footer(board, clock));
  return framed({.title = board.farm_name + ": soil water", .root = "", .revision = board.revision},
                live);
}

}  // namespace gley::daemon
