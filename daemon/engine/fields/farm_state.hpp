#pragma once
#include <map>
#include <optional>
#include <vector>

#include "daemon/engine/fields/checkpoint_store.hpp"
#include "daemon/engine/fields/day_keeper.hpp"
#include "daemon/engine/fields/field_book.hpp"
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
  /// Rain of the last 24 hours at a station; absent where its readings do not reach back so far.
  [[nodiscard]] std::optional<double> rain_24h_mm(const std::string& station) const;

  /// Hours a station has been without rain, at least, in steps up to 72; looked up once a minute.
  [[nodiscard]] std::optional<double> dry_h(const std::string& station) const;

  /// Hours below 0 degC of the last 24 at a station; absent where its temperatures do not tell.
  [[nodiscard]] std::optional<double> frozen_h(const std::string& station) const;

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
  void look_up_spells(Instant now);

  const FarmConfig& farm_;
  FarmCalendar calendar_;
  FieldBook book_;
  DayKeeper keeper_;
  ForecastDayStore foreseen_;
  Start started_from_ = Start::readings;
  std::chrono::sys_days today_{};
  std::vector<std::optional<model::FieldDay>> days_;
  std::vector<std::optional<WetterDay>> if_wetter_;
  std::vector<std::uint64_t> stepped_;  ///< by field, the version of the book its day is of
  std::map<std::string, DayKeeper::RecentRain> rain_24h_;
  std::map<std::string, std::optional<double>> dry_h_;
  std::map<std::string, std::optional<double>> frozen_h_;
  std::optional<Instant> spells_of_;  ///< when the last two were looked up
};

}  // namespace gley::daemon
