#pragma once
#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "daemon/engine/fields/checkpoint.hpp"
#include "daemon/engine/fields/field_history.hpp"
#include "daemon/engine/fields/rain_gap.hpp"
#include "daemon/engine/weather/weather_sequence.hpp"
#include "daemon/farm/farm_config.hpp"
#include "daemon/readings/station_judge.hpp"

namespace gley::daemon {

/// All fields of a farm with the weather they stand under: everything that is derived from day
/// records and configuration, and nothing else. No clock, no store, no network: history, replay and
/// the running daemon share it. Owned by one thread.
class FieldBook {
 public:
  explicit FieldBook(const FarmConfig& farm);
  FieldBook(const FieldBook&) = delete;
  FieldBook& operator=(const FieldBook&) = delete;

  /// Puts a day on record, or takes it off with an empty record. Fields follow at `close`.
  void put(const std::string& station, std::chrono::sys_days date, const DayRecord& record);

  /// What a person said is right; replaces what was said before. Fields follow at `close`.
  void accept(std::vector<AcceptedDays> accepted) { judge_.accept(std::move(accepted)); }

  /// How much rain was forecast for the days that are over; replaces what was foreseen before.
  /// Fields follow at `close`.
  void foresee(RainForeseen rain) { judge_.foresee(std::move(rain)); }

  /// What is doubted of whole days at a station.
  [[nodiscard]] const DoubtsByDay& doubts(const std::string& station) const {
    return judge_.doubts(station);
  }

  /// A station's days as they were put.
  [[nodiscard]] const StationRecord& record(const std::string& station) const {
    return records_.at(station);
  }

  /// Brings every field up to the evening of `last`, recomputing from the earliest day that
  /// changed.
  void close(std::chrono::sys_days last);

  /// What a book of the same configuration can go on from; empty while days wait to be closed.
  [[nodiscard]] std::optional<BookCheckpoint> checkpoint() const;

  /// Goes on from there; for a book that has seen nothing yet.
  void restore(const BookCheckpoint& checkpoint);

  [[nodiscard]] std::size_t fields() const { return entries_.size(); }
  [[nodiscard]] const FieldConfig& config(std::size_t field) const;
  [[nodiscard]] const FieldHistory& history(std::size_t field) const;
  [[nodiscard]] const WeatherSequence& weather(std::size_t field) const;

  /// What a forecast says of today, for every field; empty: nothing.
  void expect(const std::optional<ExpectedDay>& day);

  /// Rises with every change of what a field's days, those so far and those that have ended, come
  /// from.
  [[nodiscard]] std::uint64_t version(std::size_t field) const {
    return sequences_[entries_[field].sequence].version;
  }

  /// The field on a day after the last closed one, as far as it was seen; empty if the field's
  /// stations have nothing on record at all.
  [[nodiscard]] std::optional<model::FieldDay> so_far(std::size_t field,
                                                      std::chrono::sys_days date) const;

  /// Days of late whose rain at the field is not known.
  [[nodiscard]] const RainGap& rain_gap(std::size_t field) const {
    return sequences_[entries_[field].sequence].gap;
  }
  /// The last evening as it was if rain had fallen on them; null where all is known.
  [[nodiscard]] const model::FieldState* evening_if_wetter(std::size_t field) const;
  /// The same of `so_far`.
  [[nodiscard]] std::optional<model::FieldDay> so_far_if_wetter(std::size_t field,
                                                                std::chrono::sys_days date) const;

  /// The days file of one field, header and rows.
  [[nodiscard]] std::string days_csv(std::size_t field, const DayRange& range) const;

  [[nodiscard]] std::optional<std::size_t> index_of(const std::string& field_id) const;

 private:
  struct Sequence {
    WeatherSequence weather;
    std::optional<std::chrono::sys_days> changed_from;
    std::vector<std::string> stations;
    std::uint64_t version = 1;
    RainGap gap = {};
  };
  struct Entry {
    const FieldConfig* config = nullptr;
    std::size_t sequence = 0;
    FieldHistory history;
    std::optional<model::FieldState> if_wetter = {};
  };

  void look_at_gap(std::size_t sequence);
  void mark_changed(const std::string& station, std::chrono::sys_days date);
  [[nodiscard]] std::size_t sequence_for(const std::vector<std::string>& stations);

  const FarmConfig& farm_;
  std::map<std::string, StationRecord> records_;
  StationJudge judge_;
  std::vector<Sequence> sequences_;
  std::vector<Entry> entries_;
  std::optional<std::chrono::sys_days> closed_;
  std::optional<ExpectedDay> expected_;
};

}  // namespace gley::daemon
