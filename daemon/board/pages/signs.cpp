#include "daemon/board/pages/signs.hpp"

namespace gley::daemon {
namespace {

// The column stands in a box of 64 by 92, with room above for standing water and below for drops.
constexpr double left = 6.0;
constexpr double width = 52.0;
constexpr double ground_y = 14.0;
constexpr double depth = 68.0;
constexpr double bottom = ground_y + depth;

/// Where a water content lies between wilting point (0) and saturation (1). Held to the drawing's
/// edges: a soil dried below wilting point is drawn empty.
double filling(const LayerView& layer, double theta) {
  const double room = layer.saturation - layer.wilting_point;
  const double share = room > 0.0 ? (theta - layer.wilting_point) / room : 0.0;
  if (share < 0.0) return 0.0;
  return share > 1.0 ? 1.0 : share;
}

double across(const LayerView& layer, double theta) {
  return left + width * filling(layer, theta);
}

double total_thickness_mm(const std::vector<LayerView>& layers) {
  double total_mm = 0.0;
  for (const LayerView& layer : layers) total_mm += layer.thickness_mm;
  return total_mm;
}

Html& point(Html& out, double x, double y) {
  return out.coordinate(x).markup(" ").coordinate(y);
}

/// One layer's place in the drawing.
struct Band {
  const LayerView& layer;
  double top;
  double height;
};

std::vector<Band> bands_of(const std::vector<LayerView>& layers) {
  const double scale = depth / total_thickness_mm(layers);
  std::vector<Band> bands;
  bands.reserve(layers.size());
  double y = ground_y;
  for (const LayerView& layer : layers) {
    bands.push_back({layer, y, layer.thickness_mm * scale});
    y += layer.thickness_mm * scale;
  }
  return bands;
}

/// A box for each layer from x to x, in one path; layers without width leave none.
template <typename From, typename To>
Html boxes(const std::vector<Band>& bands, From from, To to) {
  Html out;
  for (const Band& band : bands) {
    const double x = from(band.layer);
    const double box_width = to(band.layer) - x;
    if (box_width <= 0.0) continue;
    point(out.markup("M"), x, band.top).markup("h").coordinate(box_width);
    out.markup("v").coordinate(band.height).markup("h").coordinate(-box_width).markup("z");
  }
  return out;
}

void draw(Html& out, Markup start, const Html& path) {
  if (!path.empty()) out.markup(start).part(path).markup("\"/>");
}

Html edges(const std::vector<Band>& bands) {
  Html out;
  for (const Band& band : bands) {
    if (band.top > ground_y) point(out.markup("M"), left, band.top).markup("h52");
  }
  return out;
}

/// Down through the layers, stepping where their field capacities differ.
Html field_capacity(const std::vector<Band>& bands) {
  Html out;
  for (const Band& band : bands) {
    const bool first = &band == &bands.front();
    const double x = across(band.layer, band.layer.field_capacity);
    point(first ? out.markup("M") : out.markup("L"), x, first ? ground_y - 5.0 : band.top);
    out.markup("V").coordinate(band.top + band.height);
  }
  return out;
}

/// Steeper than a layer is thick, so that even a thin one shows it.
Html hatching(const std::vector<Band>& bands) {
  Html out;
  for (const Band& band : bands) {
    const double from = across(band.layer, band.layer.field_capacity);
    const double to = across(band.layer, band.layer.theta);
    const int lines = static_cast<int>((to - from + 2.5) / 5.0);
    for (int i = 0; i < lines; ++i) {
      point(out.markup("M"), from + 2.5 + 5.0 * i, band.top).markup("v").coordinate(band.height);
    }
  }
  return out;
}

void draw_profile(Html& out, const std::vector<LayerView>& layers) {
  const std::vector<Band> bands = bands_of(layers);
  const auto wilting_point = [](const LayerView&) { return left; };
  const auto water = [](const LayerView& layer) { return across(layer, layer.theta); };
  const auto capacity = [](const LayerView& layer) { return across(layer, layer.field_capacity); };
  out.markup("<path class=\"soil\" d=\"M6 14h52v68H6z\"/>");
  draw(out, "<path class=\"water\" d=\"", boxes(bands, wilting_point, water));
  draw(out, "<path class=\"surplus\" d=\"", boxes(bands, capacity, water));
  draw(out, "<path class=\"hatch\" d=\"", hatching(bands));
  draw(out, "<path class=\"edge\" d=\"", edges(bands));
  draw(out, "<path class=\"mark\" d=\"", field_capacity(bands));
}

constexpr Markup waves =
    "<path class=\"pond\" d=\"M6 9q3.3-5 6.5 0t6.5 0 6.5 0 6.5 0 6.5 0 6.5 0 6.5 0 6.5 0\"/>";
constexpr Markup drops =
    "<path class=\"drop\" d=\"M18 84l3 5a3 3 0 1 1-6 0zM32 84l3 5a3 3 0 1 1-6 0zM46 84l3 5a3 3 0 1 "
    "1-6 0z\"/>";
constexpr Markup snow_cap =
    "<path class=\"cap\" d=\"M4 13q6-9 12-4 6-6 14-2 8-6 14 1 8-3 16 5z\"/>";

void draw_extras(Html& out, const FieldView& field) {
  if (field.snow_mm > 0.0) out.markup(snow_cap);
  if (field.pond_mm > 0.0) out.markup(waves);
  if (field.drains_running) out.markup(drops);
}

Html sign_item(Markup begins, const Html& sign, const std::string& name, const std::string& word) {
  Html out;
  out.markup(begins).part(sign).markup("<span class=\"name\">").text(name);
  return out.markup("</span> <b>").text(word).markup("</b></li>");
}

}  // namespace

Html soil_column(const FieldView& field) {
  Html out;
  out.markup("<svg class=\"column\" viewBox=\"0 0 64 94\" aria-hidden=\"true\">");
  if (field.known && total_thickness_mm(field.layers) > 0.0) {
    draw_profile(out, field.layers);
    draw_extras(out, field);
  } else {
    out.markup("<path class=\"unknown\" d=\"M6 14h52v68H6z\"/>");
  }
  out.markup("<path class=\"ground\" d=\"M0 14h64\"/></svg>");
  return out;
}

Html wheel(std::string_view verdict) {
  Html out;
  out.markup("<svg class=\"wheel\" aria-hidden=\"true\"><use href=\"#sign-");
  if (verdict == "carries") return out.markup("carries\"/></svg>");
  if (verdict == "with care") return out.markup("with-care\"/></svg>");
  if (verdict == "keep off") return out.markup("keep-off\"/></svg>");
  return out.markup("no-verdict\"/></svg>");
}

Html grains(std::string_view advice) {
  Html out;
  out.markup("<svg class=\"grains\" aria-hidden=\"true\"><use href=\"#sign-");
  if (advice == "clear") return out.markup("clear\"/></svg>");
  if (advice == "hold") return out.markup("hold\"/></svg>");
  return out.markup("no-advice\"/></svg>");
}

Html machine_item(const MachineView& machine, Markup begins) {
  return sign_item(begins, wheel(machine.verdict), machine.name, machine.verdict);
}

Html spreading_item(const SpreadingView& spreading) {
  return sign_item("<li>", grains(spreading.advice), spreading.name, spreading.advice);
}

Html sign_shapes() {
  Html out;
  out.markup("<svg class=\"unseen\" width=\"0\" height=\"0\" aria-hidden=\"true\">\n");
  out.markup(
      "<symbol id=\"sign-carries\" viewBox=\"0 0 64 54\"><circle class=\"tyre\" cx=\"32\" "
      "cy=\"18\" r=\"13\"/><circle class=\"hub\" cx=\"32\" cy=\"18\" r=\"4\"/>"
      "<path class=\"ground\" d=\"M2 36h60\"/></symbol>\n");
  out.markup(
      "<symbol id=\"sign-with-care\" viewBox=\"0 0 64 54\"><circle class=\"tyre\" cx=\"32\" "
      "cy=\"26\" r=\"13\"/><circle class=\"hub\" cx=\"32\" cy=\"26\" r=\"4\"/>"
      "<path class=\"ground\" d=\"M2 36h10q3 9 20 9t20-9h10\"/></symbol>\n");
  // Earth heaved on both sides, the axle below the ground.
  out.markup(
      "<symbol id=\"sign-keep-off\" viewBox=\"0 0 64 54\"><circle class=\"sunk\" cx=\"32\" "
      "cy=\"38\" r=\"15\"/><circle class=\"hole\" cx=\"32\" cy=\"40\" r=\"4\"/>"
      "<path class=\"ground\" d=\"M2 36h4q6 0 9-8M62 36h-4q-6 0-9-8\"/></symbol>\n");
  out.markup(
      "<symbol id=\"sign-no-verdict\" viewBox=\"0 0 64 54\"><circle class=\"tyre broken\" "
      "cx=\"32\" cy=\"18\" r=\"13\"/><path class=\"ground broken\" d=\"M2 36h60\"/></symbol>\n");
  out.markup(
      "<symbol id=\"sign-clear\" viewBox=\"0 0 64 54\"><path class=\"grain\" "
      "d=\"M8 31h.1M18 31h.1M27 31h.1M37 31h.1M46 31h.1M56 31h.1M22 24h.1M32 24h.1M42 24h.1\"/>"
      "<path class=\"ground\" d=\"M2 37h60\"/></symbol>\n");
  out.markup(
      "<symbol id=\"sign-hold\" viewBox=\"0 0 64 54\"><path class=\"hopper\" d=\"M12 3l9 "
      "17h22l9-17\"/>"
      "<path class=\"grain\" d=\"M22 7h.1M32 7h.1M42 7h.1M27 14h.1M37 14h.1\"/>"
      "<path class=\"bar\" d=\"M15 23h34\"/><path class=\"ground\" d=\"M2 37h60\"/></symbol>\n");
  out.markup(
      "<symbol id=\"sign-no-advice\" viewBox=\"0 0 64 54\"><path class=\"hopper broken\" "
      "d=\"M12 3l9 17h22l9-17\"/><path class=\"ground broken\" d=\"M2 37h60\"/></symbol>\n");
  return out.markup("</svg>\n");
}

}  // namespace gley::daemon
