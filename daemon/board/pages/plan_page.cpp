#include "daemon/board/pages/plan_page.hpp"

#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/pages/plan_drawing.hpp"
#include "daemon/board/pages/signs.hpp"
#include "daemon/board/pages/table_parts.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {

namespace {

std::string ha_text(double ha) {
  return decimal_text(round_to(ha, 0.1)) + " ha";
}

/// Which machine the plan is for; links, so that it works without script.
Html choice(const BoardSnapshot& board, const std::string& machine) {
  Html out;
  if (board.fields.empty() || board.fields.front().machines.empty()) return out;
  out.markup("<nav class=\"choice\" aria-label=\"Machine\"><span>For</span> <a href=\"plan\"");
  if (machine.empty()) out.markup(" aria-current=\"page\"");
  out.markup(">each field's own sign</a>");
  for (const MachineView& own : board.fields.front().machines) {
    out.markup(" <a href=\"plan?machine=").url(own.id).markup("\"");
    if (own.id == machine) out.markup(" aria-current=\"page\"");
    out.markup(">").text(own.name).markup("</a>");
  }
  return out.markup("</nav>\n");
}

Html key(const PlanView& plan) {
  // As large on the sheet as it is shown, so that the patterns look as they do there.
  const double width_m = plan.width_m / 16.0;
  const double height_m = width_m * 0.6;
  Html out;
  out.markup("<ul class=\"plan-key\">");
  for (const char* verdict : {"carries", "with care", "keep off", "not known"}) {
    out.markup("<li><svg class=\"swatch\" viewBox=\"0 0 ").coordinate(width_m).markup(" ");
    out.coordinate(height_m).markup("\" aria-hidden=\"true\">");
    out.part(key_rectangle(verdict, {.x_m = width_m, .y_m = height_m}))
        .markup("</svg> ")
        .part(wheel(verdict))
        .markup(" ")
        .text(verdict)
        .markup("</li>");
  }
  return out.markup("</ul>\n");
}

Html field_row(const FieldView& field, const PlannedField* outline, const std::string& verdict) {
  Html out;
  out.markup("<tr><th scope=\"row\"><a href=\"field/").url(field.id).markup("\">");
  out.text(field.name).markup("</a></th><td>").text(verdict).markup("</td><td>");
  out.text(wetness_text(field)).markup("</td><td>");
  if (outline == nullptr) return out.markup("no boundary given</td><td></td></tr>\n");
  out.text(ha_text(outline->area_ha)).markup("</td><td>");
  return out.text(ha_text(outline->buffer_ha)).markup("</td></tr>\n");
}

Html table(const BoardSnapshot& board, const PlanView& plan, const std::string& machine) {
  Html out;
  out.markup("<table class=\"days\">\n<caption>The same as a table</caption>\n");
  out.part(table_head({"Field", "Verdict", "Wetness", "Area", "Of it in buffers to water"}));
  out.markup("<tbody>\n");
  for (const FieldView& field : board.fields)
    out.part(field_row(field, with_id(plan.fields, field.id), verdict_for(field, machine)));
  return out.markup("</tbody>\n</table>\n");
}

Html water_list(const PlanView& plan) {
  Html out;
  if (plan.watercourses.empty() && plan.springs.empty()) return out;
  out.markup("<p class=\"aside\">Buffers, drawn hatched: ");
  bool first = true;
  const auto add = [&](const std::string& name, double buffer_m) {
    if (!first) out.markup(", ");
    first = false;
    out.text(name).markup(" ").text(decimal_text(buffer_m)).markup(" m");
  };
  for (const PlannedWater& water : plan.watercourses) add(water.name, water.buffer_m);
  for (const PlannedSpring& spring : plan.springs) add(spring.name, spring.buffer_m);
  return out.markup(". Local codes decide how wide they must be.</p>\n");
}

}  // namespace

std::string plan_page(const BoardSnapshot& board, const PlanView& plan,
                      const std::string& machine) {
  const FarmClock clock(board.time_zone);
  Html live;
  live.part(farm_header(board, clock, "plan")).markup("<main class=\"one\">\n");
  live.part(notices(board, {}, clock)).part(choice(board, machine));
  live.part(key(plan)).part(plan_drawing(board, plan, machine)).part(water_list(plan));
  live.part(scroll_box("Fields", table(board, plan, machine))).markup("</main>\n");
  return framed({.title = board.farm_name + ": plan",
                 .root = "",
                 .revision = board.revision,
                 .styles = {"field.css"},
                 .scripts = {}},
                live);
}

}  // namespace gley::daemon
