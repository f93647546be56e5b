#include "daemon/engine/watch/told_desk.hpp"

#include <spdlog/spdlog.h>

#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/words/local_time.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::days looks_back{60};

/// Old rows leave the view although no new ones come.
constexpr std::chrono::hours read_again_after{1};

void describe(nlohmann::ordered_json& out, const Dressing& dressing) {
  out["material"] = dressing.material;
  out["rate"] = dressing.rate;
  out["unit"] = dressing.unit;
  out["time"] = rfc3339(dressing.time);
}

void describe(nlohmann::ordered_json& out, const FieldReport& report) {
  out["report"] = to_word(report.kind);
  if (!report.machine.empty()) out["machine"] = report.machine;
  out["time"] = rfc3339(report.time);
}

template <class Told>
Response kept(const ToldBy<Told>& told, int status) {
  nlohmann::ordered_json out{{"field", told.told.field}};
  describe(out, told.told);
  out["by"] = told.name;
  return {.status = status, .content_type = "application/json", .body = json_text(out)};
}

}  // namespace

ToldDesk::ToldDesk(const FarmConfig& farm, Database& database)
    : terms_(tell_terms(farm)), store_(database) {}

bool ToldDesk::catch_up(Instant now) {
  const std::int64_t rows = store_.rows();
  const bool is_new = rows != rows_;
  if (!is_new && now >= read_ && now - read_ < read_again_after) return false;
  rows_ = rows;
  read_ = now;
  dressings_ = store_.dressings_since(now - looks_back);
  reports_ = store_.reports_since(now - looks_back);
  return is_new;
}

Response ToldDesk::refuse(const std::string& address, const TellProblem& problem) {
  ++refused_[problem.fault];
  complaints_[address] =
      "HTTP " + address + ": " + std::string(to_word(problem.fault)) + ": " + problem.detail;
  spdlog::warn("message not taken: {}", complaints_[address]);
  const bool absent =
      problem.fault == TellFault::unknown_field || problem.fault == TellFault::unknown_alert;
  return json_refusal(absent ? 404 : 400, problem.detail);
}

template <class Told>
Response ToldDesk::take(const std::string& address, const TellResult<Told>& told, Instant now) {
  if (!told) return refuse(address, told.error());
  const bool is_new = store_.put(told->told, {ToldVia::http, told->name}, now);
  stored_ += is_new ? 1 : 0;
  return kept(*told, is_new ? 201 : 200);
}

Response ToldDesk::take_dressing(const std::string& field, const std::string& body, Instant now) {
  return take("dressing", decode_dressing(body, terms_, {.now = now, .field = field}), now);
}

Response ToldDesk::take_report(const std::string& field, const std::string& body, Instant now) {
  return take("report", decode_report(body, terms_, {.now = now, .field = field}), now);
}

void ToldDesk::add_to(ServiceView& service) const {
  service.told += stored_;
  for (const auto& [fault, count] : refused_) {
    const std::string word(to_word(fault));
    auto own = service.told_refused.begin();
    while (own != service.told_refused.end() && own->first != word) ++own;
    if (own == service.told_refused.end())
      service.told_refused.emplace_back(word, count);
    else
      own->second += count;
  }
  for (const auto& [address, complaint] : complaints_) service.complaints.push_back(complaint);
}

void ToldDesk::show(FieldView& field) const {
  field.dressings.clear();
  field.reports.clear();
  for (const KeptDressing& kept : dressings_)
    if (kept.dressing.field == field.id)
      field.dressings.push_back({.material = kept.dressing.material,
                                 .rate = kept.dressing.rate,
                                 .unit = kept.dressing.unit,
                                 .time = kept.dressing.time,
                                 .by = kept.teller.name});
  for (const KeptReport& kept : reports_)
    if (kept.report.field == field.id)
      field.reports.push_back({.report = std::string(to_word(kept.report.kind)),
                               .machine = kept.report.machine,
                               .time = kept.report.time,
                               .by = kept.teller.name});
}

}  // namespace gley::daemon
