#pragma once
#include <optional>
#include <vector>

#include "model/ground/ground_limits.hpp"
#include "model/ground/ground_state.hpp"
#include "model/ground/machine_stress.hpp"
#include "model/ground/verdict.hpp"

namespace gley::model {

/// Why. Each speaks of two numbers, what was found and what is needed or allowed.
enum class GroundReasonKind {
  station_silent,      ///< h since it was heard; h allowed
  numbers_missing,     ///< the field's or the machine's numbers are not all known
  thaw,                ///< no numbers
  ponded,              ///< mm standing; 0
  waterlogged,         ///< no numbers
  snow,                ///< mm of water in it; mm from which it closes
  topsoil_full,        ///< topsoil deficit, mm; needed
  subsoil_wet,         ///< subsoil suction, kPa; needed
  heavy_clay_wet,      ///< the wetter suction, kPa; needed
  rain,                ///< mm in 24 h; allowed
  light_wheels_only,   ///< topsoil suction, the wetter, kPa; needed for other wheels
  light_wheels_below,  ///< the same of the subsoil
  too_wet_to_crumble,  ///< topsoil suction, kPa; needed
  too_dry_to_crumble,  ///< topsoil suction, kPa; allowed
  too_frozen_to_till,  ///< no numbers
  may_blow,            ///< sand as dry as clods would be; no numbers, and no verdict changes
  presses_deep,        ///< stress at the deep level, kPa; what the soil stands
  presses_shallow,     ///< stress at the shallow level, kPa; what the soil stands
  mass_needs_drier,    ///< subsoil suction, kPa; asked for by the whole mass
  treads_topsoil,      ///< topsoil deficit, mm; that hooves need
  mass_unknown,        ///< the mass screen was skipped; no numbers
  frost_carries,       ///< deep frost opened the gate; no numbers
  rain_not_known,      ///< mm wetter than said the soil may be; 0
};

struct GroundReason {
  GroundReasonKind kind = GroundReasonKind::numbers_missing;
  double found = 0.0;
  double needed = 0.0;

  friend bool operator==(const GroundReason&, const GroundReason&) = default;
};

struct GroundVerdict {
  Verdict verdict = Verdict::not_known;
  std::optional<double> margin = {};  ///< absent when not known
  std::vector<GroundReason> reasons;  ///< what decided first; never empty

  friend bool operator==(const GroundVerdict&, const GroundVerdict&) = default;
};

/// What closes the gate to ordinary wheels; empty while it is open.
[[nodiscard]] std::vector<GroundReason> gate_reasons(const GroundState<double>& ground,
                                                     const GroundLimits& limits);

/// A machine on a field. The verdict and margin are those of ground_margin.hpp.
[[nodiscard]] GroundVerdict judge_machine(const MachineLoad& machine,
                                          const GroundState<double>& ground,
                                          const GroundLimits& limits);

/// No answer, because the station has not been heard.
struct Silence {
  double silent_h = 0.0;
  double allowed_h = 0.0;
};
[[nodiscard]] GroundVerdict verdict_in_silence(const Silence& silence);

/// A machine on a field whose soil may be wetter than said, for rain that nobody measured: judged
/// as said, and as if that rain had fallen. Where they differ it is the worse of the two, and not
/// known where one carries and the other keeps off (our choice).
struct TwoVerdicts {
  const GroundVerdict& said;
  const GroundVerdict& wetter;
  double wetter_mm = 0.0;
};
[[nodiscard]] GroundVerdict verdict_between(const TwoVerdicts& two);

}  // namespace gley::model
