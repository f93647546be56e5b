#pragma once
#include <optional>

#include "model/ground/ground_verdict.hpp"

/// What would change a verdict for the better. Only what the driver can change today: the air in
/// the tyres, within what their maker allows for the load, and how full the machine is.
namespace gley::model {

struct Remedy {
  double value = 0.0;
  Verdict verdict = Verdict::not_known;  ///< with it
};

inline constexpr double least_pressure_bar = 0.4;
/// No tyre bears its load on more ground than this: our choice, over the 0.67 m2 measured under 6 t
/// at 1 bar (a Danish trial, as quoted by others). Without it any weight would be carried at 0.4
/// bar.
inline constexpr double largest_contact_m2 = 1.0;
inline constexpr double least_load_share = 0.5;

/// The highest pressure, in tenths of a bar from 0.4 and from what the largest contact bears, that
/// gives a better verdict than the machine's own; absent where none does, or where nothing better
/// is left.
[[nodiscard]] std::optional<Remedy> pressure_that_carries_bar(const MachineLoad& machine,
                                                              const GroundState<double>& ground,
                                                              const GroundLimits& limits);

/// Where the empty machine's wheel load is known: how full it may be, in tenths down to empty, for
/// a better verdict. Where it is not: the largest share of its load, in tenths from a half, taken
/// of the heaviest wheel and of the whole mass. Stock has no such remedy, nor a pressure.
[[nodiscard]] std::optional<Remedy> load_share_that_carries(const MachineLoad& machine,
                                                            const GroundState<double>& ground,
                                                            const GroundLimits& limits);

}  // namespace gley::model
