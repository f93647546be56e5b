#pragma once
#include <cstddef>
#include <vector>

#include "model/ground/machine_stress.hpp"
#include "model/outlook/day_spread.hpp"
#include "model/outlook/window.hpp"
#include "model/spreading/spreading_advice.hpp"
#include "model/water/field_day.hpp"

/// A field's coming days: the same field step as history's, run once for each member of the
/// forecast, and what comes of it counted.
namespace gley::model {

/// What is asked of every field.
struct OutlookQuestion {
  std::vector<MachineStress> machines;
  std::vector<MaterialKind> materials;
  SpreadingRules rules;
  /// Chance from which a day belongs to a window. Our choice.
  double least_chance = 0.6;
};

/// The days ahead under one station: today, seen and still to come, and those after it.
struct WeatherAhead {
  std::vector<std::vector<StationDay>> members;  ///< by member, then by day, all of one length
  /// By day but the last, then by member: any 24 h from that day's start to 48 h after its end, or
  /// as far as is told, bring heavy rain as SpreadingLimits has it. Of today's rain only what is
  /// still to come counts.
  std::vector<std::vector<bool>> heavy_rain;
  double share_of_today_left = 1.0;  ///< 0..1, by time

  [[nodiscard]] std::size_t days() const { return members.empty() ? 0 : members.front().size(); }
};

/// A field as it stood last evening, and where it lies.
struct FieldAhead {
  const Field& field;
  const FieldState& evening;
  bool frozen_before = false;  ///< last evening's day counted as frozen
  SpreadingPlace place;
  /// The evening as it was if rain that nobody measured had fallen; null: all is known. Every
  /// second member begins from it (our choice: either is as likely).
  const FieldState* if_wetter = nullptr;
};

struct FieldOutlook {
  SpreadingOutlook water;  ///< means over the members; heavy rain is not of the field, see there
  double chance_at_capacity_48h = 0.0;            ///< of Dr at 1 mm or less by tomorrow's evening
  std::vector<std::vector<DayWindow>> machines;   ///< when each is carried
  std::vector<std::vector<DayWindow>> materials;  ///< when each is clear to spread
  /// Chance by machine and day that it is carried.
  std::vector<std::vector<double>> machine_chance;
  std::vector<DaySpread> days;  ///< today first
};

/// Spreading on a day is judged as if that day and the next were known, so not on the last day;
/// heavy rain by the 48 h after each hour of the day.
[[nodiscard]] FieldOutlook field_outlook(const FieldAhead& field, const WeatherAhead& weather,
                                         const OutlookQuestion& question);

}  // namespace gley::model
