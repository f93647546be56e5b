#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "daemon/board/snapshot/explanation.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"
#include "model/ground/ground_verdict.hpp"

namespace gley::daemon {

/// A field's day with all that it came from.
struct ExplainedDay {
  const FarmConfig& farm;
  const FieldConfig& config;
  const model::Field& field;
  std::vector<SeenDay> seen;             ///< by station, in order of trust
  WeatherChoice choice;                  ///< which station each part is from
  std::vector<QuantitySources> sources;  ///< which source each amount is from; empty in replay
  std::vector<StationDoubt> doubts;      ///< of readings; empty in replay
  model::StationDay weather;
  std::optional<model::StationDay> weather_before;             ///< of the day before
  std::optional<std::chrono::sys_days> temperatures_known_on;  ///< last before this day
  model::FieldState morning;
  model::FieldDay day;
  model::GroundBefore before;
  std::optional<model::Silence> silence;
  const WetterDay* if_wetter = nullptr;  ///< of today; see FarmState::day_if_wetter
  std::vector<SpreadingView> advice;     ///< as shown; an ended day's knows nothing after it
  bool first = false;                    ///< no day before it is on record
  bool so_far = false;                   ///< it has not ended
};

/// Puts the day's numbers in order; works out none of its own but by the model's functions.
[[nodiscard]] Explanation explain(const ExplainedDay& day);

/// A day of the book that has ended. The error is a sentence that tells which days there are.
[[nodiscard]] tl::expected<ExplainedDay, std::string> ended_day(const FarmConfig& farm,
                                                                const FieldBook& book,
                                                                std::size_t field,
                                                                std::chrono::sys_days date);

/// A day of the running farm: one that has ended, or today so far, judged as the board does.
/// outlook: null without a forecast under 24 h old.
[[nodiscard]] tl::expected<ExplainedDay, std::string> day_of_farm(const FarmState& state,
                                                                  std::size_t field,
                                                                  std::chrono::sys_days date,
                                                                  Instant now,
                                                                  const FarmOutlook* outlook);

}  // namespace gley::daemon
