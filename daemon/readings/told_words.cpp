#include "daemon/readings/told.hpp"

namespace gley::daemon {

std::string_view to_word(ReportKind kind) {
  switch (kind) {
    case ReportKind::drove:
      return "drove";
    case ReportKind::left_ruts:
      return "left ruts";
    case ReportKind::drains_running:
      return "drains running";
  }
  return {};
}

std::optional<ReportKind> report_kind_from(std::string_view word) {
  for (const auto kind : {ReportKind::drove, ReportKind::left_ruts, ReportKind::drains_running})
    if (to_word(kind) == word) return kind;
  return {};
}

std::string_view to_word(ToldVia via) {
  switch (via) {
    case ToldVia::mqtt:
      return "mqtt";
    case ToldVia::http:
      return "http";
    case ToldVia::command:
      return "command";
  }
  return {};
}

std::string_view to_word(TellFault fault) {
  switch (fault) {
    case TellFault::malformed:
      return "malformed";
    case TellFault::unknown_field:
      return "unknown_field";
    case TellFault::unknown_material:
      return "unknown_material";
    case TellFault::unknown_machine:
      return "unknown_machine";
    case TellFault::unknown_report:
      return "unknown_report";
    case TellFault::unknown_alert:
      return "unknown_alert";
    case TellFault::bad_rate:
      return "bad_rate";
    case TellFault::bad_time:
      return "bad_time";
    case TellFault::in_the_future:
      return "in_the_future";
    case TellFault::too_old:
      return "too_old";
    case TellFault::bad_name:
      return "bad_name";
  }
  return {};
}

std::string_view rate_unit(MaterialKind kind) {
  switch (kind) {
    case MaterialKind::mineral_fertiliser:
      return "kg/ha";
    case MaterialKind::slurry:
      return "m3/ha";
    case MaterialKind::solid_manure:
      return "t/ha";
    case MaterialKind::spray:
      return "l/ha";
  }
  return {};
}

}  // namespace gley::daemon
