#include "daemon/engine/fields/farm_state.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::minutes between_spells{1};
constexpr double shows_mm = 0.1;
constexpr double wetter_shows_mm = 0.5;  // screens tell water in whole millimetres

}  // namespace

FarmState::FarmState(const FarmConfig& farm, Database& database)
    : FarmState(farm, database, kept_checkpoint(database, farm)) {}

FarmState::FarmState(const FarmConfig& farm, Database& database, const KeptCheckpoint& kept)
    : farm_(farm),
      calendar_(farm.time_zone, farm.day_starts),
      book_(farm),
      keeper_(farm, database, book_, kept.checkpoint),
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
  for (const StationConfig& station : farm_.stations) {
    const auto known = rain_24h_.find(station.id);
    if (known != rain_24h_.end() && keeper_.still_holds(known->second, station.id, now)) continue;
    rain_24h_[station.id] = keeper_.recent_rain(station.id, std::chrono::hours{24}, now);
  }
  if (!spells_of_ || now < *spells_of_ || now - *spells_of_ >= between_spells) look_up_spells(now);
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

void FarmState::look_up_spells(Instant now) {
  spells_of_ = now;
  for (const StationConfig& station : farm_.stations) {
    dry_h_[station.id].reset();
    for (const int hours : {1, 2, 3, 6, 12, 24, 48, 72}) {
      const auto rain = keeper_.recent_rain(station.id, std::chrono::hours{hours}, now).mm;
      if (!rain || *rain >= shows_mm) {
        if (rain && hours == 1) dry_h_[station.id] = 0.0;
        break;
      }
      dry_h_[station.id] = hours;
    }
    frozen_h_[station.id] = keeper_.hours_below_zero(station.id, now - std::chrono::hours{24}, now);
  }
}

std::optional<double> FarmState::dry_h(const std::string& station) const {
  const auto own = dry_h_.find(station);
  return own == dry_h_.end() ? std::nullopt : own->second;
}

std::optional<double> FarmState::frozen_h(const std::string& station) const {
  const auto own = frozen_h_.find(station);
  return own == frozen_h_.end() ? std::nullopt : own->second;
}

std::optional<double> FarmState::rain_24h_mm(const std::string& station) const {
  const auto own = rain_24h_.find(station);
  return own == rain_24h_.end() ? std::nullopt : own->second.mm;
}

}  // namespace gley::daemon
