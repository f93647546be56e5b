#include "daemon/board/pages/field_parts.hpp"

#include "daemon/board/pages/table_parts.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/outlook_words.hpp"

namespace gley::daemon {

namespace {

std::string whole(double value) {
  return decimal_text(round_to(value, 1.0));
}

/// "3 (0 to 9)", or "3" where all members agree.
std::string spread_text(const model::Spread& spread) {
  std::string low = whole(spread.low);
  const std::string high = whole(spread.high);
  if (low == high) return low;
  return whole(spread.middle) + " (" + low + " to " + high + ')';
}

Html coming_head(const FieldAheadView& ahead) {
  std::vector<std::string> names{"Day",         "Rain, mm",          "Below field capacity, mm",
                                 "Surplus, mm", "At field capacity", "Draining"};
  for (const NamedItem& machine : ahead.machines) names.push_back(machine.name + " carried");
  return table_head(names);
}

Html coming_row(const ComingDay& day) {
  Html out;
  out.markup("<tr><th scope=\"row\">").text(short_date(day.date)).markup("</th>");
  out.part(table_cell(spread_text(day.rain_mm))).part(table_cell(spread_text(day.depletion_mm)));
  out.part(table_cell(spread_text(day.surplus_mm)))
      .part(table_cell(odds_text(day.chance_at_capacity)));
  out.part(table_cell(odds_text(day.chance_drains_run)));
  for (const double chance : day.machine_chance) out.part(table_cell(odds_text(chance)));
  return out.markup("</tr>\n");
}

Html coming_table(const FieldAheadView& ahead) {
  Html out;
  out.markup("<table class=\"days\">\n<caption>The middle of ").text(std::to_string(ahead.members));
  out.markup(" courses the weather may take; in brackets, what one in ten falls short of and one ");
  out.markup("in ten goes beyond</caption>\n").part(coming_head(ahead)).markup("<tbody>\n");
  for (const ComingDay& day : ahead.days) out.part(coming_row(day));
  return out.markup("</tbody>\n</table>");
}

Html window_items(const std::vector<WindowsOf>& all, const std::string& nothing, Instant now,
                  const FarmClock& clock) {
  Html out;
  for (const WindowsOf& own : all) {
    out.markup("<li><b>").text(own.item.name).markup("</b>: ");
    if (own.windows.empty()) out.text(nothing);
    for (const WindowView& window : own.windows) {
      if (&window != &own.windows.front()) out.markup("; ");
      if (window.from <= now)
        out.markup("now, ").text(chance_text(window.probability)).markup(", to ");
      else
        out.text(clock.as_seen(window.from, now)).markup(" to ");
      out.text(clock.as_seen(window.to, now));
      if (window.from > now) out.markup(", ").text(chance_text(window.probability));
    }
    out.markup("</li>\n");
  }
  return out;
}

Html recent_row(const RecordedDay& day, const std::string& field_id) {
  Html out;
  out.markup("<tr><th scope=\"row\"><a href=\"").url(field_id).markup("/explain?date=");
  out.url(day.date).markup("\">").text(short_date(day.date)).markup("</a>");
  if (day.so_far) out.markup(" so far");
  out.markup("</th>").part(table_cell(mm_digits(day.rain_mm + day.irrigation_mm)));
  out.part(table_cell(mm_digits(day.et_mm))).part(table_cell(mm_digits(day.depletion_mm)));
  out.part(table_cell(mm_digits(day.surplus_mm))).part(table_cell(mm_digits(day.drainage_mm)));
  out.part(table_cell(day.wetness));
  for (const std::string& verdict : day.verdicts) out.part(table_cell(verdict));
  return out.markup("</tr>\n");
}

Html recent_table(const FieldRecord& record, const std::string& field_id) {
  std::vector<std::string> names{"Day",
                                 "Rain and irrigation, mm",
                                 "Used by crop and air, mm",
                                 "Below field capacity, mm",
                                 "Surplus, mm",
                                 "Drained, mm",
                                 "Wetness"};
  for (const NamedItem& machine : record.machines) names.push_back(machine.name);
  Html out;
  out.markup("<table class=\"days\">\n<caption>Each date leads to how its numbers came about");
  out.markup("</caption>\n").part(table_head(names)).markup("<tbody>\n");
  for (auto day = record.days.rbegin(); day != record.days.rend(); ++day)
    out.part(recent_row(*day, field_id));
  return out.markup("</tbody>\n</table>");
}

}  // namespace

Html field_header(const FieldView& field, const BoardSnapshot& board, const PageHeading& heading) {
  Html out;
  out.markup("<header>\n<h1>").text(field.name).markup(": ").markup(heading.about);
  out.markup("</h1>\n<p class=\"asof\"><a href=\"../").url(field.id).markup("\">");
  out.text(field.name).markup("</a>, <a href=\"../../\">").text(board.farm_name).markup("</a>");
  return out.text(heading.more).markup("</p>\n</header>\n");
}

Html coming_section(const std::optional<FieldAheadView>& ahead, Instant now,
                    const FarmClock& clock) {
  Html out;
  out.markup("<section class=\"wide\" aria-labelledby=\"coming\">\n<h2 id=\"coming\">");
  out.markup("Coming days</h2>\n");
  if (!ahead || ahead->days.empty())
    return out.markup("<p>No forecast under a day old, so nothing is said of the coming days.</p>")
        .markup("</section>\n");
  out.part(scroll_box("Coming days", coming_table(*ahead)))
      .markup("<h3>When it carries</h3>\n<ul class=\"windows\">\n");
  out.part(window_items(ahead->machine_windows, "no day likely enough", now, clock));
  out.markup("</ul>\n");
  if (!ahead->material_windows.empty()) {
    out.markup("<h3>When spreading is clear</h3>\n<ul class=\"windows\">\n");
    out.part(window_items(ahead->material_windows, "no day likely enough", now, clock));
    out.markup("</ul>\n");
  }
  return out.markup("</section>\n");
}

Html change_section(const std::vector<MachineChange>& changes) {
  Html rows;
  std::optional<double> et0_mm;
  for (const MachineChange& change : changes) {
    if (change.dry_days.empty()) continue;
    et0_mm = change.dry_day_et0_mm;
    rows.markup("<li><b>").text(change.machine.name).markup("</b>, now ").text(change.verdict);
    rows.markup(": ");
    for (const std::string& words : {change.lower_pressure, change.part_load, change.no_remedy})
      if (!words.empty()) rows.text(words).markup("; ");
    rows.text(change.dry_days).markup("</li>\n");
  }
  Html out;
  if (rows.empty()) return out;
  out.markup("<section><h2>What would change it</h2>\n<ul class=\"windows\">\n").part(rows);
  out.markup("</ul>\n<p class=\"aside\">");
  if (et0_mm) {
    out.markup("A day without rain is reckoned with an evaporative demand of ");
    out.text(mm_text(*et0_mm)).markup(", the mean of the last week.");
  } else {
    out.markup(
        "No evapotranspiration is known of the last week: only what drains is reckoned with.");
  }
  return out.markup("</p></section>\n");
}

Html recent_section(const FieldRecord& record, const std::string& field_id) {
  Html out;
  if (record.days.empty()) return out;
  out.markup("<section class=\"wide\" aria-labelledby=\"recent\">\n<h2 id=\"recent\">");
  out.markup("The last days</h2>\n");
  out.part(scroll_box("The last days", recent_table(record, field_id)));
  return out.markup("</section>\n");
}

Html chart_figure(const ChartFrame& frame) {
  Html out;
  out.markup("<figure class=\"chart\" data-chart=\"").attribute(frame.kind);
  out.markup("\" data-source=\"").attribute(frame.source).markup("\">\n<figcaption><h3>");
  out.text(frame.heading).markup("</h3><p class=\"aside\">").text(frame.reading);
  return out.markup("</p></figcaption>\n</figure>\n");
}

}  // namespace gley::daemon
