#include "model/water/class_day.hpp"

#include <limits>

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

void set_roots(ClassDay& day, const StandDay& stand) {
  day.total_available_mm = stand.total_available_mm;
  day.rooted_available_mm = stand.rooted_available_mm;
  for (int l = 0; l < max_layers; ++l) {
    const bool rooted = stand.rooted_share[l] > 0.0;
    day.reach_offset_mm[l] =
        rooted ? stand.rooted_available_mm[l] : -std::numeric_limits<double>::infinity();
    if (stand.rooted_available_mm[l] > 0.0)
      day.uptake_weight[l] = stand.root_share[l] / stand.rooted_available_mm[l];
    day.largest_uptake_weight = greatest(day.largest_uptake_weight, day.uptake_weight[l]);
  }
}

void set_ways_of_water(ClassDay& day, const FieldParameters& field) {
  day.crack_share = field.crack_share;
  if (field.crack_share > 0.0)
    day.crack_share_per_mm = field.crack_share / field.topsoil_available_mm;
  day.release_share = field.release_share;
  day.pass_limit_mm = field.pass_limit_mm;
  day.slow_layer = field.slow_layer;
  day.pipe_rate_mm = field.pipe_rate_mm;
  day.piped_layers = field.piped_layers;
  day.room_mm = field.room_mm;
  day.pond_limit_mm = field.pond_limit_mm;
  day.topsoil_room_mm = field.topsoil_room_mm;
}

}  // namespace

ClassDay class_day(const FieldParameters& field, const StandDay& stand) {
  ClassDay day;
  day.sheds_storms = stand.sheds_storms;
  day.storage_dry_mm = stand.storage_dry_mm;
  day.storage_wet_mm = stand.storage_wet_mm;
  day.exposed = 1.0 - stand.cover;
  day.per_exposed = day.exposed > 0.0 ? 1.0 / day.exposed : 0.0;
  day.rew_mm = field.rew_mm;
  day.tew_mm = field.tew_mm;
  day.kcb = stand.kcb;
  day.kc_max = stand.kc_max;
  day.table_p = stand.depletion_fraction;
  set_roots(day, stand);
  set_ways_of_water(day, field);
  return day;
}

}  // namespace gley::model
