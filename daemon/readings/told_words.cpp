#include "daemon/farm/word.hpp"
#include "daemon/readings/told.hpp"

namespace gley::daemon {

template <>
inline constexpr auto words_for<ReportKind> = std::to_array<std::string_view>({"drove", "left ruts",
                                                                               "drains running"});
template <>
inline constexpr auto words_for<ToldVia> = std::to_array<std::string_view>({"mqtt", "http",
                                                                            "command"});
template <>
inline constexpr auto words_for<TellFault> = std::to_array<std::string_view>(
    {"malformed", "unknown_field", "unknown_material", "unknown_machine", "unknown_report",
     "unknown_alert", "bad_rate", "bad_time", "in_the_future", "too_old", "bad_name"});

std::string_view to_word(ReportKind kind) {
  return word_of(kind);
}

std::optional<ReportKind> report_kind_from(std::string_view word) {
  return from_word<ReportKind>(word);
}

std::string_view to_word(ToldVia via) {
  return word_of(via);
}

std::string_view to_word(TellFault fault) {
  return word_of(fault);
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
