#include <optional>

#include "daemon/farm/config_draft.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

constexpr double heaviest_wheel_t = 20.0;

void take_class(const TableReader& table, MachineConfig& machine) {
  const auto name = table.text("class");
  if (!name) return;
  const MachineRow* row =
      known_row(table, "class", *name, reference_tables().machines, "machine class");
  if (row == nullptr) return;
  machine.wheel_load_t = row->wheel_load_t;
  machine.tyre_pressure_bar = row->tyre_pressure_bar;
  machine.mass_t = row->mass_t;
  machine.empty_wheel_load_t = row->empty_wheel_load_t;
  machine.empty_mass_t = row->empty_mass_t;
  machine.cultivates = row->cultivates;
  machine.tread = row->tread;
}

/// A wheel's share of a mass; absent where the axle is not told.
class Axle {
 public:
  explicit Axle(const TableReader& table)
      : share_(table.number("axle_share")), tyres_(table.whole_number("axle_tyres")) {}
  [[nodiscard]] bool is_told() const { return share_ && tyres_; }
  [[nodiscard]] std::optional<double> wheel_of(const std::optional<double>& mass_t) const {
    if (!is_told() || !mass_t) return {};
    return *mass_t * *share_ / *tyres_;
  }

 private:
  std::optional<double> share_;
  std::optional<int> tyres_;
};

void check_axle_keys(const TableReader& table) {
  const bool share = table.has("axle_share");
  const bool tyres = table.has("axle_tyres");
  if (!share && !tyres) return;
  if (table.has("wheel_load_t"))
    table.problem("wheel_load_t",
                  "stands beside axle_share or axle_tyres; give the wheel's load, or what it is "
                  "worked out from");
  if (share != tyres)
    table.problem(share ? "axle_share" : "axle_tyres", std::string("stands without ") +
                                                           (share ? "axle_tyres" : "axle_share") +
                                                           "; give both, and mass_t");
  else if (!table.has("mass_t"))
    table.problem("axle_share", "stands without mass_t, of which it is a share");
}

/// Returns whether the wheel's load is known.
bool take_wheel_load(const TableReader& table, const Axle& axle, MachineConfig& machine) {
  check_axle_keys(table);
  if (const auto own = axle.wheel_of(table.number("mass_t"))) {
    machine.wheel_load_t = *own;
    if (*own > heaviest_wheel_t)
      table.problem("axle_share", "and mass_t " + number_text(*machine.mass_t) + " give " +
                                      number_text(*own) + " t on one wheel; it must be at most " +
                                      number_text(heaviest_wheel_t) + " t");
  }
  table.assign(machine.wheel_load_t, table.number("wheel_load_t"));
  return machine.wheel_load_t > 0.0;
}

void check_missing(const TableReader& table, const MachineConfig& machine) {
  const bool said = table.has("wheel_load_t") || table.has("axle_share") ||
                    table.has("axle_tyres") || table.has("class");
  if (machine.wheel_load_t <= 0.0 && !said)
    table.problem("wheel_load_t",
                  "is missing: the heaviest wheel, loaded as it works; or give mass_t, axle_share "
                  "and axle_tyres, or a class");
  const bool pressure_said = table.has("tyre_pressure_bar") || table.has("class");
  if (machine.tyre_pressure_bar <= 0.0 && !pressure_said)
    table.problem("tyre_pressure_bar",
                  "is missing: inflation of the heaviest wheel, or give a class");
}

/// The lighter of two of one kind must not be the heavier.
void check_lighter(const TableReader& table, const char* key, const std::optional<double>& light,
                   const char* than, const std::optional<double>& heavy, const char* why) {
  if (!light || !heavy || *light <= *heavy) return;
  table.problem(
      key, "is " + number_text(*light) + " and " + than + " " + number_text(*heavy) + "; " + why);
}

void take_empty(const TableReader& table, const Axle& axle, MachineConfig& machine) {
  if (table.has("empty_mass_t")) machine.empty_mass_t = table.number("empty_mass_t");
  if (const auto own = axle.wheel_of(machine.empty_mass_t)) machine.empty_wheel_load_t = own;
  if (table.has("empty_wheel_load_t"))
    machine.empty_wheel_load_t = table.number("empty_wheel_load_t");
  if (!machine.empty_wheel_load_t && machine.empty_mass_t && machine.mass_t)
    machine.empty_wheel_load_t = machine.wheel_load_t * *machine.empty_mass_t / *machine.mass_t;
  const std::optional<double> full = machine.wheel_load_t;
  check_lighter(table, "empty_mass_t", machine.empty_mass_t, "mass_t", machine.mass_t,
                "empty it must not be the heavier");
  check_lighter(table, "empty_wheel_load_t", machine.empty_wheel_load_t, "wheel_load_t", full,
                "empty it must not be the heavier");
}

}  // namespace

void read_machine(const TableReader& table, ConfigDraft& draft) {
  MachineConfig machine;
  read_identity(table, machine);
  take_class(table, machine);
  // Another wheel than the class's: what the class weighs empty is no longer said of it.
  if (table.has("wheel_load_t") || table.has("mass_t")) {
    machine.mass_t.reset();
    machine.empty_mass_t.reset();
    machine.empty_wheel_load_t.reset();
  }
  if (table.has("mass_t")) machine.mass_t = table.number("mass_t");
  const Axle axle(table);
  const bool wheel_known = take_wheel_load(table, axle, machine);
  table.assign(machine.tyre_pressure_bar, table.number("tyre_pressure_bar"));
  table.assign(machine.cultivates, table.truth("cultivates"));
  table.assign(machine.tread, table.word<model::Tread>("runs_on"));
  check_missing(table, machine);
  if (wheel_known) take_empty(table, axle, machine);
  if (machine.mass_t && *machine.mass_t < machine.wheel_load_t)
    table.problem("mass_t", "is " + number_text(*machine.mass_t) + " and wheel_load_t " +
                                number_text(machine.wheel_load_t) +
                                "; the whole must not be lighter than one wheel's load");
  draft.farm.machines.push_back(std::move(machine));
}

void read_material(const TableReader& table, ConfigDraft& draft) {
  MaterialConfig material;
  read_identity(table, material);
  table.assign(material.kind, table.word<MaterialKind>("kind"));
  material.rate_kg_ha = table.number("rate_kg_ha");
  material.n_pct = table.number("n_pct");
  draft.farm.materials.push_back(std::move(material));
}

}  // namespace gley::daemon
