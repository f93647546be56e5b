#include "daemon/engine/spreading_words.hpp"

#include "daemon/board/number_text.hpp"
#include "daemon/engine/verdict_words.hpp"

namespace gley::daemon {

namespace {

using Kind = model::SpreadingReasonKind;
using model::SpreadingReason;

std::string waterlogged_words(double pond_mm) {
  return pond_mm > 0.0 ? mm_text(pond_mm) + " of water standing on the ground"
                       : std::string("topsoil waterlogged");
}

std::string heavy_rain_words(const SpreadingReason& reason) {
  std::string sentence = percent_text(reason.found) + " chance of heavy rain within 48 h";
  if (reason.in_hours)
    sentence += ", from " + decimal_text(round_to(*reason.in_hours, 1.0)) + " h ahead";
  return sentence;
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
      return "drains running";
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
      return mm_text(reason.found) + " expected to run off within 48 h";
    case Kind::drainage_coming:
      return mm_text(reason.found) + " expected to drain within 48 h";
    case Kind::would_leach:
      return percent_text(reason.found) + " of a dressing would leach within 7 days";
    case Kind::nothing_against:
      return percent_text(reason.found) + " chance of heavy rain within 48 h, nothing against it";
    default:
      return {};
  }
}

std::string of_the_place(const SpreadingReason& reason) {
  const NumberPair pair = told_apart(reason.found, reason.needed);
  switch (reason.kind) {
    case Kind::too_steep:
      return "slope " + pair.found + " %, " + pair.needed + " at most";
    case Kind::too_near_to_water:
      return "water " + pair.found + " m from the edge, needs " + pair.needed;
    case Kind::too_near_to_spring:
      return "spring or well " + pair.found + " m from the edge, needs " + pair.needed;
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

}  // namespace gley::daemon
