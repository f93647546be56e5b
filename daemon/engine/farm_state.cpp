#include "daemon/engine/farm_state.hpp"

namespace gley::daemon {

FarmState::FarmState(const FarmConfig& farm, Database& database)
    : FarmState(farm, database, kept_checkpoint(database, farm)) {}

FarmState::FarmState(const FarmConfig& farm, Database& database, const KeptCheckpoint& kept)
    : farm_(farm),
      calendar_(farm.time_zone, farm.day_starts),
      book_(farm),
      keeper_(farm, database, book_, kept.checkpoint),
      days_(farm.fields.size()) {
  if (keeper_.went_on()) started_from_ = Start::checkpoint;
  if (kept.damaged) started_from_ = Start::readings_for_damaged_checkpoint;
}

void FarmState::look(Instant now) {
  today_ = calendar_.day_of(now);
  book_.close(today_ - std::chrono::days{1});
  for (std::size_t i = 0; i < days_.size(); ++i) days_[i] = book_.so_far(i, today_);
  for (const StationConfig& station : farm_.stations)
    rain_24h_mm_[station.id] = keeper_.rain_since(station.id, now - std::chrono::hours{24}, now);
}

std::optional<double> FarmState::rain_24h_mm(const std::string& station) const {
  const auto own = rain_24h_mm_.find(station);
  return own == rain_24h_mm_.end() ? std::nullopt : own->second;
}

}  // namespace gley::daemon
