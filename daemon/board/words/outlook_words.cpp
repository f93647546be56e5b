#include "daemon/board/words/outlook_words.hpp"

#include <algorithm>
#include <cmath>

namespace gley::daemon {

namespace {

std::string moment(Instant instant, const FarmClock& clock, Instant now) {
  constexpr std::string_view midnight = " 00:00";
  std::string text = clock.as_seen(instant, now);
  if (text.ends_with(midnight)) text.resize(text.size() - midnight.size());
  return text;
}

long tenths_of(double probability) {
  return std::clamp(std::lround(probability * 10.0), 0L, 10L);
}

std::string count_of(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + ' ' + std::string(count == 1 ? one : many);
}

std::string score_text(const ForecastView& forecast) {
  const std::size_t pairs = forecast.scores.empty() ? 0 : forecast.scores.front().pairs;
  if (pairs < pairs_for_a_score)
    return "too few days yet to say how good it is (" + std::to_string(pairs) + " of " +
           std::to_string(pairs_for_a_score) + ')';
  return "rain yes or no a day ahead right on " + std::to_string(forecast.scores.front().right) +
         " of " + count_of(pairs, "day", "days");
}

}  // namespace

// IPCC (2010), Guidance note on uncertainties, Table 1: very likely from 90 %, likely from 66,
// about as likely as not from 33, unlikely below, very unlikely to 10; more likely than not over
// 50, as the note's footnote allows. Of the tenths that stand beside the word, so that the two
// never differ.
std::string chance_text(double probability) {
  const long tenths = tenths_of(probability);
  const std::string_view word = tenths >= 9   ? "very likely"
                                : tenths >= 7 ? "likely"
                                : tenths >= 6 ? "more likely than not"
                                : tenths >= 4 ? "about as likely as not"
                                : tenths >= 2 ? "unlikely"
                                              : "very unlikely";
  return std::string(word) + ", " + odds_text(probability);
}

std::string odds_text(double probability) {
  const long tenths = tenths_of(probability);
  if (tenths == 0) return "under 1 in 10";
  return tenths == 10 ? "over 9 in 10" : std::to_string(tenths) + " in 10";
}

std::string tenths_text(double probability) {
  const long tenths = tenths_of(probability);
  return (tenths == 10 ? ">9" : std::to_string(tenths)) + " in 10";
}

std::string short_moment(Instant instant, const FarmClock& clock, Instant now) {
  std::string time = clock.clock(instant);
  if (clock.day(instant) == clock.day(now)) return time;
  if (instant - now >= std::chrono::hours{6 * 24}) return clock.date(instant);
  const std::string weekday = clock.weekday(instant);
  return time == "00:00" ? weekday : weekday + ' ' + time;
}

std::string window_text(const WindowView& window, const FarmClock& clock, Instant now) {
  return "opens " + moment(window.from, clock, now) + ", " + chance_text(window.probability) +
         ", to " + moment(window.to, clock, now);
}

std::string forecast_text(const ForecastView& forecast) {
  std::string text;
  if (forecast.members > 0) text += count_of(forecast.days, "day", "days") + ", ";
  if (forecast.members_sent > 1)
    text += count_of(forecast.members_sent, "member", "members") + "; ";
  else if (forecast.members > 1)
    text += "one forecast, its errors spread over " + std::to_string(forecast.members) + "; ";
  text += score_text(forecast);
  if (!forecast.problem.empty()) text += "; " + forecast.problem;
  return text;
}

}  // namespace gley::daemon
