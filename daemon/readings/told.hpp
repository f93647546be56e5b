#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "daemon/readings/reading.hpp"

/// What people tell the daemon of their fields: a dressing that was spread, and what was seen or
/// done there. JSON, the same over MQTT and HTTP.
namespace gley::daemon {

/// A material was spread on a field.
struct Dressing {
  std::string field;
  std::string material;
  double rate = 0.0;  ///< in `unit`
  std::string unit;   ///< kg/ha, m3/ha, t/ha or l/ha, by the material's kind
  Instant time{};

  friend bool operator==(const Dressing&, const Dressing&) = default;
};

enum class ReportKind { drove, left_ruts, drains_running };
[[nodiscard]] std::string_view to_word(ReportKind kind);
[[nodiscard]] std::optional<ReportKind> report_kind_from(std::string_view word);

/// Something was done or seen on a field.
struct FieldReport {
  std::string field;
  ReportKind kind = ReportKind::drove;
  std::string machine;  ///< that drove or left ruts; empty: not told
  Instant time{};

  friend bool operator==(const FieldReport&, const FieldReport&) = default;
};

/// Who told something, and how.
enum class ToldVia { mqtt, http, command };
[[nodiscard]] std::string_view to_word(ToldVia via);
struct Teller {
  ToldVia via = ToldVia::mqtt;
  std::string name;  ///< empty: not told

  friend bool operator==(const Teller&, const Teller&) = default;
};

/// Why something told is not taken. Also the label of its metric.
enum class TellFault {
  malformed,         ///< not JSON, a key that is not known, or one that is missing
  unknown_field,     ///< not in the configuration
  unknown_material,  ///< not in the configuration
  unknown_machine,   ///< not in the configuration
  unknown_report,    ///< not one of our words
  unknown_alert,     ///< no alert of this id was ever given
  bad_rate,          ///< no number, in another unit, or beyond what can be spread
  bad_time,          ///< a time that cannot be read
  in_the_future,     ///< more than ten minutes ahead
  too_old,           ///< more than 400 days ago
  bad_name,          ///< of who told it: empty, too long, or with control characters
};
[[nodiscard]] std::string_view to_word(TellFault fault);

struct TellProblem {
  TellFault fault = TellFault::malformed;
  std::string detail;  ///< what is wrong and what to do, in one sentence
};

/// What may be told of.
struct TellTerms {
  std::set<std::string> fields;
  std::map<std::string, MaterialKind> materials;
  std::set<std::string> machines;
};
[[nodiscard]] TellTerms tell_terms(const FarmConfig& farm);

/// What stands beside the message.
struct TellContext {
  Instant now{};
  std::optional<std::string> field = {};  ///< named by the address; the message need not repeat it
  bool time_needed = false;  ///< a message that may come twice has to carry its time to count once
};

template <class Told>
struct ToldBy {
  Told told;
  std::string name;  ///< of who told it
};
template <class Told>
using TellResult = tl::expected<ToldBy<Told>, TellProblem>;

/// {"field": "top", "material": "nitrogen", "rate_kg_ha": 120, "time": "2026-03-20T09:30:00Z",
/// "by": "Ann"}: the unit of the rate goes with the material's kind; `time` is now and `by` nobody
/// unless told.
[[nodiscard]] TellResult<Dressing> decode_dressing(std::string_view json, const TellTerms& terms,
                                                   const TellContext& context);

/// {"field": "top", "report": "left ruts", "machine": "drill", "time": ..., "by": ...}
[[nodiscard]] TellResult<FieldReport> decode_report(std::string_view json, const TellTerms& terms,
                                                    const TellContext& context);

/// {"by": "Ann"}: who has seen an alert.
[[nodiscard]] tl::expected<std::string, TellProblem> decode_seen(std::string_view json);

/// The same from parts, as the command line has them.
[[nodiscard]] tl::expected<void, TellProblem> check(const Dressing& dressing,
                                                    const TellTerms& terms, Instant now);
[[nodiscard]] tl::expected<void, TellProblem> check(const FieldReport& report,
                                                    const TellTerms& terms, Instant now);
/// A person's name without blanks around it: 1 to 60 characters, none that moves a cursor.
[[nodiscard]] tl::expected<std::string, TellProblem> person(std::string_view name);

/// The unit in which a kind's rate is told.
[[nodiscard]] std::string_view rate_unit(MaterialKind kind);

}  // namespace gley::daemon
