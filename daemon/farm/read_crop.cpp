#include <algorithm>
#include <array>
#include <cstdio>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/reference_tables.hpp"

namespace gley::daemon {
namespace {

constexpr std::array by_numbers_keys{"kcb", "cover", "height_m", "root_depth_mm",
                                     "depletion_fraction"};
constexpr std::array sowing_keys{"crop",    "sown",    "harvested", "kcb_ini",
                                 "kcb_mid", "kcb_end", "stage_days"};

std::string date_text(std::chrono::year_month_day date) {
  std::array<char, 16> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text.data();
}

CropByNumbers read_by_numbers(const TableReader& table) {
  for (const char* key : by_numbers_keys) {
    if (!table.has(key)) {
      table.problem(key,
                    "is missing: a crop by numbers needs kcb, cover, height_m, root_depth_mm "
                    "and depletion_fraction");
    }
  }
  for (const char* key : sowing_keys) {
    if (table.has(key)) {
      table.problem(key, "stands in a crop by numbers; write [[field.crop]] to sow a named crop");
    }
  }
  CropByNumbers crop;
  table.assign(crop.kcb, table.number("kcb"));
  table.assign(crop.cover, table.number("cover"));
  table.assign(crop.height_m, table.number("height_m"));
  table.assign(crop.root_depth_mm, table.number("root_depth_mm"));
  table.assign(crop.depletion_fraction, table.number("depletion_fraction"));
  return crop;
}

const CropRow* known_crop(const TableReader& table, const std::string& name) {
  const CropRow* row = reference_tables().crop(name);
  if (row == nullptr) {
    table.problem("crop", "is \"" + name + "\"; there is no such crop; " +
                              suggestion(name, names_of(reference_tables().crops)));
  }
  return row;
}

/// The usual harvest after a day of sowing; none for what stands all year.
std::optional<std::chrono::year_month_day> usual_harvest(const CropRow& row,
                                                         std::chrono::year_month_day sown) {
  if (!row.harvested) return std::nullopt;
  std::chrono::year_month_day harvest = sown.year() / *row.harvested;
  if (harvest <= sown) harvest = (sown.year() + std::chrono::years{1}) / *row.harvested;
  return harvest;
}

void read_dates(const TableReader& table, const CropRow* row, CropSowing& sowing) {
  sowing.sown = table.date("sown");
  sowing.harvested = table.date("harvested");
  if (table.has("harvested") && !table.has("sown")) {
    table.problem("harvested",
                  "stands without sown; give both dates, or neither for a crop sown "
                  "every year on its usual day");
  }
  if (!sowing.sown) return;
  if (!sowing.harvested && row != nullptr) sowing.harvested = usual_harvest(*row, *sowing.sown);
  if (sowing.harvested && *sowing.harvested <= *sowing.sown) {
    table.problem("harvested", "is " + date_text(*sowing.harvested) + " and sown " +
                                   date_text(*sowing.sown) + "; harvest must be the later");
  }
}

void read_stages(const TableReader& table, const CropRow* row, CropSowing& sowing) {
  const std::vector<int> days = table.whole_numbers("stage_days");
  if (!table.is_good("stage_days")) return;
  const bool good = days.size() == 4 && std::all_of(days.begin(), days.end(),
                                                    [](int day) { return day >= 0 && day <= 400; });
  if (!good) {
    table.problem("stage_days",
                  "must be four lengths in days, each 0 to 400, such as [160, 75, "
                  "75, 25]");
    return;
  }
  if (row != nullptr && !row->stages) {
    table.problem("stage_days", "stands at " + row->name + ", which has no stages; remove it");
  }
  sowing.stages = StageDays{.ini = days[0], .dev = days[1], .mid = days[2], .late = days[3]};
}

CropSowing read_sowing(const TableReader& table) {
  CropSowing sowing;
  sowing.place = table.place();
  for (const char* key : by_numbers_keys) {
    if (table.has(key)) {
      table.problem(key,
                    "stands in [[field.crop]]; a crop by numbers is written crop = { kcb = "
                    "..., ... }");
    }
  }
  const CropRow* row = nullptr;
  if (const auto name = table.text("crop")) {
    sowing.crop = *name;
    row = known_crop(table, *name);
  } else if (!table.has("crop")) {
    table.problem("crop", "is missing: the name of the crop that is sown");
  }
  sowing.kcb_ini = table.number("kcb_ini");
  sowing.kcb_mid = table.number("kcb_mid");
  sowing.kcb_end = table.number("kcb_end");
  read_dates(table, row, sowing);
  read_stages(table, row, sowing);
  return sowing;
}

void check_rotation(const TableReader& field, std::vector<CropSowing>& sowings) {
  const auto undated = std::find_if(sowings.begin(), sowings.end(),
                                    [](const CropSowing& sowing) { return !sowing.sown; });
  if (sowings.size() > 1 && undated != sowings.end()) {
    field.problems().add(undated->place, field.label() +
                                             ", crop: sown is missing; with several "
                                             "crops each needs its day of sowing");
    return;
  }
  std::stable_sort(sowings.begin(), sowings.end(),
                   [](const CropSowing& a, const CropSowing& b) { return a.sown < b.sown; });
  for (std::size_t i = 1; i < sowings.size(); ++i) {
    const CropSowing& before = sowings[i - 1];
    const CropSowing& next = sowings[i];
    const bool same_day = *before.sown == *next.sown;
    if (!same_day && (!before.harvested || *before.harvested <= *next.sown)) continue;
    field.problems().add(
        next.place, field.label() + ", crop: " + next.crop + " sown " + date_text(*next.sown) +
                        " overlaps " + before.crop + " of " + before.place.file + ":" +
                        std::to_string(before.place.line) +
                        (before.harvested ? ", harvested " + date_text(*before.harvested) : "") +
                        "; correct the dates");
  }
}

}  // namespace

CropConfig read_crop(const TableReader& field) {
  const toml::node* value = field.node("crop");
  if (value == nullptr) return {};
  if (const auto name = value->value_exact<std::string>()) {
    (void)known_crop(field, *name);
    return *name;
  }
  if (const auto numbers = field.child("crop")) return read_by_numbers(*numbers);
  const toml::array* list = value->as_array();
  if (list == nullptr || list->empty() || !list->is_array_of_tables()) {
    field.problem("crop", "is " + value_text(*value) +
                              "; it must be a crop in quotation marks, a table such as { kcb = "
                              "0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                              "depletion_fraction = 0.5 }, or [[field.crop]] once a sowing");
    return {};
  }
  std::vector<CropSowing> sowings;
  for (const TableReader& sowing : field.children("crop")) sowings.push_back(read_sowing(sowing));
  const bool dated = std::none_of(sowings.begin(), sowings.end(), [](const CropSowing& sowing) {
    return sowing.harvested && sowing.sown && *sowing.harvested <= *sowing.sown;
  });
  if (dated) check_rotation(field, sowings);
  return sowings;
}

}  // namespace gley::daemon
