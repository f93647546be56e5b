#include "daemon/engine/judge/spreading_words.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/outlook_words.hpp"
#include "daemon/engine/judge/verdict_words.hpp"

namespace gley::daemon {

namespace {

using Kind = model::SpreadingReasonKind;
using model::SpreadingReason;

std::string waterlogged_words(double pond_mm) {
  return pond_mm > 0.0 ? mm_text(pond_mm) + " of water standing on the ground"
                       : std::string("topsoil waterlogged");
}

std::string whole_hours(double hours) {
  return decimal_text(round_to(hours, 1.0)) + " h";
}

/// Beyond two days an hour says more than a forecast knows.
std::string time_ahead(double hours) {
  constexpr double a_day_h = 24.0;
  if (hours <= 2.0 * a_day_h) return whole_hours(hours);
  return decimal_text(round_to(hours / a_day_h, 1.0)) + " days";
}

/// Water that holds a dressing back is never told as none. Tenths of what may run off or drain are
/// not known: a curve number ranks, it does not measure (see storm_runoff_mm).
std::string some_mm(double value_mm) {
  return value_mm < 0.5 ? "under 1 mm" : "about " + decimal_text(round_to(value_mm, 1.0)) + " mm";
}

std::string heavy_rain_words(const SpreadingReason& reason) {
  std::string sentence = "heavy rain within 48 h " + chance_text(reason.found);
  if (!reason.in_hours) return sentence;
  if (*reason.in_hours < 1.0) return sentence + ", from now on";
  return sentence + ", in about " + whole_hours(*reason.in_hours);
}

std::string on_the_ground(const SpreadingReason& reason) {
  switch (reason.kind) {
    case Kind::waterlogged:
      return waterlogged_words(reason.found);
    case Kind::snow:
      return "snow lying, " + mm_text(reason.found) + " of water in it";
    case Kind::frozen:
      return "ground frozen";
    case Kind::drains_running:
      return "water leaving by drains or below the roots";
    case Kind::rain_not_known:
      return rain_not_known_words(reason.found);
    case Kind::ground_closed:
      return "closed to wheels: " + (reason.ground ? gate_words(*reason.ground) : std::string());
    default:
      return {};
  }
}

std::string in_the_outlook(const SpreadingReason& reason) {
  switch (reason.kind) {
    case Kind::heavy_rain_coming:
      return heavy_rain_words(reason);
    case Kind::runoff_coming:
      return some_mm(reason.found) + " expected to run off within 48 h";
    case Kind::drainage_coming:
      return some_mm(reason.found) + " expected to drain within 48 h";
    case Kind::would_leach:
      return percent_text(reason.found) + " of a dressing would leach within 7 days";
    case Kind::nothing_against:
      return "no reason found to hold; heavy rain within 48 h " + chance_text(reason.found);
    default:
      return {};
  }
}

std::string lost_words(const SpreadingReason& reason) {
  if (!reason.lost_ha) return {};
  return ", " + decimal_text(round_to(*reason.lost_ha, 0.01)) + " ha left out";
}

std::string of_the_place(const SpreadingReason& reason) {
  const NumberPair pair = told_apart(reason.found, reason.needed);
  switch (reason.kind) {
    case Kind::too_steep:
      return "slope " + pair.found + " %, " + pair.needed + " at most";
    case Kind::too_near_to_water:
      return "water " + pair.found + " m from the edge: keep " + pair.needed + " m off it" +
             lost_words(reason);
    case Kind::too_near_to_spring:
      return "spring or well " + pair.found + " m from the edge: keep " + pair.needed +
             " m off it" + lost_words(reason);
    case Kind::water_not_given:
      return "how far water lies is not given, and not judged";
    case Kind::spring_not_given:
      return "how far springs and wells lie is not given, and not judged";
    case Kind::drift_not_judged:
      return "wind and drift are not judged";
    case Kind::no_forecast:
      return "no forecast under 24 h old";
    case Kind::numbers_missing:
      return "not all numbers of the field or the forecast are known";
    default:
      return {};
  }
}

}  // namespace

std::string words(const SpreadingReason& reason) {
  std::string sentence = on_the_ground(reason);
  if (sentence.empty()) sentence = in_the_outlook(reason);
  if (sentence.empty()) sentence = of_the_place(reason);
  return sentence;
}

std::vector<std::string> advice_reasons(const model::SpreadingAdvice& advice) {
  std::vector<std::string> sentences;
  sentences.reserve(advice.reasons.size());
  for (const SpreadingReason& reason : advice.reasons) sentences.push_back(words(reason));
  return sentences;
}

std::string words(const model::NitrogenAtRisk& nitrogen) {
  const auto whole = [](double kg_ha) { return round_to(kg_ha, 1.0); };
  const std::string of = " of " + decimal_text(whole(nitrogen.applied_kg_ha)) + " kg N/ha at risk";
  const double total = whole(nitrogen.total_kg_ha());
  if (total < 1.0) return "under 1" + of + " by leaching and runoff";
  // The parts add up to the whole that is told.
  const double leached = std::min(whole(nitrogen.leached_kg_ha), total);
  const double runoff = total - leached;
  std::string text = "up to " + decimal_text(total) + of + ": ";
  if (leached > 0.0) text += decimal_text(leached) + " leached within 7 days";
  if (leached > 0.0 && runoff > 0.0) text += ", ";
  if (runoff > 0.0) text += decimal_text(runoff) + " in runoff within 48 h";
  return text;
}

std::string words(const RainAround& rain) {
  std::string text = "rain within the last hour";
  if (!rain.since_h)
    text = "when it last rained is not known";
  else if (*rain.since_h >= 1.0)
    text = "no rain for over " + whole_hours(std::floor(*rain.since_h));
  if (!rain.is_forecast) return text;
  if (!rain.until_h) return text + "; none in sight";
  if (*rain.until_h < 1.0) return text + "; next within the hour";
  return text + "; next in about " + time_ahead(*rain.until_h);
}

}  // namespace gley::daemon
