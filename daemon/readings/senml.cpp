#include "daemon/readings/senml.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "daemon/readings/rfc3339.hpp"

namespace gley::daemon {
namespace {

using nlohmann::json;

/// The base fields as they stand after the records read so far.
struct Base {
  std::string name;
  std::string unit;
  std::optional<double> time;
  double value = 0.0;
};

/// Reads the fields of one record and keeps the first thing that is wrong.
class Fields {
 public:
  explicit Fields(const json& record) : record_(record) {}

  std::optional<double> number(const char* label) {
    const json* field = find(label);
    if (field == nullptr) return {};
    if (!field->is_number()) {
      fail(std::string(label) + " is not a number");
      return {};
    }
    const double value = field->get<double>();
    if (!std::isfinite(value)) fail(std::string(label) + " is not finite");
    return value;
  }
  std::optional<std::string> text(const char* label) {
    const json* field = find(label);
    if (field == nullptr) return {};
    if (!field->is_string()) {
      fail(std::string(label) + " is not a text");
      return {};
    }
    return field->get<std::string>();
  }
  [[nodiscard]] bool has(const char* label) const { return record_.contains(label); }
  void fail(std::string what) {
    if (error_.empty()) error_ = std::move(what);
  }
  [[nodiscard]] const std::string& error() const { return error_; }

 private:
  [[nodiscard]] const json* find(const char* label) const {
    const auto found = record_.find(label);
    return found == record_.end() ? nullptr : &*found;
  }

  const json& record_;
  std::string error_;
};

void check_understood(const json& record, Fields& fields) {
  constexpr double newest_version = 10.0;
  for (const auto& [label, value] : record.items()) {
    if (label.ends_with('_')) fields.fail("field " + label + " must be understood and is not");
  }
  const auto version = fields.number("bver");
  if (version && *version > newest_version) fields.fail("a version above 10");
}

void read_base(Fields& fields, Base& base) {
  if (auto name = fields.text("bn")) base.name = std::move(*name);
  if (auto unit = fields.text("bu")) base.unit = std::move(*unit);
  if (const auto time = fields.number("bt")) base.time = time;
  if (const auto value = fields.number("bv")) base.value = *value;
}

SenmlRecord resolved(Fields& fields, const Base& base) {
  SenmlRecord record;
  record.local_name = fields.text("n").value_or("");
  record.name = base.name + record.local_name;
  record.unit = fields.text("u").value_or(base.unit);
  const auto time = fields.number("t");
  if (time || base.time) record.time = base.time.value_or(0.0) + time.value_or(0.0);
  if (const auto value = fields.number("v")) record.value = base.value + *value;
  return record;
}

}  // namespace

tl::expected<std::vector<SenmlRecord>, std::string> read_senml(const json& pack) {
  if (!pack.is_array()) return tl::make_unexpected("a SenML pack is a JSON array");
  std::vector<SenmlRecord> records;
  Base base;
  for (const json& entry : pack) {
    if (!entry.is_object()) return tl::make_unexpected("a SenML record is a JSON object");
    Fields fields(entry);
    check_understood(entry, fields);
    read_base(fields, base);
    SenmlRecord record = resolved(fields, base);
    if (!fields.error().empty()) return tl::make_unexpected("SenML: " + fields.error());
    const bool holds_something = fields.has("v") || fields.has("vs") || fields.has("vb") ||
                                 fields.has("vd") || fields.has("s");
    if (holds_something) records.push_back(std::move(record));
  }
  return records;
}

std::optional<SenmlTime> senml_time(const SenmlRecord& record, Instant arrival) {
  constexpr double first_absolute_s = 268435456.0;  // 2^28
  const double time = record.time.value_or(0.0);
  if (time >= first_absolute_s) {
    const auto instant = from_unix_seconds(time);
    if (!instant) return {};
    return SenmlTime{*instant, TimeSource::payload};
  }
  constexpr double longest_ago_s = 100.0 * 366.0 * 86400.0;  // keeps the sum within its type
  if (time < -longest_ago_s) return {};
  return SenmlTime{arrival + std::chrono::milliseconds(std::llround(time * 1000.0)),
                   TimeSource::arrival};
}

}  // namespace gley::daemon
