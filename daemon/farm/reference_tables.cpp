#include "daemon/farm/reference_tables.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <stdexcept>

#include "daemon/farm/calendar_text.hpp"
#include "daemon/farm/embedded_tables.hpp"

namespace gley::daemon {
namespace {

/// One row of a table; every key that is asked for has to be there.
class RowReader {
 public:
  RowReader(const toml::table& row, std::string where) : row_(row), where_(std::move(where)) {}

  template <class T>
  [[nodiscard]] T get(std::string_view key) const {
    const std::optional<T> value = row_[key].value<T>();
    if (!value) fail(key);
    return *value;
  }

  template <class T>
  [[nodiscard]] std::optional<T> find(std::string_view key) const {
    if (!row_.contains(key)) return std::nullopt;
    return get<T>(key);
  }

  [[noreturn]] void fail(std::string_view key) const {
    throw std::logic_error(where_ + " '" + row_["name"].value_or(std::string("?")) +
                           "': " + std::string(key) + " is missing or wrong");
  }

 private:
  const toml::table& row_;
  std::string where_;
};

char group_of(const RowReader& row, std::string_view key) {
  const auto text = row.get<std::string>(key);
  if (text.size() != 1 || text[0] < 'A' || text[0] > 'D') row.fail(key);
  return text[0];
}

SoilRow read_soil(const RowReader& row) {
  return {.name = row.get<std::string>("name"),
          .sand_pct = row.get<double>("sand_pct"),
          .silt_pct = row.get<double>("silt_pct"),
          .clay_pct = row.get<double>("clay_pct"),
          .organic_pct = row.get<double>("organic_pct"),
          .wilting_point = row.get<double>("wilting_point"),
          .field_capacity = row.get<double>("field_capacity"),
          .saturation = row.get<double>("saturation"),
          .available_water = row.get<double>("available_water"),
          .retention_b = row.get<double>("retention_b"),
          .hydrologic_group_free = group_of(row, "hydrologic_group_free"),
          .hydrologic_group_slow = group_of(row, "hydrologic_group_slow"),
          .rew_mm = row.get<double>("rew_mm"),
          .source = row.get<std::string>("source")};
}

template <class Enum>
Enum word_at(const RowReader& row, std::string_view key, const std::string& word) {
  const auto value = from_word<Enum>(word);
  if (!value) row.fail(key);
  return *value;
}

std::optional<StageDays> stages_of(const RowReader& row) {
  if (!row.find<int>("ini_days")) return std::nullopt;
  return StageDays{.ini = row.get<int>("ini_days"),
                   .dev = row.get<int>("dev_days"),
                   .mid = row.get<int>("mid_days"),
                   .late = row.get<int>("late_days")};
}

std::optional<StageDayDegrees> day_degrees_of(const RowReader& row) {
  if (!row.find<double>("base_c")) return std::nullopt;
  return StageDayDegrees{.base_c = row.get<double>("base_c"),
                         .ini = row.get<double>("ini_day_degrees"),
                         .dev = row.get<double>("dev_day_degrees"),
                         .mid = row.get<double>("mid_day_degrees"),
                         .late = row.get<double>("late_day_degrees")};
}

std::optional<std::chrono::month_day> month_day_of(const RowReader& row, std::string_view key) {
  const auto text = row.find<std::string>(key);
  if (!text) return std::nullopt;
  const auto day = parse_month_day(*text);
  if (!day) row.fail(key);
  return day;
}

CropRow read_crop(const RowReader& row) {
  return {.name = row.get<std::string>("name"),
          .kind = word_at<CropKind>(row, "kind", row.get<std::string>("kind")),
          .kcb_ini = row.get<double>("kcb_ini"),
          .kcb_mid = row.get<double>("kcb_mid"),
          .kcb_end = row.get<double>("kcb_end"),
          .height_m = row.get<double>("height_m"),
          .root_depth_mm = row.get<double>("root_depth_mm"),
          .root_depth_min_mm = row.get<double>("root_depth_min_mm"),
          .depletion_fraction = row.get<double>("depletion_fraction"),
          .cover = row.find<double>("cover"),
          .stages = stages_of(row),
          .stages_day_degrees = day_degrees_of(row),
          .sown = month_day_of(row, "sown"),
          .harvested = month_day_of(row, "harvested"),
          .residue_cover = row.find<double>("residue_cover").value_or(0.0),
          .uncut_kcb = row.find<double>("uncut_kcb"),
          .cut_kcb = row.find<double>("cut_kcb"),
          .cut_height_m = row.find<double>("cut_height_m"),
          .cut_cover = row.find<double>("cut_cover"),
          .recovery_days = row.find<int>("recovery_days"),
          .runoff_cover = row.get<std::string>("runoff_cover"),
          .source = row.get<std::string>("source")};
}

CurveNumberRow read_runoff_cover(const RowReader& row) {
  return {.name = row.get<std::string>("name"),
          .a = row.get<double>("a"),
          .b = row.get<double>("b"),
          .c = row.get<double>("c"),
          .d = row.get<double>("d"),
          .source = row.get<std::string>("source")};
}

IrrigationRow read_irrigation_method(const RowReader& row) {
  return {.name = row.get<std::string>("name"),
          .wetted_fraction = row.get<double>("wetted_fraction"),
          .under_crop = row.get<bool>("under_crop"),
          .source = row.get<std::string>("source")};
}

MachineRow read_machine(const RowReader& row) {
  return {.name = row.get<std::string>("name"),
          .wheel_load_t = row.get<double>("wheel_load_t"),
          .tyre_pressure_bar = row.get<double>("tyre_pressure_bar"),
          .mass_t = row.get<double>("mass_t"),
          .empty_wheel_load_t = row.find<double>("empty_wheel_load_t"),
          .empty_mass_t = row.find<double>("empty_mass_t"),
          .tread = word_at<model::Tread>(row, "runs_on",
                                         row.find<std::string>("runs_on").value_or("wheels")),
          .cultivates = row.get<bool>("cultivates"),
          .source = row.get<std::string>("source")};
}

template <class Row>
std::vector<Row> read_rows(const char* file, const char* table, Row (*read)(const RowReader&)) {
  const std::string where = std::string(file) + ", " + table;
  const toml::table document = toml::parse(embedded_table(file), std::string_view(file));
  const toml::array* rows = document[table].as_array();
  if (rows == nullptr) throw std::logic_error(where + ": no rows");
  std::vector<Row> result;
  for (const toml::node& node : *rows) {
    if (!node.is_table()) throw std::logic_error(where + ": not a table");
    result.push_back(read(RowReader(*node.as_table(), where)));
  }
  return result;
}

}  // namespace

double CurveNumberRow::of_group(char group) const {
  switch (group) {
    case 'A':
      return a;
    case 'B':
      return b;
    case 'C':
      return c;
    case 'D':
      return d;
    default:
      throw std::logic_error(std::string("no hydrologic group ") + group);
  }
}

const ReferenceTables& reference_tables() {
  static const ReferenceTables tables{
      .soils = read_rows("soils.toml", "soil", read_soil),
      .crops = read_rows("crops.toml", "crop", read_crop),
      .runoff_covers = read_rows("crops.toml", "runoff_cover", read_runoff_cover),
      .irrigation_methods = read_rows("irrigation.toml", "irrigation", read_irrigation_method),
      .machines = read_rows("machines.toml", "machine", read_machine)};
  return tables;
}

}  // namespace gley::daemon
