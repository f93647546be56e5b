#include "daemon/readings/payload.hpp"

#include <cmath>
#include <exception>
#include <nlohmann/json.hpp>
#include <optional>
#include <tl/expected.hpp>

#include "daemon/farm/unit.hpp"
#include "daemon/readings/physical_range.hpp"
#include "daemon/readings/rfc3339.hpp"
#include "daemon/readings/senml.hpp"
#include "daemon/text/json_depth.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/trimmed.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {
namespace {

using nlohmann::json;
using namespace std::chrono_literals;

constexpr auto furthest_ahead = 10min;

/// Why something is no reading.
struct Refusal {
  Rejection kind;
  std::string detail;
};

tl::unexpected<Refusal> refuse(Rejection kind, std::string detail) {
  return tl::make_unexpected(Refusal{kind, std::move(detail)});
}

/// A value as the message has it, before units.
struct RawValue {
  double value = 0.0;
  std::string unit;  ///< empty: the mapped one
  std::string name;  ///< of the record, or the pointer; empty for a bare number
  Instant time{};
  TimeSource time_source = TimeSource::arrival;
};

constexpr std::size_t longest_detail = 120;

/// Decodes one message; parses its JSON at most once, however many mappings read it.
class Decoder {
 public:
  Decoder(std::string_view topic, std::string_view payload, Instant arrival,
          bool timeless_is_unknown, std::chrono::days oldest)
      : topic_(topic),
        payload_(trimmed(payload)),
        arrival_(arrival),
        oldest_(oldest),
        timeless_(timeless_is_unknown ? TimeSource::unknown : TimeSource::arrival) {}

  void read(const Mapping& mapping) {
    if (mapping.map.value_pointer) {
      take(mapping, by_pointer(mapping));
    } else if (payload_.starts_with('[')) {
      read_pack(mapping);
    } else if (mapping.map.senml_name) {
      take(mapping, refuse(Rejection::malformed, "a SenML pack is a JSON array"));
    } else {
      take(mapping, bare_number());
    }
  }
  DecodedMessage finish() && {
    // A pack may hold one of several mapped records, and the next pack another.
    if (!found_record_)
      for (const auto& [mapping, refusal] : without_record_) reject(*mapping, refusal);
    return std::move(message_);
  }

 private:
  using Raw = tl::expected<RawValue, Refusal>;

  const json* document() {
    if (!document_) {
      is_too_deep_ = nests_too_deep(payload_);
      document_ =
          is_too_deep_ ? json(json::value_t::discarded) : json::parse(payload_, nullptr, false);
    }
    return document_->is_discarded() ? nullptr : &*document_;
  }

  [[nodiscard]] tl::unexpected<Refusal> refuse_document() const {
    return refuse(Rejection::malformed,
                  is_too_deep_ ? std::string(nests_too_deep_text) : std::string("not JSON"));
  }

  [[nodiscard]] Raw bare_number() const {
    const auto value = number_from(payload_);
    if (!value && payload_.starts_with('{')) {
      return refuse(Rejection::malformed, "a JSON object needs a pointer: value = \"/...\"");
    }
    if (!value) {
      return refuse(
          Rejection::not_a_number,
          "'" + std::string(payload_) + "'; without value or name it must be a number alone");
    }
    return RawValue{*value, {}, {}, arrival_, timeless_};
  }

  Raw by_pointer(const Mapping& mapping) {
    const json* root = document();
    if (root == nullptr) return refuse_document();
    const std::string& name = *mapping.map.value_pointer;
    const json* found = mapping.value ? mapping.value->find(*root) : nullptr;
    if (found == nullptr) return refuse(Rejection::malformed, "nothing at " + name);
    const auto value = number_in(*found);
    if (!value) return refuse(Rejection::not_a_number, name + " is " + found->dump(-1, ' ', true));
    RawValue raw{*value, {}, name, arrival_, timeless_};
    if (!mapping.map.time_pointer) return raw;
    const json* stamp = mapping.time ? mapping.time->find(*root) : nullptr;
    const auto time = stamp == nullptr ? std::nullopt : time_in(*stamp);
    if (!time) {
      const std::string what = stamp == nullptr ? "absent" : stamp->dump(-1, ' ', true);
      return refuse(Rejection::bad_time, *mapping.map.time_pointer + " is " + what);
    }
    raw.time = *time;
    raw.time_source = TimeSource::payload;
    return raw;
  }

  static std::optional<double> number_in(const json& field) {
    if (field.is_string()) return number_from(trimmed(field.get_ref<const std::string&>()));
    if (!field.is_number() || !std::isfinite(field.get<double>())) return {};
    return field.get<double>();
  }

  static std::optional<Instant> time_in(const json& field) {
    constexpr double first_in_milliseconds = 1e11;  // as seconds this were the year 5138
    if (field.is_string()) {
      const auto stamp = parse_rfc3339(trimmed(field.get_ref<const std::string&>()));
      if (stamp) return stamp;
    }
    const auto number = number_in(field);
    if (!number) return {};
    return from_unix_seconds(*number > first_in_milliseconds ? *number / 1000.0 : *number);
  }

