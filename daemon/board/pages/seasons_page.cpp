#include "daemon/board/pages/seasons_page.hpp"

#include <functional>

#include "daemon/board/pages/field_parts.hpp"
#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/pages/table_parts.hpp"
#include "daemon/board/words/figure_text.hpp"

namespace gley::daemon {

namespace {

std::string whole_mm(double value_mm) {
  return decimal_text(round_to(value_mm, 1.0)) + " mm";
}

std::string days_text(int days) {
  return std::to_string(days) + (days == 1 ? " day" : " days");
}

/// One line of the comparison: a name, and what a season has of it.
struct Line {
  std::string name;
  std::function<std::string(const SeasonSums&)> value;
};

std::vector<Line> lines_of(const SeasonsView& view) {
  std::vector<Line> lines{
      {"Days on record", [](const SeasonSums& s) { return std::to_string(s.days); }},
      {"Rain", [](const SeasonSums& s) { return whole_mm(s.rain_mm); }},
      {"Irrigation", [](const SeasonSums& s) { return whole_mm(s.irrigation_mm); }},
      {"Used by crop and air", [](const SeasonSums& s) { return whole_mm(s.et_mm); }},
      {"Run off", [](const SeasonSums& s) { return whole_mm(s.runoff_mm); }},
      {"Drained", [](const SeasonSums& s) { return whole_mm(s.drainage_mm); }},
      {"At field capacity or wetter",
       [](const SeasonSums& s) { return days_text(s.days_at_capacity); }},
      {"Waterlogged", [](const SeasonSums& s) { return days_text(s.days_waterlogged); }},
      {"Short of water", [](const SeasonSums& s) { return days_text(s.days_short_of_water); }},
      {"Drains ran", [](const SeasonSums& s) { return days_text(s.days_drains_ran); }}};
  for (std::size_t m = 0; m < view.machines.size(); ++m)
    lines.push_back({view.machines[m].name + " carried", [m](const SeasonSums& s) {
                       return days_text(m < s.days_carried.size() ? s.days_carried[m] : 0);
                     }});
  return lines;
}

Html table(const SeasonsView& view, const std::string& caption, SeasonSums SeasonView::*sums) {
  Html out;
  out.markup("<table class=\"days\">\n<caption>").text(caption).markup("</caption>\n");
  std::vector<std::string> names{"Harvest year"};
  for (const SeasonView& season : view.seasons)
    names.push_back(std::to_string(season.harvest_year));
  out.part(table_head(names)).markup("<tbody>\n");
  for (const Line& line : lines_of(view)) {
    out.markup("<tr><th scope=\"row\">").text(line.name).markup("</th>");
    for (const SeasonView& season : view.seasons)
      out.part(table_cell((season.*sums).days > 0 ? line.value(season.*sums) : "not on record"));
    out.markup("</tr>\n");
  }
  return scroll_box(caption, out.markup("</tbody>\n</table>"));
}

Html gaps(const SeasonsView& view) {
  Html out;
  for (const SeasonView& season : view.seasons) {
    if (season.days_missing == 0) continue;
    out.markup("<p class=\"aside\">Harvest year ").text(std::to_string(season.harvest_year));
    out.markup(" is on record only from ").text(short_date(season.from)).markup(" ");
    out.text(season.from.substr(0, 4)).markup(", without the ");
    out.text(days_text(season.days_missing)).markup(" before.</p>\n");
  }
  return out;
}

Html charts(const FieldView& field) {
  const std::string source = "../../api/field/" + url_part(field.id) + "/seasons";
  Html out;
  out.part(chart_figure({.kind = "season-rain",
                         .source = source,
                         .heading = "Rain added up",
                         .reading = "From the first day of the harvest year; one line a year."}));
  out.part(chart_figure({.kind = "season-drainage",
                         .source = source,
                         .heading = "Drainage added up",
                         .reading = "Water that left below the roots and by pipes."}));
  return out;
}

}  // namespace

std::string seasons_page(const FieldView& field, const BoardSnapshot& board,
                         const SeasonsView& view) {
  Html live;
  live.part(field_header(field, board, {.about = "seasons"}))
      .markup("<main class=\"one\">\n<p class=\"lead\">A harvest year ");
  live.markup("begins on ").text(view.begins).markup(" and is named by the year it ends in. ");
  live.markup("Days that have ended are counted.</p>\n");
  if (view.seasons.empty()) {
    live.markup("<p>No day is on record yet.</p></main>\n");
  } else {
    live.part(table(view, "Each harvest year as far as it is on record", &SeasonView::whole));
    live.part(table(
        view,
        "The same up to the day of the year that is now reached, " + short_date(view.last_day),
        &SeasonView::to_date));
    live.part(gaps(view)).markup("</main>\n");
  }
  Html lasting;
  if (!view.seasons.empty())
    lasting.markup("<section class=\"charts\" aria-label=\"Charts\">\n")
        .part(charts(field))
        .markup("</section>\n");
  lasting.markup("<footer>\n<ul class=\"sources\"><li><a href=\"../../api/field/").url(field.id);
  lasting.markup("/seasons.csv\">The seasons as CSV</a></li><li><a href=\"../../api/field/");
  lasting.url(field.id).markup("/days.csv\">Every day as CSV</a></li></ul>\n</footer>\n");
  return framed({.title = field.name + ": seasons, " + board.farm_name,
                 .root = "../../",
                 .revision = board.revision,
                 .styles = {"field.css"},
                 .scripts = {"chart.js", "field.js"}},
                live, lasting);
}

}  // namespace gley::daemon
