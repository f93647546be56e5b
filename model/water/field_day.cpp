#include "model/water/field_day.hpp"

#include "model/numeric/elementary.hpp"
#include "model/soil/suction.hpp"

namespace gley::model {

namespace {

constexpr int start_is_doubted_days = 60;

GroundWeather ground_weather(const Field& field, const StationDay& day, double rain_mm,
                             SnowPack& snow) {
  SnowWeather weather{.precipitation_mm = rain_mm, .et0_mm = day.et.et0_mm, .temperature = {}};
  if (!field.textbook) weather.temperature = extremes_of(day.weather);
  return step_snow(snow, weather);
}

DayForcing<double> forcing_of(const Field& field, const StationDay& day,
                              const GroundWeather& ground, const StandDay& stand) {
  DayForcing<double> forcing;
  forcing.water_mm = ground.water_mm;
  forcing.irrigation_mm = day.weather.irrigation_mm.value_or(0.0);
  forcing.et0_mm = ground.covered ? 0.0 : day.et.et0_mm;
  forcing.sealed = ground.sealed ? 1.0 : 0.0;
  forcing.irrigation_wetted_fraction = field.irrigation_wetted_fraction;
  if (field.drip_lines)
    forcing.irrigation_wetted_fraction = shaded_drip_wetted_fraction(
        {.cover = stand.cover, .wetted_fraction = field.irrigation_wetted_fraction});
  return forcing;
}

/// A doubtful start is over when the soil has dried and filled again, or after 60 days.
void doubt_less(StartDoubt& start, double depletion_mm) {
  if (!start.assumed) return;
  ++start.days;
  if (depletion_mm > 0.0) start.has_dried = true;
  const bool filled_again = start.has_dried && depletion_mm <= 0.0;
  if (filled_again || start.days >= start_is_doubted_days) start.assumed = false;
}

double suction_of(const SoilProfile& soil, const FieldWater<double>& water,
                  const LayerRange& layers) {
  return suction_kpa(soil.horizon[layers.first], theta_of(soil, water, layers));
}

void describe(const Field& field, const StationDay& day, FieldDay& out) {
  const SoilProfile& soil = field.parameters.soil;
  const FieldWater<double>& water = out.evening.water;
  out.depletion_mm = depletion_mm(out.stand, water);
  out.topsoil_deficit_mm = topsoil_deficit_mm(water);
  out.surplus_mm = surplus_mm(out.stand, water);
  out.suction_topsoil_kpa = suction_of(soil, water, topsoil_range);
  out.suction_subsoil_kpa = suction_of(soil, water, subsoil_of(soil));
  out.wetness = wetness_of(out.stand, water, out.fluxes.depletion_fraction);
  out.flags = day.flags;
  out.flags.set(DayFlag::frozen, out.ground.frozen || out.ground.sealed);
  out.flags.set(DayFlag::snow, out.evening.snow.snow_mm >= snow_covers_mm);
  out.flags.set(DayFlag::start_assumed, out.evening.start.assumed);
}

/// Counts the day's warmth where the stand's stages are counted in it. A stand first met in
/// mid-season is taken to have had what it usually has had by then.
void warm(SeasonHeat& heat, const CropCalendar::Standing& standing, const StationDay& day) {
  if (!standing.course.heat || !standing.sown) {
    heat = {};
    return;
  }
  const HeatStages& stages = *standing.course.heat;
  if (heat.sown != standing.sown)
    heat = {.sown = standing.sown,
            .day_degrees_c_d =
                heat_by_day(stages, standing.course.kcb.lengths, standing.day_of_season - 1)};
  if (const auto temperatures = extremes_of(day.weather))
    heat.day_degrees_c_d += warmth_of_day_c_d(*temperatures, stages.base_c);
}

/// The stand on a day, and its warmth to the end of that day.
StandDay stand_of(const Field& field, const StationDay& day, SeasonHeat& heat) {
  const CropCalendar::Standing standing = field.crops.on(day.date);
  warm(heat, standing, day);
  return stand_day(standing.course,
                   SeasonDay{.day = standing.day_of_season,
                             .day_degrees_c_d = heat.day_degrees_c_d,
                             .days_since_cut = standing.days_since_cut},
                   {.u2_m_s = day.et.u2_m_s, .rh_min_pct = day.et.rh_min_pct},
                   field.parameters.soil);
}

/// The step itself; what only describes the day is left open.
FieldDay move_water(const Field& field, const StationDay& day, FieldState& state) {
  FieldDay out;
  out.date = day.date;
  out.rain_mm = day.weather.rain_mm.value_or(0.0);
  out.et0_mm = day.et.et0_mm;
  out.stand = stand_of(field, day, state.heat);
  out.ground = ground_weather(field, day, out.rain_mm, state.snow);
  out.forcing = forcing_of(field, day, out.ground, out.stand);
  out.irrigation_mm = out.forcing.irrigation_mm;
  out.fluxes = field_step(field.parameters, out.stand, out.forcing, state.water);
  doubt_less(state.start, depletion_mm(out.stand, state.water));
  return out;
}

}  // namespace

FieldState start_of(const Field& field, const StationDay& first_day) {
  FieldState state;
  state.start.assumed = !field.start_depletion_mm.has_value();
  if (state.start.assumed) return state;
  SeasonHeat heat;  // the first day counts it for good
  const StandDay stand = stand_of(field, first_day, heat);
  const double share = least(1.0, *field.start_depletion_mm / stand.total_available_mm);
  for (int l = 0; l < max_layers; ++l)
    state.water.excess_mm[l] = -share * stand.rooted_available_mm[l];
  state.water.surface_depletion_mm = least(*field.start_depletion_mm, field.parameters.tew_mm);
  state.water.at_capacity = *field.start_depletion_mm <= 1.0 ? 1.0 : 0.0;
  return state;
}

FieldDay step_field(const Field& field, const StationDay& day, FieldState& state) {
  FieldDay out = move_water(field, day, state);
  out.fluxes.evaporation_mm += out.ground.snow_evaporation_mm;
  out.evening = state;
  describe(field, day, out);
  return out;
}

void pass_day(const Field& field, const StationDay& day, FieldState& state) {
  (void)move_water(field, day, state);
}

double theta_of(const SoilProfile& soil, const FieldWater<double>& water, int layer) {
  return theta_of(soil, water, LayerRange{.first = layer, .last = layer});
}

LayerRange subsoil_of(const SoilProfile& soil) {
  if (soil.layers <= topsoil_layers) return topsoil_range;
  return {.first = topsoil_layers, .last = topsoil_layers + 1};
}

double theta_of(const SoilProfile& soil, const FieldWater<double>& water,
                const LayerRange& layers) {
  double excess_mm = 0.0;
  double thickness_mm = 0.0;
  for (int l = layers.first; l <= layers.last; ++l) {
    excess_mm += water.excess_mm[l];
    thickness_mm += soil.thickness_mm[l];
  }
  return soil.horizon[layers.first].field_capacity + excess_mm / thickness_mm;
}

double stored_mm(const FieldParameters& field, const FieldState& state) {
  double sum = state.snow.snow_mm + state.water.pond_mm;
  for (int l = 0; l < max_layers; ++l) sum += field.available_mm[l] + state.water.excess_mm[l];
  return sum;
}

}  // namespace gley::model