  void read_pack(const Mapping& mapping) {
    const json* root = document();
    if (root == nullptr) return take(mapping, refuse_document());
    const auto records = read_senml(*root);
    if (!records) return take(mapping, refuse(Rejection::malformed, records.error()));
    bool found = false;
    for (const SenmlRecord& record : *records) {
      const auto& wanted = mapping.map.senml_name;
      if (wanted && record.name != *wanted && record.local_name != *wanted) continue;
      found = true;
      take(mapping, from_record(record));
    }
    found_record_ = found_record_ || found;
    if (found) return;
    const std::string what = mapping.map.senml_name ? "no record named " + *mapping.map.senml_name
                                                    : "a SenML pack without a record";
    without_record_.emplace_back(&mapping, Refusal{Rejection::unmapped, what});
  }

  [[nodiscard]] Raw from_record(const SenmlRecord& record) const {
    if (!record.value) return refuse(Rejection::not_a_number, record.name + " has no number");
    const auto time = senml_time(record, arrival_);
    if (!time) return refuse(Rejection::bad_time, record.name + " t " + number_text(*record.time));
    const auto source = time->source == TimeSource::payload ? time->source : timeless_;
    return RawValue{*record.value, record.unit, record.name, time->time, source};
  }

  void take(const Mapping& mapping, const Raw& raw) {
    if (!raw) return reject(mapping, raw.error());
    const auto value = in_model_unit(mapping, *raw);
    if (!value) return reject(mapping, value.error());
    DecodedReading decoded{{.station = mapping.station,
                            .quantity = mapping.map.quantity,
                            .form = mapping.map.form,
                            .source = topic_ + (raw->name.empty() ? "" : "#" + raw->name),
                            .time = raw->time,
                            .time_source = raw->time_source,
                            .value = *value},
                           status_of(*raw)};
    if (decoded.status == ReadingStatus::too_old) {
      reject(mapping, {Rejection::too_old, age(raw->time) + " days old"});
    } else if (decoded.status == ReadingStatus::in_the_future) {
      reject(mapping, {Rejection::in_the_future, "ahead of the clock by " + ahead(raw->time)});
    }
    message_.readings.push_back(std::move(decoded));
  }

  static tl::expected<double, Refusal> in_model_unit(const Mapping& mapping, const RawValue& raw) {
    const ReadingMap& map = mapping.map;
    // A record that names a unit of its own states an amount; what has none is a bare count.
    const bool may_count = map.form == ReadingForm::counter || map.form == ReadingForm::interval;
    const bool counts =
        may_count && (raw.unit.empty() || raw.unit == "count" || raw.unit == map.unit);
    const std::string& unit = counts || raw.unit.empty() ? map.unit : raw.unit;
    const double amount = counts ? raw.value * map.step : raw.value;
    const auto value = convert(amount, unit, map.quantity, map.form);
    if (!value) {
      return refuse(Rejection::wrong_unit, "unit " + unit + " for " + map.unit + " in " + raw.name);
    }
    if (!physical_range(map.quantity, map.form).holds(*value)) {
      return refuse(Rejection::out_of_range, number_text(raw.value) + " " + unit);
    }
    return *value;
  }

  [[nodiscard]] ReadingStatus status_of(const RawValue& raw) const {
    if (raw.time_source == TimeSource::unknown) return ReadingStatus::time_unknown;
    if (raw.time > arrival_ + furthest_ahead) return ReadingStatus::in_the_future;
    if (raw.time < arrival_ - oldest_) return ReadingStatus::too_old;
    return ReadingStatus::used;
  }
  [[nodiscard]] std::string age(Instant time) const {
    return std::to_string(std::chrono::floor<std::chrono::days>(arrival_ - time).count());
  }
  [[nodiscard]] std::string ahead(Instant time) const {
    return std::to_string(std::chrono::floor<std::chrono::minutes>(time - arrival_).count()) +
           " min";
  }

  void reject(const Mapping& mapping, const Refusal& refusal) {
    message_.rejections.push_back(
        {refusal.kind, mapping.station, ascii_line(refusal.detail, longest_detail)});
  }

  std::string topic_;
  std::string_view payload_;
  Instant arrival_;
  std::chrono::days oldest_;
  TimeSource timeless_;
  std::optional<json> document_;
  bool is_too_deep_ = false;
  DecodedMessage message_;
  bool found_record_ = false;
  std::vector<std::pair<const Mapping*, Refusal>> without_record_;
};

DecodedMessage rejected(Rejection kind, std::string detail) {
  DecodedMessage message;
  message.rejections.push_back({kind, {}, std::move(detail)});
  return message;
}

}  // namespace

DecodedMessage decode(const TopicMap& map, std::string_view topic, std::string_view payload,
                      Instant arrival, bool timeless_is_unknown) try {
  if (payload.size() > largest_payload_bytes) {
    return rejected(Rejection::too_large, std::to_string(payload.size()) + " bytes");
  }
  const auto mappings = map.find(topic);
  if (mappings.empty()) return rejected(Rejection::unmapped, "no mapping for this topic");
  Decoder decoder(topic, payload, arrival, timeless_is_unknown, map.oldest());
  for (const Mapping* mapping : mappings) decoder.read(*mapping);
  return std::move(decoder).finish();
} catch (const std::exception& error) {
  return rejected(Rejection::malformed, ascii_line(error.what(), longest_detail));
}

}  // namespace gley::daemon
