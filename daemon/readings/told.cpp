#include "daemon/readings/told.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "daemon/readings/rfc3339.hpp"
#include "daemon/text/json_depth.hpp"
#include "daemon/text/nearest_name.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::json;

constexpr std::chrono::minutes clocks_may_differ{10};
constexpr std::chrono::days oldest{400};
constexpr std::size_t longest_name = 60;
constexpr std::size_t longest_message = 4096;

tl::unexpected<TellProblem> problem(TellFault fault, std::string detail) {
  return tl::unexpected<TellProblem>({fault, std::move(detail)});
}

/// A name as a message may show it: somebody else wrote it.
std::string shown(std::string_view name) {
  return "'" + printable(name.substr(0, 80)) + "'";
}

/// Most that is ever spread in one go, twice over: above it a unit was mistaken. Our choice.
double most(std::string_view unit) {
  return unit == "kg/ha" || unit == "l/ha" ? 2000.0 : 200.0;
}

/// "kg/ha" -> "rate_kg_ha"
std::string rate_key(std::string_view unit) {
  std::string key = "rate_" + std::string(unit);
  std::replace(key.begin(), key.end(), '/', '_');
  return key;
}

template <class Names>
std::string no_such(const std::string& what, const std::string& name, const Names& known) {
  const auto nearest = nearest_name(name, {known.begin(), known.end()});
  return "there is no " + what + " " + shown(name) +
         (nearest ? "; did you mean '" + *nearest + "'?" : "");
}

std::set<std::string> ids_of(const std::map<std::string, MaterialKind>& materials) {
  std::set<std::string> ids;
  for (const auto& [id, kind] : materials) ids.insert(id);
  return ids;
}

tl::expected<void, TellProblem> check_time(Instant time, Instant now) {
  if (time > now + clocks_may_differ)
    return problem(TellFault::in_the_future, "the time lies ahead; tell what has been done");
  if (time < now - oldest) return problem(TellFault::too_old, "the time is more than 400 days ago");
  return {};
}

/// The keys of a message, each taken once; what is left over is not known.
class Message {
 public:
  static tl::expected<Message, TellProblem> parse(std::string_view text) {
    if (text.size() > longest_message)
      return problem(TellFault::malformed, "it must not be longer than 4096 bytes");
    if (nests_too_deep(text))
      return problem(TellFault::malformed, std::string(nests_too_deep_text));
    Json body = Json::parse(text, nullptr, false);
    if (!body.is_object()) return problem(TellFault::malformed, "it must be one JSON object");
    return Message(std::move(body));
  }

  /// A text that is there and not empty; nothing if the key is absent.
  tl::expected<std::optional<std::string>, TellProblem> text(const std::string& key) {
    const auto at = body_.find(key);
    if (at == body_.end()) return std::optional<std::string>{};
    if (!at->is_string()) return problem(TellFault::malformed, key + " must be a text");
    std::string value = at->get<std::string>();
    body_.erase(at);
    return std::optional<std::string>(std::move(value));
  }

  tl::expected<std::string, TellProblem> needed(const std::string& key) {
    auto value = text(key);
    if (!value) return tl::unexpected(value.error());
    if (!*value) return problem(TellFault::malformed, key + " is missing");
    return std::move(**value);
  }

  tl::expected<std::string, TellProblem> field(const TellContext& context) {
    if (!context.field) return needed("field");
    auto own = text("field");
    if (!own) return tl::unexpected(own.error());
    if (*own && **own != *context.field)
      return problem(TellFault::malformed, "field is another than the address names");
    return *context.field;
  }

  tl::expected<Instant, TellProblem> time(const TellContext& context) {
    auto written = text("time");
    if (!written) return tl::unexpected(written.error());
    if (!*written) {
      if (context.time_needed)
        return problem(TellFault::bad_time, "time is missing; a message may come twice");
      return context.now;
    }
    const auto time = parse_rfc3339(**written);
    if (!time)
      return problem(TellFault::bad_time,
                     "time must be written as 2026-03-20T09:30:00Z or with an offset");
    return *time;
  }

  tl::expected<std::string, TellProblem> by() {
    auto name = text("by");
    if (!name) return tl::unexpected(name.error());
    return *name ? person(**name) : std::string();
  }

  tl::expected<double, TellProblem> rate(MaterialKind kind) {
    const std::string key = rate_key(rate_unit(kind));
    const auto at = body_.find(key);
    if (at == body_.end() || !at->is_number())
      return problem(TellFault::bad_rate,
                     "the rate of this material is told as a number by " + key);
    const auto value = at->get<double>();
    body_.erase(at);
    return value;
  }

  tl::expected<void, TellProblem> nothing_left() const {
    if (body_.empty()) return {};
    return problem(TellFault::malformed, "the key " + shown(body_.begin().key()) + " is not known");
  }

 private:
  explicit Message(Json body) : body_(std::move(body)) {}
  Json body_;
};

