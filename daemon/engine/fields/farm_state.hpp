#pragma once
#include <optional>
#include <vector>

#include "daemon/engine/fields/checkpoint_store.hpp"
#include "daemon/engine/fields/day_keeper.hpp"
#include "daemon/engine/fields/field_book.hpp"
#include "daemon/engine/fields/last_hours.hpp"
#include "daemon/store/forecast_day_store.hpp"

namespace gley::daemon {

/// The farm as the store tells it, up to a moment: the days that have ended and today so far. What
/// the daemon serves and what `gleyd today` prints. Owned by one thread.
class FarmState {
 public:
  FarmState(const FarmConfig& farm, Database& database);

  /// What it came from when it was made. The same either way; a checkpoint is quicker.
  enum class Start { readings, checkpoint, readings_for_damaged_checkpoint };
  [[nodiscard]] Start started_from() const { return started_from_; }

  /// Takes in what the store has gained.
  void catch_up() { keeper_.catch_up(); }

  /// Closes the days that ended before `now` and steps today as far as it was seen.
  void look(Instant now);

  /// What a forecast says of today; empty: nothing. Counts from the next look on.
  void expect(const std::optional<ExpectedDay>& day) { book_.expect(day); }

  [[nodiscard]] const FarmConfig& farm() const { return farm_; }
  [[nodiscard]] const FarmCalendar& calendar() const { return calendar_; }
  [[nodiscard]] const FieldBook& book() const { return book_; }
  [[nodiscard]] const DayKeeper& keeper() const { return keeper_; }
  [[nodiscard]] const LastHours& last_hours() const { return last_hours_; }
  [[nodiscard]] std::chrono::sys_days today() const { return today_; }

  /// A field's day so far; empty until its stations have a day on record.
  [[nodiscard]] const std::optional<model::FieldDay>& day_of(std::size_t field) const {
    return days_[field];
  }

  /// Null where all rain is known, or what is not makes less than half a millimetre of difference.
  [[nodiscard]] const WetterDay* day_if_wetter(std::size_t field) const {
    return if_wetter_[field] ? &*if_wetter_[field] : nullptr;
  }

 private:
  FarmState(const FarmConfig& farm, Database& database, const KeptCheckpoint& kept);

  void begin_day(std::chrono::sys_days today);
  void step(std::size_t field);

  const FarmConfig& farm_;
  FarmCalendar calendar_;
  FieldBook book_;
  DayKeeper keeper_;
  LastHours last_hours_;
  ForecastDayStore foreseen_;
  Start started_from_ = Start::readings;
  std::chrono::sys_days today_{};
  std::vector<std::optional<model::FieldDay>> days_;
  std::vector<std::optional<WetterDay>> if_wetter_;
  std::vector<std::uint64_t> stepped_;  ///< by field, the version of the book its day is of
};

}  // namespace gley::daemon
