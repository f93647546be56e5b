#include "daemon/engine/judge/verdict_words.hpp"

#include <cmath>

#include "daemon/board/words/figure_text.hpp"

namespace gley::daemon {

namespace {

using model::GroundReason;
using Kind = model::GroundReasonKind;

constexpr double whole_from = 10.0;

std::string to_tenth(double value) {
  return decimal_text(round_to(value, 0.1));
}

std::string depth_words(double depth_m) {
  if (depth_m == 0.5) return "half a metre";
  return decimal_text(round_to(depth_m * 100.0, 1.0)) + " cm";
}

std::string fill_words(double fill) {
  if (fill < 0.05) return "empty ";
  if (fill == 0.5) return "half full ";
  return decimal_text(round_to(fill * 100.0, 1.0)) + " % full ";
}

/// "one wheel", or what it has instead.
std::string_view foot_of(model::Tread tread) {
  switch (tread) {
    case model::Tread::tracks:
      return "one roller";
    case model::Tread::hooves:
      return "one hoof";
    case model::Tread::wheels:
      break;
  }
  return "one wheel";
}

std::string pressing_words(const GroundReason& reason, const model::MachineLoad& machine,
                           double depth_m) {
  const model::WheelLoad& wheel = machine.heaviest_wheel;
  const NumberPair kpa = told_apart(reason.found, reason.needed);
  // A tenth would make half as much again of a quad bike's wheel.
  const double step_t = wheel.load_t < 1.0 ? 0.01 : 0.1;
  return decimal_text(round_to(wheel.load_t, step_t)) + " t on " +
         std::string(foot_of(machine.tread)) + " at " + to_tenth(wheel.pressure_bar) +
         " bar presses " + kpa.found + " kPa at " + depth_words(depth_m) + ", the soil stands " +
         kpa.needed;
}

std::string light_only_words(const GroundReason& reason, const model::GroundLimits& limits) {
  const NumberPair kpa = told_apart(reason.found, reason.needed);
  const bool below = reason.kind == Kind::light_wheels_below;
  return (below ? "subsoil still wet, suction " : "topsoil suction ") + kpa.found + " kPa: under " +
         kpa.needed + " only wheels up to " + to_tenth(limits.light_wheel_load_t) + " t and " +
         to_tenth(limits.light_pressure_bar) + " bar";
}

std::string mass_words(const GroundReason& reason, const model::MachineLoad& machine) {
  const NumberPair kpa = told_apart(reason.found, reason.needed);
  return to_tenth(machine.mass_t.value_or(0.0)) + " t in all at " +
         to_tenth(machine.heaviest_wheel.pressure_bar) + " bar asks for " + kpa.needed +
         " kPa of suction in the subsoil, it has " + kpa.found;
}

std::string verdict_words(model::Verdict verdict) {
  return verdict == model::Verdict::carries ? "it would be carried"
                                            : "it would be carried with care";
}

std::string soil_words(const GroundReason& reason) {
  const NumberPair pair = told_apart(reason.found, reason.needed);
  switch (reason.kind) {
    case Kind::topsoil_full:
      if (reason.found < 0.05)
        return "topsoil full to field capacity, needs " + pair.needed + " mm of room";
      return "topsoil " + pair.found + " mm below field capacity, needs " + pair.needed;
    case Kind::treads_topsoil:
      return "topsoil " + pair.found + " mm below field capacity, treading needs " + pair.needed;
    case Kind::subsoil_wet:
      return "subsoil too wet: suction " + pair.found + " kPa, needs " + pair.needed;
    case Kind::heavy_clay_wet:
      return "heavy clay too wet: suction " + pair.found + " kPa, needs " + pair.needed;
    case Kind::rain:
      return pair.found + " mm of rain in 24 h, " + pair.needed + " at most";
    case Kind::snow:
      return "snow lying, " + mm_text(reason.found) + " of water in it";
    case Kind::ponded:
      return mm_text(reason.found) + " of water standing on the ground";
    case Kind::too_wet_to_crumble:
      return "topsoil would smear: suction " + pair.found + " kPa, crumbles from " + pair.needed;
    case Kind::too_dry_to_crumble:
      return "topsoil would break in clods: suction " + pair.found + " kPa, crumbles up to " +
             pair.needed;
    case Kind::rain_not_known:
      return rain_not_known_words(reason.found);
    case Kind::station_silent:
      return "no reading for over " + decimal_text(std::floor(reason.found)) + " h, " +
             decimal_text(reason.needed) + " at most";
    default:
      return {};
  }
}

std::string plain_words(Kind kind) {
  switch (kind) {
    case Kind::numbers_missing:
      return "not all numbers of the field or the machine are known";
    case Kind::thaw:
      return "ground thawing: a soft skin on wet or frozen soil";
    case Kind::waterlogged:
      return "topsoil waterlogged";
    case Kind::too_frozen_to_till:
      return "ground frozen too deep to work";
    case Kind::may_blow:
      return "loose sand this dry may blow: mind the wind before it is worked";
    case Kind::mass_unknown:
      return "its whole mass is not given, so what that asks of the soil was not judged";
    case Kind::frost_carries:
      return "deep frost lets wheels on";
    default:
      return {};
  }
}

}  // namespace

NumberPair told_apart(double found, double needed) {
  const auto told = [](double value, double step) { return decimal_text(round_to(value, step)); };
  const auto step_of = [](double value) { return std::fabs(value) >= whole_from ? 1.0 : 0.1; };
  NumberPair pair{.found = told(found, step_of(found)), .needed = told(needed, step_of(needed))};
  if (pair.found != pair.needed || found == needed) return pair;
  pair = {.found = told(found, 0.1), .needed = told(needed, 0.1)};
  // No instrument and no model tells hundredths here: their order is all that is known.
  if (pair.found == pair.needed)
    pair.found.insert(0, found < needed ? "just under " : "just over ");
  return pair;
}

std::string rain_not_known_words(double wetter_mm) {
  return "rain of some days is not known: judged as said and " + mm_text(wetter_mm) +
         " wetter, by the worse";
}

std::string gate_words(const GroundReason& reason) {
  const std::string with_numbers = soil_words(reason);
  return with_numbers.empty() ? plain_words(reason.kind) : with_numbers;
}

std::string words(const GroundReason& reason, const model::MachineLoad& machine,
                  const model::GroundLimits& limits) {
  switch (reason.kind) {
    case Kind::presses_deep:
      return pressing_words(reason, machine, limits.deep_m);
    case Kind::presses_shallow:
      return pressing_words(reason, machine, limits.shallow_m);
    case Kind::light_wheels_only:
    case Kind::light_wheels_below:
      return light_only_words(reason, limits);
    case Kind::mass_needs_drier:
      return mass_words(reason, machine);
    default:
      return gate_words(reason);
  }
}

std::vector<std::string> verdict_reasons(const model::GroundVerdict& verdict,
                                         const model::MachineLoad& machine,
                                         const model::GroundLimits& limits) {
  std::vector<std::string> sentences;
  sentences.reserve(verdict.reasons.size());
  for (const GroundReason& reason : verdict.reasons)
    sentences.push_back(words(reason, machine, limits));
  return sentences;
}

std::string pressure_words(const model::Remedy& remedy) {
  return "at " + to_tenth(remedy.value) + " bar " + verdict_words(remedy.verdict) +
         ", if the tyres allow that under this load";
}

std::string load_words(const model::Remedy& remedy, const model::MachineLoad& machine) {
  if (machine.empty_wheel_load_t) return fill_words(remedy.value) + verdict_words(remedy.verdict);
  return "with " + to_tenth(remedy.value) + " of the load " + verdict_words(remedy.verdict);
}

}  // namespace gley::daemon
