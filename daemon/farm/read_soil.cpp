#include "daemon/farm/config_draft.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {
namespace {

/// What may stand beside every form of soil.
SoilOwn read_own(const TableReader& soil) {
  SoilOwn own;
  own.conductivity_mm_h = soil.number("conductivity_mm_h");
  own.retention_b = soil.number("retention_b");
  own.hydrologic_group = soil.text("hydrologic_group");
  return own;
}

SoilByTexture read_texture(const TableReader& soil) {
  SoilByTexture texture;
  for (const char* key : {"sand_pct", "clay_pct"}) {
    if (!soil.has(key))
      soil.problem(key, "is missing: a soil by texture needs sand_pct and clay_pct");
  }
  soil.assign(texture.sand_pct, soil.number("sand_pct"));
  soil.assign(texture.clay_pct, soil.number("clay_pct"));
  soil.assign(texture.organic_pct, soil.number("organic_pct"));
  texture.own = read_own(soil);
  constexpr double most_clay_pct = 60.0;  // Saxton and Rawls (2006), from memory
  if (texture.clay_pct > most_clay_pct) {
    soil.problem("clay_pct", "is " + number_text(texture.clay_pct) +
                                 "; the texture equations hold to 60; give field_capacity, "
                                 "wilting_point and saturation instead");
  }
  if (texture.sand_pct + texture.clay_pct > 100.0) {
    soil.problem("clay_pct", "is " + number_text(texture.clay_pct) + " and sand_pct " +
                                 number_text(texture.sand_pct) +
                                 "; together they must not be over 100");
  }
  return texture;
}

void check_in_order(const TableReader& soil, const char* low_key, const char* high_key) {
  const auto low = soil.number(low_key);
  const auto high = soil.number(high_key);
  if (!low || !high || *low < *high) return;
  soil.problem(low_key, "is " + number_text(*low) + " and " + high_key + " " + number_text(*high) +
                            "; " + low_key + " must be the smaller");
}

SoilByNumbers read_numbers(const TableReader& soil) {
  SoilByNumbers numbers;
  for (const char* key : {"field_capacity", "wilting_point", "saturation"}) {
    if (!soil.has(key)) {
      soil.problem(key,
                   "is missing: a soil by numbers needs field_capacity, wilting_point and "
                   "saturation");
    }
  }
  for (const char* key : {"sand_pct", "organic_pct"}) {
    if (soil.has(key)) soil.problem(key, "stands beside a soil by numbers; give one or the other");
  }
  soil.assign(numbers.field_capacity, soil.number("field_capacity"));
  soil.assign(numbers.wilting_point, soil.number("wilting_point"));
  soil.assign(numbers.saturation, soil.number("saturation"));
  numbers.clay_pct = soil.number("clay_pct");
  numbers.own = read_own(soil);
  check_in_order(soil, "wilting_point", "field_capacity");
  check_in_order(soil, "field_capacity", "saturation");
  return numbers;
}

/// A water content of a class, or the owner's in its place, as a message names it.
struct NamedContent {
  const char* key;
  const std::optional<double>& own;
  double of_class;

  [[nodiscard]] double value() const { return own.value_or(of_class); }
};

void check_in_order(const TableReader& soil, const std::string& name, const NamedContent& low,
                    const NamedContent& high) {
  if ((!low.own && !high.own) || low.value() < high.value()) return;
  const NamedContent& given = low.own ? low : high;
  const NamedContent& other = low.own ? high : low;
  const std::string of_class = other.own ? " " : " of " + name + " ";
  soil.problem(given.key, "is " + number_text(given.value()) + " and " + other.key + of_class +
                              number_text(other.value()) + "; " + low.key + " must be the smaller");
}

/// A named class with what is known better of it.
SoilByClass read_class(const TableReader& soil) {
  SoilByClass named{.name = soil.text("class").value_or(""), .own = read_own(soil)};
  for (const char* key : {"sand_pct", "organic_pct"}) {
    if (soil.has(key)) soil.problem(key, "stands beside class; give one or the other");
  }
  named.own.field_capacity = soil.number("field_capacity");
  named.own.wilting_point = soil.number("wilting_point");
  named.own.saturation = soil.number("saturation");
  named.own.clay_pct = soil.number("clay_pct");
  if (!soil.is_good("class")) return named;
  const SoilRow* row =
      known_row(soil, "class", named.name, reference_tables().soils, "texture class");
  if (row == nullptr) return named;
  const NamedContent wilting{"wilting_point", named.own.wilting_point, row->wilting_point};
  const NamedContent capacity{"field_capacity", named.own.field_capacity, row->field_capacity};
  const NamedContent saturation{"saturation", named.own.saturation, row->saturation};
  check_in_order(soil, row->name, wilting, capacity);
  check_in_order(soil, row->name, capacity, saturation);
  return named;
}

}  // namespace

SoilConfig read_soil(const TableReader& field) {
  const toml::node* value = field.node("soil");
  if (value == nullptr) return {};
  if (const auto name = value->value_exact<std::string>()) {
    (void)known_row(field, "soil", *name, reference_tables().soils, "texture class");
    return SoilByClass{*name};
  }
  const auto soil = field.child("soil");
  if (!soil) {
    field.problem("soil", "is " + value_text(*value) +
                              "; it must be a texture class in quotation marks, or a table such "
                              "as { sand_pct = 30, clay_pct = 35, organic_pct = 4 }");
    return {};
  }
  if (soil->has("class")) return read_class(*soil);
  const bool by_numbers =
      soil->has("field_capacity") || soil->has("wilting_point") || soil->has("saturation");
  if (by_numbers) return read_numbers(*soil);
  return read_texture(*soil);
}

}  // namespace gley::daemon
