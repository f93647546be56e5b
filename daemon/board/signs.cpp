#include "daemon/board/signs.hpp"

namespace gley::daemon {
namespace {

// The column stands in a box of 64 by 88, with room above for standing water.
constexpr double left = 6.0;
constexpr double width = 52.0;
constexpr double ground_y = 14.0;
constexpr double depth = 70.0;

/// Where a water content lies between wilting point (0) and saturation (1). Held to the drawing's
/// edges: a soil dried below wilting point is drawn empty.
double filling(const LayerView& layer, double theta) {
  const double room = layer.saturation - layer.wilting_point;
  const double share = room > 0.0 ? (theta - layer.wilting_point) / room : 0.0;
  if (share < 0.0) return 0.0;
  return share > 1.0 ? 1.0 : share;
}

void draw_box(Html& out, Markup start, double y, double box_width, double height) {
  out.markup(start).coordinate(left).markup("\" y=\"").coordinate(y);
  out.markup("\" width=\"").coordinate(box_width);
  out.markup("\" height=\"").coordinate(height).markup("\"/>");
}

double total_thickness_mm(const std::vector<LayerView>& layers) {
  double total_mm = 0.0;
  for (const LayerView& layer : layers) total_mm += layer.thickness_mm;
  return total_mm;
}

void draw_layers(Html& out, const std::vector<LayerView>& layers) {
  const double scale = depth / total_thickness_mm(layers);
  double y = ground_y;
  for (const LayerView& layer : layers) {
    const double height = layer.thickness_mm * scale;
    draw_box(out, "<rect class=\"soil\" x=\"", y, width, height);
    draw_box(out, "<rect class=\"water\" x=\"", y, width * filling(layer, layer.theta), height);
    y += height;
  }
}

/// Across the layers, stepping where their field capacities differ.
void draw_field_capacity(Html& out, const std::vector<LayerView>& layers) {
  const double scale = depth / total_thickness_mm(layers);
  double y = ground_y;
  out.markup("<path class=\"mark\" d=\"");
  for (const LayerView& layer : layers) {
    const double x = left + width * filling(layer, layer.field_capacity);
    const bool first = &layer == &layers.front();
    (first ? out.markup("M") : out.markup("L")).coordinate(x).markup(" ");
    out.coordinate(first ? y - 4.0 : y).markup("V");
    y += layer.thickness_mm * scale;
    out.coordinate(&layer == &layers.back() ? y + 3.0 : y);
  }
  out.markup("\"/>");
}

constexpr Markup standing_water =
    "<path class=\"pond\" d=\"M6 9q3.3-5 6.5 0t6.5 0 6.5 0 6.5 0 6.5 0 6.5 0 6.5 0 6.5 0\"/>";

}  // namespace

Html soil_column(const FieldView& field) {
  Html out;
  out.markup(
      "<svg class=\"column\" viewBox=\"0 0 64 88\" width=\"64\" height=\"88\" "
      "aria-hidden=\"true\">");
  if (field.known && total_thickness_mm(field.layers) > 0.0) {
    draw_layers(out, field.layers);
    draw_field_capacity(out, field.layers);
    if (field.pond_mm > 0.0) out.markup(standing_water);
  } else {
    out.markup("<rect class=\"unknown\" x=\"6\" y=\"14\" width=\"52\" height=\"70\"/>");
  }
  out.markup("<path class=\"ground\" d=\"M0 14H64\"/></svg>");
  return out;
}

Html wheel(std::string_view verdict) {
  Html out;
  out.markup(
      "<svg class=\"wheel\" viewBox=\"0 0 56 40\" width=\"56\" height=\"40\" "
      "aria-hidden=\"true\">");
  if (verdict == "carries") {
    out.markup("<circle class=\"tyre\" cx=\"28\" cy=\"14\" r=\"11\"/>");
    out.markup("<circle class=\"hub\" cx=\"28\" cy=\"14\" r=\"3.5\"/>");
    out.markup("<path class=\"ground\" d=\"M2 28H54\"/>");
  } else if (verdict == "with care") {
    out.markup("<circle class=\"tyre\" cx=\"28\" cy=\"20\" r=\"11\"/>");
    out.markup("<circle class=\"hub\" cx=\"28\" cy=\"20\" r=\"3.5\"/>");
    out.markup("<path class=\"ground\" d=\"M2 28H12Q18 35 28 35T44 28H54\"/>");
  } else if (verdict == "keep off") {
    out.markup("<circle class=\"sunk\" cx=\"28\" cy=\"28\" r=\"12\"/>");
    out.markup("<circle class=\"hole\" cx=\"28\" cy=\"28\" r=\"3.5\"/>");
    out.markup("<path class=\"ground\" d=\"M2 28H14M42 28H54\"/>");
  } else {
    out.markup("<circle class=\"tyre broken\" cx=\"28\" cy=\"14\" r=\"11\"/>");
    out.markup("<path class=\"ground broken\" d=\"M2 28H54\"/>");
  }
  out.markup("</svg>");
  return out;
}

Html grains(std::string_view advice) {
  Html out;
  out.markup(
      "<svg class=\"grains\" viewBox=\"0 0 56 40\" width=\"56\" height=\"40\" "
      "aria-hidden=\"true\">");
  if (advice == "clear") {
    out.markup(
        "<path class=\"hub\" d=\"M9 20a3 3 0 1 0 .01 0M19 20a3 3 0 1 0 .01 0M29 20a3 3 0 1 0");
    out.markup(" .01 0M39 20a3 3 0 1 0 .01 0M24 14a3 3 0 1 0 .01 0M14 14a3 3 0 1 0 .01 0\"/>");
    out.markup("<path class=\"ground\" d=\"M2 28H54\"/>");
  } else if (advice == "hold") {
    out.markup("<path class=\"hub\" d=\"M9 7a3 3 0 1 0 .01 0M19 7a3 3 0 1 0 .01 0M29 7a3 3 0 1 0");
    out.markup(" .01 0M39 7a3 3 0 1 0 .01 0M24 1a3 3 0 1 0 .01 0M14 1a3 3 0 1 0 .01 0\"/>");
    out.markup("<path class=\"bar\" d=\"M2 16H54\"/><path class=\"ground\" d=\"M2 28H54\"/>");
  } else {
    out.markup("<path class=\"ground broken\" d=\"M2 16H54M2 28H54\"/>");
  }
  out.markup("</svg>");
  return out;
}

}  // namespace gley::daemon