template <class Told>
TellResult<Told> checked(Message& message, Told told, const TellTerms& terms, Instant now) {
  auto by = message.by();
  if (!by) return tl::unexpected(by.error());
  if (const auto left = message.nothing_left(); !left) return tl::unexpected(left.error());
  if (const auto good = check(told, terms, now); !good) return tl::unexpected(good.error());
  return ToldBy<Told>{std::move(told), std::move(*by)};
}

}  // namespace

TellTerms tell_terms(const FarmConfig& farm) {
  TellTerms terms;
  for (const FieldConfig& field : farm.fields) terms.fields.insert(field.id);
  for (const MaterialConfig& material : farm.materials)
    terms.materials.emplace(material.id, material.kind);
  for (const MachineConfig& machine : farm.machines) terms.machines.insert(machine.id);
  return terms;
}

tl::expected<std::string, TellProblem> person(std::string_view name) {
  while (!name.empty() && name.front() == ' ') name.remove_prefix(1);
  while (!name.empty() && name.back() == ' ') name.remove_suffix(1);
  if (name.empty() || code_points(name) > longest_name)
    return problem(TellFault::bad_name, "the name must have 1 to 60 characters");
  if (printable(name) != name)
    return problem(TellFault::bad_name, "the name holds characters that cannot be shown");
  return std::string(name);
}

tl::expected<void, TellProblem> check(const Dressing& dressing, const TellTerms& terms,
                                      Instant now) {
  if (terms.fields.count(dressing.field) == 0)
    return problem(TellFault::unknown_field, no_such("field", dressing.field, terms.fields));
  const auto material = terms.materials.find(dressing.material);
  if (material == terms.materials.end())
    return problem(TellFault::unknown_material,
                   no_such("material", dressing.material, ids_of(terms.materials)));
  const std::string_view unit = rate_unit(material->second);
  if (dressing.unit != unit || !(dressing.rate > 0.0) || dressing.rate > most(unit))
    return problem(TellFault::bad_rate, "the rate must lie above 0 and up to " +
                                            number_text(most(unit)) + " " + std::string(unit));
  return check_time(dressing.time, now);
}

tl::expected<void, TellProblem> check(const FieldReport& report, const TellTerms& terms,
                                      Instant now) {
  if (terms.fields.count(report.field) == 0)
    return problem(TellFault::unknown_field, no_such("field", report.field, terms.fields));
  if (!report.machine.empty() && terms.machines.count(report.machine) == 0)
    return problem(TellFault::unknown_machine, no_such("machine", report.machine, terms.machines));
  return check_time(report.time, now);
}

TellResult<Dressing> decode_dressing(std::string_view json, const TellTerms& terms,
                                     const TellContext& context) {
  auto message = Message::parse(json);
  if (!message) return tl::unexpected(message.error());
  auto field = message->field(context);
  if (!field) return tl::unexpected(field.error());
  auto material = message->needed("material");
  if (!material) return tl::unexpected(material.error());
  Dressing dressing{.field = *field, .material = *material, .unit = {}, .time = {}};
  // Which key has the rate only the material tells.
  if (const auto known = terms.materials.find(*material); known != terms.materials.end()) {
    const auto rate = message->rate(known->second);
    if (!rate) return tl::unexpected(rate.error());
    dressing.rate = *rate;
    dressing.unit = rate_unit(known->second);
  } else {
    return problem(TellFault::unknown_material,
                   no_such("material", *material, ids_of(terms.materials)));
  }
  const auto time = message->time(context);
  if (!time) return tl::unexpected(time.error());
  dressing.time = *time;
  return checked(*message, std::move(dressing), terms, context.now);
}

TellResult<FieldReport> decode_report(std::string_view json, const TellTerms& terms,
                                      const TellContext& context) {
  auto message = Message::parse(json);
  if (!message) return tl::unexpected(message.error());
  auto field = message->field(context);
  if (!field) return tl::unexpected(field.error());
  const auto word = message->needed("report");
  if (!word) return tl::unexpected(word.error());
  const auto kind = report_kind_from(*word);
  if (!kind)
    return problem(TellFault::unknown_report,
                   "report must be 'drove', 'left ruts' or 'drains running'");
  auto machine = message->text("machine");
  if (!machine) return tl::unexpected(machine.error());
  const auto time = message->time(context);
  if (!time) return tl::unexpected(time.error());
  FieldReport report{
      .field = *field, .kind = *kind, .machine = machine->value_or(""), .time = *time};
  return checked(*message, std::move(report), terms, context.now);
}

tl::expected<std::string, TellProblem> decode_seen(std::string_view json) {
  auto message = Message::parse(json);
  if (!message) return tl::unexpected(message.error());
  const auto by = message->needed("by");
  if (!by) return tl::unexpected(by.error());
  if (const auto left = message->nothing_left(); !left) return tl::unexpected(left.error());
  return person(*by);
}

}  // namespace gley::daemon
