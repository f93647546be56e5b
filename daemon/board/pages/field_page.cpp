#include "daemon/board/pages/field_page.hpp"

#include <algorithm>

#include "daemon/board/documents/topic_json.hpp"
#include "daemon/board/pages/alert_parts.hpp"
#include "daemon/board/pages/field_parts.hpp"
#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/pages/signs.hpp"
#include "daemon/board/pages/table_parts.hpp"
#include "daemon/board/pages/told_section.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/outlook_words.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

/// A flag's words with what it means for the answers, where that is not plain. Eq. 48's guess
/// overstates ET0 by 1 to 21 % at Irish stations: tests/measured/README.md. Snow in gauges: WMO-No.
/// 8 (from memory).
std::string flag_caution(const std::string& flag) {
  if (flag == "humidity_estimated")
    return "humidity estimated: where that rests on the night's low alone, the air may take up to "
           "a fifth less than reckoned, and the soil be wetter";
  if (flag == "snow") return "snow, of which a gauge catches too little and often tells it late";
  return flag_words(flag);
}

std::vector<AlertView> alerts_of(const FieldView& field, const BoardSnapshot& board) {
  std::vector<AlertView> alerts = by_severity(board.alerts);
  std::erase_if(alerts, [&](const AlertView& alert) {
    return std::find(alert.fields.begin(), alert.fields.end(), field.id) == alert.fields.end();
  });
  return alerts;
}

Html header(const FieldView& field, const BoardSnapshot& board, const FarmClock& clock) {
  Html out;
  out.markup("<header>\n<h1>").text(field.name).markup("</h1>\n<p class=\"asof\"><a href=\"../\">");
  out.text(board.farm_name).markup(", all fields</a>, as of ");
  out.part(asof_time(board, clock, clock.day_and_clock(board.time)));
  return out.markup("</p>\n</header>\n");
}

Html row(Markup name, const std::string& value) {
  Html out;
  out.markup("<tr><th scope=\"row\">").markup(name).markup("</th><td>").text(value);
  return out.markup("</td></tr>\n");
}

/// A number that leads to how it came about. key: of its line in the explanation.
struct Explained {
  std::string_view key;
  Markup name;
  double value_mm = 0.0;
};

Html explained_row(const FieldView& field, const Explained& number) {
  Html out;
  out.markup("<tr><th scope=\"row\">").markup(number.name).markup("</th><td><a href=\"");
  out.url(field.id).markup("/explain?date=").url(field.date).markup("#").url(number.key);
  return out.markup("\">").text(mm_text(number.value_mm)).markup("</a></td></tr>\n");
}

Html numbers(const FieldView& field) {
  Html out;
  out.markup("<section><h2>Numbers</h2>\n<table class=\"plain\">\n");
  out.markup("<caption>Each leads to how it came about</caption>\n");
  for (const Explained& number :
       {Explained{"topsoil_deficit_mm", "Topsoil below field capacity", field.topsoil_deficit_mm},
        Explained{"depletion_mm", "Rooted soil below field capacity", field.depletion_mm},
        Explained{"surplus_mm", "Surplus still to drain", field.surplus_mm},
        Explained{"pond_mm", "Standing on the ground", field.pond_mm},
        Explained{"snow_mm", "Water in snow", field.snow_mm},
        Explained{"rain_mm", "Rain today", field.rain_today_mm},
        Explained{"et0_mm", "Evaporative demand today (ET0)", field.et0_mm}})
    out.part(explained_row(field, number));
  out.part(row("Water leaving by drains or below the roots", field.drains_running ? "yes" : "no"));
  return out.markup("</table></section>\n");
}

Html ground(const FieldView& field, const FieldDetails& details) {
  Html out;
  out.markup("<section><h2>Ground</h2>\n<table class=\"plain\">\n");
  out.part(row("Soil", field.soil));
  out.part(row("Drainage", field.drainage)).part(row("Crop", field.crop));
  out.part(row("Slope", decimal_text(field.slope_pct) + " %"));
  if (field.area_ha) out.part(row("Area", decimal_text(round_to(*field.area_ha, 0.1)) + " ha"));
  if (details.buffer_ha)
    out.part(
        row("Of it in buffers to water", decimal_text(round_to(*details.buffer_ha, 0.1)) + " ha"));
  out.part(row("Rain from station", field.station.empty() ? "none yet" : field.station));
  if (field.known) out.part(row("Day", field.date));
  return out.markup("</table></section>\n");
}

