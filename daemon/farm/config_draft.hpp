#pragma once
#include <string>
#include <vector>

#include "daemon/farm/farm_config.hpp"
#include "daemon/farm/reference_tables.hpp"
#include "daemon/farm/toml_reader.hpp"

namespace gley::daemon {

/// A name that has to be some station's or machine's, which may stand in a file not yet read.
struct NameUse {
  std::string name;
  std::string label;  ///< "[[field]] 'top': station"
  FilePlace place;
};

/// The farm while its files are read.
struct ConfigDraft {
  FarmConfig farm;
  std::vector<NameUse> stations_used;
  std::vector<NameUse> machines_used;
  FilePlace forecast_topic;
};

/// One reader a table. Each takes what is good; problems are with the table's reader.
void read_farm(const TableReader& table, ConfigDraft& draft);
void read_mqtt(const TableReader& table, ConfigDraft& draft);
void read_http(const TableReader& table, ConfigDraft& draft);
void read_forecast(const TableReader& table, ConfigDraft& draft);
void read_readings(const TableReader& table, ConfigDraft& draft);
void read_store(const TableReader& table, ConfigDraft& draft);
void read_alerts(const TableReader& table, ConfigDraft& draft);
void read_station(const TableReader& table, ConfigDraft& draft);
void read_field(const TableReader& table, ConfigDraft& draft);
void read_machine(const TableReader& table, ConfigDraft& draft);
void read_material(const TableReader& table, ConfigDraft& draft);
void read_watercourse(const TableReader& table, ConfigDraft& draft);
void read_spring(const TableReader& table, ConfigDraft& draft);

/// What each station, field, machine and so on begins with.
template <class Item>
void read_identity(const TableReader& table, Item& item) {
  item.place = table.place();
  table.assign(item.id, table.text("id"));
  item.name = table.text("name").value_or(item.id);
}

/// The row of a reference table that a key names; a problem and null if there is none.
template <class Row>
[[nodiscard]] const Row* known_row(const TableReader& table, std::string_view key,
                                   const std::string& name, const std::vector<Row>& rows,
                                   const std::string& what) {
  const Row* row = find_row(rows, name);
  if (row == nullptr) table.problem(key, no_such(what, name, names_of(rows)));
  return row;
}

/// The soil and the crop of a field, and how it is irrigated.
[[nodiscard]] SoilConfig read_soil(const TableReader& field);
[[nodiscard]] CropConfig read_crop(const TableReader& field);
[[nodiscard]] std::optional<IrrigationConfig> read_irrigation(const TableReader& field);

/// The outline of a field, from the file it names.
[[nodiscard]] std::optional<FieldShape> read_boundary(const TableReader& field);

/// Whether what lies on the land lies near the farm.
void check_land(const FarmConfig& farm, ProblemList& problems);

/// What can be judged only when all files are read: names that are used but not given, ids given
/// twice, no field at all. Defaults are in their places. `first_file` is where a thing that stands
/// nowhere is missed.
void check_farm(const ConfigDraft& draft, const std::string& first_file, ProblemList& problems);

}  // namespace gley::daemon
