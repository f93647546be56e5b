#include "daemon/board/pages/plan_drawing.hpp"

#include <algorithm>
#include <array>

#include "daemon/board/words/figure_text.hpp"

namespace gley::daemon {

namespace {

/// Letters and patterns are sized by the sheet, so that they look alike on farms large and small.
struct Scale {
  double sheet_m = 0.0;
  [[nodiscard]] double letters_m() const { return sheet_m / 48.0; }
  [[nodiscard]] double pattern() const { return sheet_m / 1000.0; }
};

Html path_data(const std::vector<PlanLine>& lines, bool closed) {
  Html out;
  for (const PlanLine& line : lines) {
    for (const PlanPoint& point : line) {
      (&point == &line.front() ? out.markup("M") : out.markup("L"));
      out.coordinate(point.x_m).markup(" ").coordinate(point.y_m);
    }
    if (closed) out.markup("Z");
  }
  return out;
}

/// Nothing over firm ground, sparse lines with care, dense crossed lines where to keep off, dots
/// where nothing is known.
Html patterns(const Scale& scale) {
  Html out;
  const double factor = scale.pattern();
  const auto open = [&](Markup start) {
    out.markup(start).text(decimal_text(round_to(factor, 0.001))).markup(")\">");
  };
  out.markup("<defs>");
  open(
      "<pattern id=\"plan-care\" width=\"18\" height=\"18\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45) scale(");
  out.markup("<path class=\"plan-ink\" stroke-width=\"3\" d=\"M0 9H18\"/></pattern>");
  open(
      "<pattern id=\"plan-off\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45) scale(");
  out.markup("<path class=\"plan-ink\" stroke-width=\"3\" d=\"M0 4.5H9M4.5 0V9\"/></pattern>");
  open(
      "<pattern id=\"plan-unknown\" width=\"16\" height=\"16\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"scale(");
  out.markup("<circle class=\"plan-dot\" cx=\"8\" cy=\"8\" r=\"2\"/></pattern>");
  open(
      "<pattern id=\"plan-buffer\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(-45) scale(");
  return out.markup(
      "<path class=\"plan-wet\" stroke-width=\"3\" d=\"M0 3.5H7\"/></pattern></defs>\n");
}

void fill_for(Html& out, const std::string& verdict) {
  if (verdict == "with care")
    out.markup("fill=\"url(#plan-care)\"");
  else if (verdict == "keep off")
    out.markup("fill=\"url(#plan-off)\"");
  else if (verdict == "carries")
    out.markup("fill=\"none\"");
  else
    out.markup("fill=\"url(#plan-unknown)\"");
}

Html label(const FieldView& field, const PlannedField& outline, const std::string& verdict,
           const Scale& scale) {
  // About how wide a letter is to its height; a name wider than its field is written smaller.
  constexpr double letter_width = 0.56;
  const auto letters = static_cast<double>(std::max<std::size_t>(field.name.size(), 9));
  const double size_m = std::clamp(0.95 * outline.width_m / (letters * letter_width),
                                   scale.letters_m() * 0.6, scale.letters_m());
  Html out;
  const auto text_at = [&](double y_m, Markup start, const std::string& words) {
    out.markup(start).coordinate(size_m).markup("\" x=\"").coordinate(outline.label.x_m);
    out.markup("\" y=\"").coordinate(y_m).markup("\">").text(words).markup("</text>");
  };
  text_at(outline.label.y_m, "<text class=\"plan-name\" font-size=\"", field.name);
  text_at(outline.label.y_m + 1.15 * size_m, "<text class=\"plan-word\" font-size=\"", verdict);
  return out;
}

Html field_drawing(const FieldView& field, const PlannedField& outline,
                   const std::string& verdict) {
  const Html data = path_data(outline.rings, true);
  Html out;
  out.markup("<a href=\"field/").url(field.id).markup("\" aria-label=\"");
  out.attribute(field.name + ": " + verdict + ", " + field.wetness).markup("\">");
  out.markup("<path class=\"land\" fill-rule=\"evenodd\" d=\"").part(data).markup("\"/>");
  out.markup("<path class=\"plan-field\" fill-rule=\"evenodd\" ");
  fill_for(out, verdict);
  return out.markup(" d=\"").part(data).markup("\"/></a>\n");
}

Html water_drawing(const PlanView& plan) {
  Html out;
  for (const PlannedWater& water : plan.watercourses) {
    const Html data = path_data(water.lines, false);
    out.markup("<path class=\"plan-buffer\" stroke-width=\"").coordinate(2.0 * water.buffer_m);
    out.markup("\" d=\"").part(data).markup("\"/><path class=\"plan-water\" d=\"").part(data);
    out.markup("\"/>\n");
  }
  for (const PlannedSpring& spring : plan.springs) {
    out.markup("<circle class=\"plan-spring-buffer\" cx=\"").coordinate(spring.at.x_m);
    out.markup("\" cy=\"").coordinate(spring.at.y_m).markup("\" r=\"");
    out.coordinate(spring.buffer_m).markup("\"/><circle class=\"plan-spring\" cx=\"");
    out.coordinate(spring.at.x_m).markup("\" cy=\"").coordinate(spring.at.y_m).markup("\" r=\"");
    out.coordinate(plan.width_m / 150.0).markup("\"/>\n");
  }
  return out;
}

Html water_names(const PlanView& plan, const Scale& scale) {
  Html out;
  const auto name = [&](const PlanPoint& at, const std::string& words) {
    out.markup("<text class=\"plan-wet-name\" font-size=\"").coordinate(scale.letters_m() * 0.75);
    out.markup("\" x=\"").coordinate(std::clamp(at.x_m, plan.width_m * 0.06, plan.width_m * 0.94));
    out.markup("\" y=\"").coordinate(at.y_m).markup("\">");
    out.text(words).markup("</text>");
  };
  for (const PlannedWater& water : plan.watercourses) {
    if (water.lines.empty()) continue;
    const PlanPoint middle = water.lines.front()[water.lines.front().size() / 2];
    name({middle.x_m, middle.y_m + 0.3 * scale.letters_m()}, water.name);
  }
  for (const PlannedSpring& spring : plan.springs)
    name({spring.at.x_m, spring.at.y_m + 1.5 * scale.letters_m()}, spring.name);
  return out;
}

/// A round length of about a sixth of the sheet, and where north is.
Html scale_bar(const PlanView& plan, const Scale& scale) {
  double length_m = 10.0;
  for (const double step_m : {20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0})
    if (step_m <= plan.width_m / 5.0) length_m = step_m;
  const double x_m = plan.width_m * 0.03;
  const double y_m = plan.height_m + scale.letters_m() * 1.4;
  Html out;
  out.markup("<path class=\"plan-scale\" d=\"M").coordinate(x_m).markup(" ").coordinate(y_m);
  out.markup("h").coordinate(length_m).markup("\"/><text class=\"plan-note\" font-size=\"");
  out.coordinate(scale.letters_m() * 0.8).markup("\" x=\"").coordinate(x_m).markup("\" y=\"");
  out.coordinate(y_m - scale.letters_m() * 0.4).markup("\">").text(decimal_text(length_m));
  return out.markup(" m, north is up</text>\n");
}

}  // namespace

std::string verdict_for(const FieldView& field, const std::string& machine) {
  if (const MachineView* own = with_id(field.machines, machine)) return own->verdict;
  return field.sign.empty() ? "not known" : field.sign;
}

Html key_rectangle(const std::string& verdict, const PlanPoint& size) {
  Html box;
  box.markup(" width=\"").coordinate(size.x_m).markup("\" height=\"").coordinate(size.y_m);
  box.markup("\"/>");
  Html out;
  out.markup("<rect class=\"land\"").part(box).markup("<rect class=\"plan-field\" ");
  fill_for(out, verdict);
  return out.part(box);
}

Html plan_drawing(const BoardSnapshot& board, const PlanView& plan, const std::string& machine) {
  const Scale scale{.sheet_m = std::max(plan.width_m, plan.height_m * 1.4)};
  Html fields;
  Html labels;
  for (const PlannedField& outline : plan.fields) {
    const FieldView* field = with_id(board.fields, outline.id);
    if (field == nullptr) continue;
    const std::string verdict = verdict_for(*field, machine);
    fields.part(field_drawing(*field, outline, verdict));
    labels.part(label(*field, outline, verdict, scale));
  }
  Html out;
  out.markup("<svg class=\"plan\" viewBox=\"0 0 ").coordinate(plan.width_m).markup(" ");
  out.coordinate(plan.height_m + 2.0 * scale.letters_m());
  out.markup("\" role=\"group\" aria-label=\"Plan of the farm\">\n").part(patterns(scale));
  out.part(fields).part(water_drawing(plan));
  out.markup("<g class=\"plan-labels\" aria-hidden=\"true\">").part(labels);
  out.part(water_names(plan, scale));
  return out.part(scale_bar(plan, scale)).markup("</g></svg>\n");
}

}  // namespace gley::daemon
