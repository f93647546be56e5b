#include "daemon/board/words/board_words.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "daemon/board/words/outlook_words.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

namespace chrono = std::chrono;

bool same_day(Instant a, Instant b, const FarmClock& clock) {
  return clock.day(a) == clock.day(b);
}

std::string day_name(Instant instant, const Moment& moment) {
  if (same_day(instant, moment.now, moment.clock)) return "today";
  const std::string weekday = moment.clock.weekday(instant);
  const bool within_the_week = instant - moment.now < chrono::hours{6 * 24};
  return within_the_week ? weekday : weekday + ' ' + moment.clock.date(instant);
}

bool at_midnight(Instant instant, const FarmClock& clock) {
  return clock.clock(instant).starts_with("00:00");
}

bool shows(double value_mm) {
  return std::lround(value_mm) > 0;
}

bool is_fresh(const BoardSnapshot& board) {
  return board.forecast && board.time - board.forecast->received < chrono::hours{24};
}

std::string days_ahead_text(std::size_t days) {
  return days == 1 ? "today" : "the next " + std::to_string(days) + " days";
}

JobWords carried_words(const MachineView& machine, const Moment& moment) {
  if (machine.until) return {.when = "until " + end_text(*machine.until, moment), .chance = {}};
  if (moment.days_ahead == 0) return {.when = "now", .chance = "no forecast"};
  return {.when = "for " + days_ahead_text(moment.days_ahead), .chance = {}};
}

JobWords closed_words(const MachineView& machine, const Moment& moment) {
  if (machine.next_window) {
    const WindowView& window = *machine.next_window;
    const std::string verb = machine.verdict == "with care" ? "carries from " : "opens ";
    return {.when = verb + soon_text(window.from, moment),
            .chance = chance_text(window.probability)};
  }
  const bool careful = machine.verdict == "with care";
  if (moment.days_ahead == 0) {
    return {.when = careful ? "now" : "closed", .chance = "no forecast"};
  }
  if (careful)
    return {.when = "now", .chance = "with care for " + days_ahead_text(moment.days_ahead)};
  return {.when = "not " + (moment.days_ahead == 1
                                ? std::string("today")
                                : "within " + std::to_string(moment.days_ahead) + " days"),
          .chance = {}};
}

std::string range_text(double low_mm, double high_mm) {
  const long low = std::lround(low_mm);
  const long high = std::lround(high_mm);
  if (high == 0) return "under 1 mm";
  if (low == high) return "about " + std::to_string(high) + " mm";
  return std::to_string(low) + " to " + std::to_string(high) + " mm";
}

/// The day on which most may fall, if one stands out of the next three.
std::string wettest_day(const std::vector<RainAheadView>& days, const Moment& moment) {
  const auto end =
      days.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(days.size(), 3));
  const auto wettest = std::max_element(
      days.begin(), end,
      [](const RainAheadView& a, const RainAheadView& b) { return a.high_mm < b.high_mm; });
  if (wettest == end || !shows(wettest->high_mm)) return {};
  return ", most " + (same_day(wettest->from, moment.now, moment.clock)
                          ? std::string("today")
                          : "on " + day_name(wettest->from, moment));
}

}  // namespace

Moment moment_of(const BoardSnapshot& board, const FarmClock& clock) {
  Moment moment{.clock = clock, .now = board.time};
  if (is_fresh(board)) moment.days_ahead = board.forecast->days;
  return moment;
}

std::string age_text(Instant instant, Instant now) {
  if (instant > now) return {};
  const auto minutes = chrono::floor<chrono::minutes>(now - instant).count();
  if (minutes < 1) return "just now";
  if (minutes < 60) return std::to_string(minutes) + " min ago";
  const auto hours = minutes / 60;
  if (hours < 48) return std::to_string(hours) + " h ago";
  return std::to_string(hours / 24) + " days ago";
}

std::string whole_mm_text(double value_mm) {
  const long whole = std::lround(value_mm);
  if (whole == 0 && value_mm >= 0.05) return "under 1 mm";
  return std::to_string(whole) + " mm";
}

std::string soon_text(Instant instant, const Moment& moment) {
  std::string day = day_name(instant, moment);
  if (at_midnight(instant, moment.clock)) return day;
  const std::string clock = moment.clock.clock(instant);
  return day == "today" ? clock : day + ' ' + clock;
}

