#include "daemon/engine/watch/doubt_view.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <cstdlib>

#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

/// A finding is shown for so many days, today among them: a sensor that is off for an hour is to
/// be seen by who looks the next morning.
constexpr days shown{3};

/// All findings about a station on one day, of readings and of the whole day.
std::vector<Doubt> doubts_on(const FieldBook& book, const std::string& station, sys_days date) {
  std::vector<Doubt> doubts;
  const StationRecord& record = book.record(station);
  const auto day = record.find(date);
  if (day != record.end()) doubts = day->second.doubts.list();
  const DoubtsByDay& judged = book.doubts(station);
  const auto found = judged.find(date);
  if (found != judged.end())
    doubts.insert(doubts.end(), found->second.begin(), found->second.end());
  return doubts;
}

bool same_matter(const Doubt& a, const Doubt& b) {
  return a.quantity == b.quantity && a.kind == b.kind && a.accepted == b.accepted;
}

bool found_on(const FieldBook& book, const std::string& station, sys_days date,
              const Doubt& doubt) {
  const std::vector<Doubt> own = doubts_on(book, station, date);
  return std::any_of(own.begin(), own.end(),
                     [&](const Doubt& one) { return same_matter(one, doubt); });
}

DoubtView view_of(const FieldBook& book, const std::string& station, sys_days last,
                  const Doubt& doubt) {
  sys_days since = last;
  while (found_on(book, station, since - days{1}, doubt)) since -= days{1};
  return {.quantity = std::string(to_word(doubt.quantity)),
          .reason = std::string(to_word(doubt.kind)),
          .since = date_text(since),
          .last = date_text(last),
          .accepted = doubt.accepted,
          .what_to_do = std::string(what_to_do(doubt.kind))};
}

bool was_shown(const StationView* before, const DoubtView& doubt) {
  return before != nullptr &&
         std::any_of(before->doubts.begin(), before->doubts.end(), [&](const DoubtView& old) {
           return old.quantity == doubt.quantity && old.reason == doubt.reason &&
                  old.accepted == doubt.accepted;
         });
}

void log_clock(const StationView* before, const StationView& station) {
  const bool was_off = before != nullptr && before->clock_behind_min != 0;
  if (station.clock_behind_min == 0 || was_off) return;
  spdlog::warn("station {}: its times are {} min {}; set its clock, and have it send UTC",
               station.id, std::abs(station.clock_behind_min),
               station.clock_behind_min > 0 ? "behind" : "ahead");
}

}  // namespace

std::vector<DoubtView> doubts_of_station(const FarmState& state, const std::string& station) {
  std::vector<DoubtView> views;
  std::vector<Doubt> known;
  for (sys_days date = state.today(); date > state.today() - shown; date -= days{1})
    for (const Doubt& doubt : doubts_on(state.book(), station, date)) {
      const bool is_known = std::any_of(known.begin(), known.end(),
                                        [&](const Doubt& one) { return same_matter(one, doubt); });
      if (is_known) continue;
      known.push_back(doubt);
      views.push_back(view_of(state.book(), station, date, doubt));
    }
  return views;
}

std::set<std::string> stations_doubted(AlertEvent event, const FarmState& state, Instant now) {
  std::set<std::string> stations;
  const std::string_view blocked = to_word(DoubtKind::blocked);
  for (const StationConfig& station : state.farm().stations) {
    bool holds = false;
    if (event == AlertEvent::clock_off)
      holds = state.keeper().clocks().behind(station.id, now).has_value();
    else
      for (const DoubtView& doubt : doubts_of_station(state, station.id))
        holds = holds || (!doubt.accepted &&
                          (doubt.reason == blocked) == (event == AlertEvent::gauge_blocked));
    if (holds) stations.insert(station.id);
  }
  return stations;
}

void log_new_doubts(const BoardSnapshot& before, const BoardSnapshot& now) {
  for (const StationView& station : now.stations) {
    const StationView* old = with_id(before.stations, station.id);
    log_clock(old, station);
    for (const DoubtView& doubt : station.doubts) {
      if (was_shown(old, doubt)) continue;
      spdlog::warn("station {}: {} {} since {}, {}. {}", station.id, doubt.quantity, doubt.reason,
                   doubt.since,
                   doubt.accepted ? "accepted by a person and used" : "kept and not used",
                   doubt.what_to_do);
    }
  }
}

}  // namespace gley::daemon