Html list(Markup heading, const std::vector<std::string>& lines) {
  Html out;
  if (lines.empty()) return out;
  out.markup("<section><h2>").markup(heading).markup("</h2>\n<ul>\n");
  for (const std::string& line : lines) out.markup("<li>").text(line).markup("</li>\n");
  return out.markup("</ul></section>\n");
}

Html layer_row(const LayerView& layer, double top_mm) {
  Html out;
  out.markup("<tr><th scope=\"row\">").text(decimal_text(round_to(top_mm, 1.0))).markup(" to ");
  out.text(decimal_text(round_to(top_mm + layer.thickness_mm, 1.0))).markup("</th>");
  for (const double share :
       {layer.theta, layer.wilting_point, layer.field_capacity, layer.saturation})
    out.part(table_cell(percent_text(share)));
  return out.markup("</tr>\n");
}

Html layer_table(const FieldView& field) {
  Html out;
  if (!field.known || field.layers.empty()) return out;
  out.markup("<section><h2>Layers</h2>\n<table class=\"plain\">\n");
  out.markup("<caption>Water by volume, from the ground down</caption>\n");
  out.part(table_head({"Depth, mm", "Water", "Wilting point", "Field capacity", "Saturation"}));
  out.markup("<tbody>\n");
  double top_mm = 0.0;
  for (const LayerView& layer : field.layers) {
    out.part(layer_row(layer, top_mm));
    top_mm += layer.thickness_mm;
  }
  return out.markup("</tbody>\n</table></section>\n");
}

Html reasons_of(const std::vector<std::string>& reasons) {
  Html out;
  if (!reasons.empty()) out.markup("<p>").text(joined(reasons, "; ")).markup("</p>");
  return out;
}

Html next_window(const std::optional<WindowView>& window, Instant now, const FarmClock& clock) {
  Html out;
  if (window) out.markup("<p>").text(window_text(*window, clock, now)).markup("</p>");
  return out;
}

Html machine_list(const FieldView& field, Instant now, const FarmClock& clock) {
  Html out;
  if (field.machines.empty()) return out;
  out.markup("<section><h2>Machines</h2>\n<ul class=\"signs tall\">\n");
  for (const MachineView& machine : field.machines) {
    out.part(machine_item(machine)).markup("<li class=\"why\">").part(reasons_of(machine.reasons));
    if (machine.until) {
      out.markup("<p>until ").text(clock.as_seen(*machine.until, now)).markup("</p>");
    }
    out.part(next_window(machine.next_window, now, clock));
    out.markup("</li>\n");
  }
  return out.markup("</ul></section>\n");
}

Html spreading_list(const FieldView& field, Instant now, const FarmClock& clock) {
  Html out;
  if (field.spreading.empty()) return out;
  out.markup("<section><h2>Spreading</h2>\n<ul class=\"signs tall\">\n");
  for (const SpreadingView& material : field.spreading) {
    out.part(spreading_item(material)).markup("<li class=\"why\">");
    out.part(reasons_of(material.reasons));
    out.part(next_window(material.next_window, now, clock)).markup("</li>\n");
  }
  return out.markup("</ul>\n<p>").text(spreading_caution).markup("</p></section>\n");
}

Html water_section(const FieldView& field) {
  Html out;
  out.markup("<section class=\"water-now\">").part(soil_column(field));
  out.markup("<div><p class=\"wetness\"><b>").text(wetness_text(field)).markup("</b></p>\n");
  if (!field.known) {
    out.markup("<p>Nothing is known of this field until its station has sent a day's weather.</p>");
    return out.markup("</div></section>\n");
  }
  for (const WaterPhrase& phrase : water_phrases(field)) {
    out.markup("<p>").text(phrase.amount).markup(" ").text(phrase.words).markup("</p>\n");
  }
  return out.markup("</div></section>\n");
}

