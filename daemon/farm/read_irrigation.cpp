#include "daemon/farm/config_draft.hpp"

namespace gley::daemon {

std::optional<IrrigationConfig> read_irrigation(const TableReader& field) {
  const toml::node* value = field.node("irrigation");
  if (value == nullptr) return std::nullopt;
  IrrigationConfig irrigation;
  if (const auto method = value->value_exact<std::string>()) {
    irrigation.method = *method;
    (void)known_row(field, "irrigation", *method, reference_tables().irrigation_methods, "method");
    return irrigation;
  }
  const auto table = field.child("irrigation");
  if (!table) {
    field.problem("irrigation", "is " + value_text(*value) +
                                    "; it must be a method in quotation marks, such as "
                                    "\"sprinkler\", or a table such as { method = \"drip\", "
                                    "wetted_fraction = 0.3 }");
    return std::nullopt;
  }
  if (const auto method = table->text("method")) {
    irrigation.method = *method;
    (void)known_row(*table, "method", *method, reference_tables().irrigation_methods, "method");
  }
  irrigation.wetted_fraction = table->number("wetted_fraction");
  return irrigation;
}

}  // namespace gley::daemon
