#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/reference_tables.hpp"

namespace gley::daemon {
namespace {

void check_method(const TableReader& table, const char* key, const std::string& method) {
  const auto& rows = reference_tables().irrigation_methods;
  if (reference_tables().irrigation_method(method) != nullptr) return;
  table.problem(
      key, "is \"" + method + "\"; there is no such method; " + suggestion(method, names_of(rows)));
}

}  // namespace

std::optional<IrrigationConfig> read_irrigation(const TableReader& field) {
  const toml::node* value = field.node("irrigation");
  if (value == nullptr) return std::nullopt;
  IrrigationConfig irrigation;
  if (const auto method = value->value_exact<std::string>()) {
    irrigation.method = *method;
    check_method(field, "irrigation", *method);
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
    check_method(*table, "method", *method);
  }
  irrigation.wetted_fraction = table->number("wetted_fraction");
  return irrigation;
}

}  // namespace gley::daemon