Html footer(const FieldView& field, bool has_plan) {
  Html out;
  out.markup("<footer>\n<ul class=\"sources\">");
  if (has_plan) out.markup("<li><a href=\"../plan\">Plan of the farm</a></li>");
  out.markup("<li><a href=\"../alerts\">All alerts</a></li><li><a href=\"").url(field.id);
  out.markup("/seasons\">Seasons side by side</a></li><li><a href=\"").url(field.id);
  out.markup("/explain?date=").url(field.date);
  out.markup("\">How today's numbers came about</a></li><li><a href=\"../api/field/").url(field.id);
  out.markup("/days.csv\">Every day as CSV</a></li><li><a href=\"../api/field/").url(field.id);
  return out.markup("\">The same as JSON</a></li></ul>\n</footer>\n");
}

Html charts(const FieldView& field) {
  const std::string record = "../api/field/" + url_part(field.id) + "/record";
  const std::string ahead = "../api/field/" + url_part(field.id) + "/ahead";
  Html out;
  out.markup("<section class=\"charts\" aria-labelledby=\"charts\" data-ahead=\"");
  out.attribute(ahead).markup("\">\n<h2 id=\"charts\">What was, is and will be</h2>\n");
  out.markup("<noscript><p>The charts need script; the tables above hold the last days and the ");
  out.markup("coming ones, <a href=\"../api/field/").url(field.id);
  out.markup("/days.csv\">the CSV file</a> all of them.</p></noscript>\n");
  out.part(chart_figure({.kind = "soil",
                         .source = record,
                         .heading = "Water in the soil, layer by layer",
                         .reading = "Each band is a layer, filled from its wilting point (bottom) "
                                    "towards saturation (top); the dashed line is field "
                                    "capacity, and what stands above it is drawn darker."}));
  out.part(chart_figure({.kind = "balance",
                         .source = record,
                         .heading = "Deficit and surplus",
                         .reading = "Water missing to field capacity below the line, surplus above "
                                    "it; coming days with what one in ten courses of the weather "
                                    "lies beyond on either side."}));
  out.part(chart_figure({.kind = "weather",
                         .source = record,
                         .heading = "Rain, irrigation and use",
                         .reading = "Bars: rain and irrigation. Lines: water used by crop and air, "
                                    "water drained. Coming days: the middle of the forecast."}));
  out.part(chart_figure({.kind = "machines",
                         .source = record,
                         .heading = "Which machine was carried, and will be",
                         .reading = "A full bar: carried; half: with care; none: keep off. Coming "
                                    "days: the chance that it is carried."}));
  return out.markup("</section>\n");
}

}  // namespace

std::string field_page(const FieldView& field, const BoardSnapshot& board,
                       const FieldDetails& details) {
  const FarmClock clock(board.time_zone);
  std::vector<std::string> flags;
  flags.reserve(field.flags.size());
  for (const std::string& flag : field.flags) flags.push_back(flag_caution(flag));
  Html live;
  live.part(header(field, board, clock)).markup("<main class=\"one\">\n");
  live.part(notices(board, alerts_of(field, board), clock)).part(water_section(field));
  live.markup("<div class=\"parts\">\n");
  live.part(list("Why", field.reasons)).part(list("Worth knowing", flags));
  live.part(machine_list(field, board.time, clock)).part(spreading_list(field, board.time, clock));
  if (field.known) live.part(numbers(field));
  live.part(layer_table(field)).part(ground(field, details)).part(change_section(details.changes));
  live.markup("</div>\n");
  if (field.known) {
    live.part(coming_section(details.ahead, board.time, clock));
    live.part(recent_section(details.record, field.id));
  }
  live.part(told_section(field, board.time, clock));
  live.markup("</main>\n");
  Html lasting = field.known ? charts(field) : Html();
  return framed({.title = field.name + ", " + board.farm_name,
                 .root = "../",
                 .revision = board.revision,
                 .styles = {"field.css"},
                 .scripts = {"chart.js", "field.js", "seen.js"}},
                live, lasting.part(footer(field, board.has_plan)).part(seen_form(board)));
}

}  // namespace gley::daemon
