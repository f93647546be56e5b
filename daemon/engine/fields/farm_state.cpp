#include "daemon/engine/fields/farm_state.hpp"

namespace gley::daemon {

namespace {

constexpr double wetter_shows_mm = 0.5;  // screens tell water in whole millimetres

}  // namespace

FarmState::FarmState(const FarmConfig& farm, Database& database)
    : FarmState(farm, database, kept_checkpoint(database, farm)) {}

FarmState::FarmState(const FarmConfig& farm, Database& database, const KeptCheckpoint& kept)
    : farm_(farm),
      calendar_(farm.time_zone, farm.day_starts),
      book_(farm),
      keeper_(farm, database, book_, kept.checkpoint),
      last_hours_(farm, keeper_),
      foreseen_(database),
      days_(farm.fields.size()),
      if_wetter_(farm.fields.size()),
      stepped_(farm.fields.size(), 0) {
  if (keeper_.went_on()) started_from_ = Start::checkpoint;
  if (kept.damaged) started_from_ = Start::readings_for_damaged_checkpoint;
}

void FarmState::look(Instant now) {
  const std::chrono::sys_days today = calendar_.day_of(now);
  if (today != today_) begin_day(today);
  book_.close(today_ - std::chrono::days{1});
  for (std::size_t i = 0; i < days_.size(); ++i) {
    if (stepped_[i] == book_.version(i)) continue;
    step(i);
    stepped_[i] = book_.version(i);
  }
  last_hours_.look(now);
}

/// What the day before foresaw of a day no longer changes once that day has begun.
void FarmState::begin_day(std::chrono::sys_days today) {
  today_ = today;
  stepped_.assign(days_.size(), 0);
  book_.foresee(foreseen_.rain_foreseen(today));
}

void FarmState::step(std::size_t field) {
  days_[field] = book_.so_far(field, today_);
  if_wetter_[field].reset();
  const std::optional<model::FieldDay> wetter = book_.so_far_if_wetter(field, today_);
  if (!days_[field] || !wetter) return;
  const model::FieldParameters& soil = book_.history(field).field().parameters;
  const double by_mm =
      model::stored_mm(soil, wetter->evening) - model::stored_mm(soil, days_[field]->evening);
  if (by_mm >= wetter_shows_mm) if_wetter_[field] = {*wetter, by_mm};
}

}  // namespace gley::daemon
