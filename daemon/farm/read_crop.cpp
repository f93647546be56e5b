#include <algorithm>
#include <array>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/crop_reader.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {
namespace {

constexpr std::array by_numbers_keys{"kcb", "cover", "height_m", "root_depth_mm",
                                     "depletion_fraction"};

/// Ground that lies longer than this between two crops is a slip, or has a name (our choice).
constexpr std::chrono::days longest_stubble{366};

CropByNumbers read_by_numbers(const TableReader& table) {
  for (const char* key : by_numbers_keys) {
    if (!table.has(key)) {
      table.problem(key,
                    "is missing: a crop by numbers needs kcb, cover, height_m, root_depth_mm "
                    "and depletion_fraction; a named one has name");
    }
  }
  for (const Setting& setting : settings_of("field.crop")) {
    const bool of_numbers = std::find(by_numbers_keys.begin(), by_numbers_keys.end(),
                                      setting.key) != by_numbers_keys.end();
    if (of_numbers || !table.has(setting.key)) continue;
    table.problem(setting.key,
                  "stands in a crop by numbers; write crop = { name = ... } to change a named "
                  "crop, or [[field.crop]] to sow one");
  }
  CropByNumbers crop;
  table.assign(crop.kcb, table.number("kcb"));
  table.assign(crop.cover, table.number("cover"));
  table.assign(crop.height_m, table.number("height_m"));
  table.assign(crop.root_depth_mm, table.number("root_depth_mm"));
  table.assign(crop.depletion_fraction, table.number("depletion_fraction"));
  return crop;
}

std::string placed(const CropSowing& sowing) {
  return sowing.crop + " of " + place_text(sowing.place) +
         (sowing.harvested ? ", harvested " + date_text(*sowing.harvested) : "");
}

/// Two sowings that follow each other: no overlap, and no year without a crop between them.
void check_neighbours(const TableReader& field, const CropSowing& before, const CropSowing& next) {
  const std::string sown =
      field.label() + ", crop: " + next.crop + " sown " + date_text(*next.sown);
  if (*before.sown == *next.sown || (before.harvested && *before.harvested > *next.sown)) {
    field.problems().add(next.place, sown + " overlaps " + placed(before) + "; correct the dates");
    return;
  }
  if (!before.harvested) return;  // it stands until the next
  const std::chrono::days gap =
      std::chrono::sys_days{*next.sown} - std::chrono::sys_days{*before.harvested};
  if (gap <= longest_stubble) return;
  field.problems().add(next.place, sown + " leaves a gap of " + std::to_string(gap.count()) +
                                       " days after " + placed(before) +
                                       "; correct the dates or sow what stands there, such as "
                                       "\"stubble\", \"bare soil\" or \"grass\"");
}

void check_rotation(const TableReader& field, std::vector<CropSowing>& sowings) {
  const auto undated = std::find_if(sowings.begin(), sowings.end(),
                                    [](const CropSowing& sowing) { return !sowing.sown; });
  if (sowings.size() > 1 && undated != sowings.end()) {
    field.problems().add(undated->place, field.label() + ", crop: sown is missing" +
                                             (undated->own.sown ? " its year" : "") +
                                             "; with several crops each needs its day of sowing");
    return;
  }
  std::stable_sort(sowings.begin(), sowings.end(),
                   [](const CropSowing& a, const CropSowing& b) { return a.sown < b.sown; });
  for (std::size_t i = 1; i < sowings.size(); ++i)
    check_neighbours(field, sowings[i - 1], sowings[i]);
}

std::vector<CropSowing> read_rotation(const TableReader& field, const NamedCrop& form) {
  std::vector<CropSowing> sowings;
  for (const TableReader& sowing : field.children("crop"))
    sowings.push_back(read_sowing(sowing, form));
  const bool dated = std::none_of(sowings.begin(), sowings.end(), [](const CropSowing& sowing) {
    return sowing.harvested && sowing.sown && *sowing.harvested <= *sowing.sown;
  });
  if (dated) check_rotation(field, sowings);
  return sowings;
}

CropConfig read_forms(const TableReader& field, const toml::node& value) {
  const auto soil_depth_mm = field.number("soil_depth_mm");
  if (const auto name = value.value_exact<std::string>()) {
    (void)known_row(field, "crop", *name, reference_tables().crops, "crop");
    return *name;
  }
  if (const auto table = field.child("crop")) {
    if (table->has("crop")) {
      table->problem("crop", table->has("name") ? "stands beside name; remove it"
                                                : "stands in a table that is one crop; write name "
                                                  "= ... there, or [[field.crop]] once a sowing");
      return {};
    }
    if (!table->has("name")) return read_by_numbers(*table);
    return std::vector{read_sowing(*table, {.name_key = "name", .soil_depth_mm = soil_depth_mm})};
  }
  const toml::array* list = value.as_array();
  if (list == nullptr || list->empty() || !list->is_array_of_tables()) {
    field.problem("crop", "is " + value_text(value) +
                              "; it must be a crop in quotation marks, a table such as { kcb = "
                              "0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                              "depletion_fraction = 0.5 } or { name = \"grass\", kcb_mid = 0.95 }, "
                              "or [[field.crop]] once a sowing");
    return {};
  }
  return read_rotation(field, {.name_key = "crop", .soil_depth_mm = soil_depth_mm});
}

/// `cuts` of the field itself: those of its one sward.
void add_cuts(const TableReader& field, CropConfig& crop) {
  if (const auto* name = std::get_if<std::string>(&crop)) {
    const CropRow* row = reference_tables().crop(*name);
    if (row == nullptr) return;
    check_cuts(field, *row);
    CropSowing sward;
    sward.crop = *name;
    sward.place = field.place("crop");
    sward.own.cuts = field.days("cuts");
    crop = std::vector{sward};
    return;
  }
  field.problem("cuts", std::holds_alternative<CropByNumbers>(crop)
                            ? "stands at a crop by numbers, which stays the same all year; name "
                              "the crop to have it cut"
                            : "stands at the field; give it with the sward that is cut");
}

}  // namespace

CropConfig read_crop(const TableReader& field) {
  const toml::node* value = field.node("crop");
  if (value == nullptr) return {};
  CropConfig crop = read_forms(field, *value);
  if (field.has("cuts")) add_cuts(field, crop);
  return crop;
}

}  // namespace gley::daemon