std::string end_text(Instant instant, const Moment& moment) {
  if (!at_midnight(instant, moment.clock)) return soon_text(instant, moment);
  return "the end of " + day_name(instant - chrono::minutes{1}, moment);
}

std::string water_text(const FieldView& field) {
  if (!field.known) return {};
  std::vector<std::string> parts;
  const auto add = [&](double value_mm, const std::string& words) {
    if (shows(value_mm)) parts.push_back(whole_mm_text(value_mm) + words);
  };
  add(field.pond_mm, " standing");
  add(field.surplus_mm, field.drains_running ? " draining away" : " still to drain");
  if (shows(field.topsoil_deficit_mm))
    parts.push_back("topsoil " + whole_mm_text(field.topsoil_deficit_mm) + " below field capacity");
  add(field.snow_mm, " of water in snow");
  if (field.drains_running && !shows(field.surplus_mm)) parts.emplace_back("draining");
  return joined(parts, ", ");
}

JobWords job_words(const MachineView& machine, const Moment& moment) {
  if (machine.verdict == "carries") return carried_words(machine, moment);
  if (machine.verdict == "with care" || machine.verdict == "keep off") {
    return closed_words(machine, moment);
  }
  return {.when = std::string(not_known),
          .chance = machine.reasons.empty() ? std::string() : machine.reasons.front()};
}

PlaceWords place_words(Place place) {
  switch (place) {
    case Place::now:
      return {.name = "Now", .meaning = "carries its machine"};
    case Place::next:
      return {.name = "Next", .meaning = "opens by forecast"};
    case Place::leave:
      return {.name = "Leave", .meaning = "no opening in sight"};
    case Place::unknown:
      return {.name = "Not known", .meaning = "go and look"};
  }
  return {};
}

std::string rain_today_text(const BoardSnapshot& board) {
  std::vector<std::string> parts;
  std::vector<std::string> told;
  for (const FieldView& field : board.fields) {
    const bool new_station = std::find(told.begin(), told.end(), field.station) == told.end();
    if (!field.known || field.station.empty() || !new_station) continue;
    told.push_back(field.station);
    parts.push_back(whole_mm_text(field.rain_today_mm) + " at " + field.station);
  }
  return "Rain today: " + (parts.empty() ? std::string(not_known) : joined(parts, ", "));
}

std::string rain_ahead_text(const BoardSnapshot& board, const Moment& moment) {
  if (!board.forecast) return "No forecast has arrived";
  if (!is_fresh(board)) return "The last forecast is too old to use";
  if (!board.forecast->rain_48h) {
    return board.forecast->days == 0 ? "The forecast tells no rain yet"
                                     : "The forecast stops short of 48 h";
  }
  const RainAheadView& rain = *board.forecast->rain_48h;
  return "Next 48 h: " + range_text(rain.low_mm, rain.high_mm) +
         wettest_day(board.forecast->rain_days, moment) + "; rain " + chance_text(rain.chance);
}

bool nothing_known(const BoardSnapshot& board) {
  return std::none_of(board.fields.begin(), board.fields.end(),
                      [](const FieldView& field) { return field.known; });
}

bool advises_on_spreading(const BoardSnapshot& board) {
  return std::any_of(board.fields.begin(), board.fields.end(),
                     [](const FieldView& field) { return !field.spreading.empty(); });
}

std::string seen_text(const AlertView& alert, Instant now, const FarmClock& clock) {
  if (alert.seen_by.empty()) return {};
  return "seen by " + alert.seen_by + (alert.seen ? " at " + clock.as_seen(*alert.seen, now) : "");
}

std::string seen_by_text(const AlertView& alert, const FarmClock& clock) {
  return "by " + alert.seen_by + (alert.seen ? ", " + clock.day_and_clock(*alert.seen) : "");
}

std::string short_headline(const AlertView& alert) {
  constexpr std::size_t most_names = 3;
  const std::string names = joined(alert.field_names, ", ");
  const std::size_t at = names.empty() ? std::string::npos : alert.headline.find(names);
  if (alert.field_names.size() <= most_names || at == std::string::npos) return alert.headline;
  const std::vector<std::string> first(alert.field_names.begin(), alert.field_names.begin() + 2);
  return alert.headline.substr(0, at) + joined(first, ", ") + " and " +
         std::to_string(alert.field_names.size() - first.size()) + " more";
}

}  // namespace gley::daemon
