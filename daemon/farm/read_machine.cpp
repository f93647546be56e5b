#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/word.hpp"
#include "daemon/readings/number_text.hpp"

namespace gley::daemon {

void read_machine(const TableReader& table, ConfigDraft& draft) {
  MachineConfig machine;
  machine.place = table.place();
  table.assign(machine.id, table.text("id"));
  machine.name = table.text("name").value_or(machine.id);
  table.assign(machine.wheel_load_t, table.number("wheel_load_t"));
  table.assign(machine.tyre_pressure_bar, table.number("tyre_pressure_bar"));
  machine.mass_t = table.number("mass_t");
  table.assign(machine.cultivates, table.truth("cultivates"));
  if (machine.mass_t && *machine.mass_t < machine.wheel_load_t) {
    table.problem("mass_t", "is " + number_text(*machine.mass_t) + " and wheel_load_t " +
                                number_text(machine.wheel_load_t) +
                                "; the whole must not be lighter than one wheel's load");
  }
  draft.farm.machines.push_back(std::move(machine));
}

void read_material(const TableReader& table, ConfigDraft& draft) {
  using enum MaterialKind;
  MaterialConfig material;
  material.place = table.place();
  table.assign(material.id, table.text("id"));
  material.name = table.text("name").value_or(material.id);
  table.assign(material.kind,
               from_word(table.text("kind"), {mineral_fertiliser, slurry, solid_manure, spray}));
  draft.farm.materials.push_back(std::move(material));
}

}  // namespace gley::daemon
