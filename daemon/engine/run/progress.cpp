#include "daemon/engine/run/progress.hpp"

namespace gley::daemon {

namespace {

/// A second between turns, and up to 5 s of waiting for another process's write are no standstill.
constexpr std::chrono::seconds too_long{10};
constexpr std::chrono::minutes named_for{1};

}  // namespace

std::optional<std::chrono::seconds> Progress::turned(Time now) {
  const auto since = now - last_turn_.value_or(now);
  last_turn_ = now;
  if (since < too_long) return {};
  const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(since);
  const auto named = stood_still(now);
  standstill_ = named && *named > seconds ? *named : seconds;
  standstill_ended_ = now;
  return seconds;
}

std::optional<std::chrono::seconds> Progress::stood_still(Time now) const {
  if (!standstill_ || now - standstill_ended_ >= named_for) return {};
  return standstill_;
}

}  // namespace gley::daemon
