#include "daemon/alerts/field_moment.hpp"

#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

/// Something that begins at one value and goes on until it falls below a smaller one.
struct Band {
  double begins;
  double ends;
};
bool over(double value, const Band& band, bool stands) {
  return value >= (stands ? band.ends : band.begins);
}

bool rain_fills(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  return field.ahead && field.day.evening.water.at_capacity <= 0.5 &&
         over(field.ahead->at_capacity_48h, {limits.capacity_chance, limits.capacity_chance_ends},
              stands);
}

bool rain_on_dressing(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  if (!field.fresh_dressing) return false;
  return field.day.rain_mm >= limits.heavy_rain_mm ||
         (field.ahead && over(field.ahead->heavy_rain_48h,
                              {limits.heavy_rain_chance, limits.heavy_rain_chance_ends}, stands));
}

bool runs_off(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  return over(field.day.fluxes.runoff_mm, {limits.runoff_mm, limits.runoff_mm_ends}, stands) ||
         (field.ahead &&
          over(field.ahead->runoff_48h, {limits.runoff_chance, limits.runoff_chance_ends}, stands));
}

/// Drains that were dry for long run today for the first time, or are about to.
bool drains_start(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  if (field.before.days_drains_dry < limits.drains_settled_days) return false;
  return model::drains_run(field.day) ||
         (field.ahead &&
          over(field.ahead->drains_48h,
               {limits.drains_start_chance, limits.drains_start_chance_ends}, stands));
}

/// Drains that ran all week run today and are not expected to go on, or ran until yesterday.
bool drains_stop(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  if (field.before.days_drains_ran < limits.drains_settled_days || !field.before.drains_ran)
    return false;
  if (!field.ahead) return !model::drains_run(field.day);
  const double allowed = stands ? limits.drains_stop_chance_ends : limits.drains_stop_chance;
  return field.ahead->drains_days <= allowed;
}

bool is_frozen(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  return field.day.ground.frozen ||
         (field.ahead &&
          over(field.ahead->frozen_48h, {limits.frozen_chance, limits.frozen_chance_ends}, stands));
}

bool is_short(const FieldMoment& field, const AlertLimits& limits, bool stands) {
  const model::StandDay& stand = field.day.stand;
  if (stand.cover < limits.least_cover) return false;
  if (field.day.wetness == model::Wetness::short_of_water) return true;
  const double easy_mm = stand.depletion_fraction * stand.total_available_mm;
  return stands && field.day.depletion_mm > limits.short_ends_share * easy_mm;
}

}  // namespace

bool holds(AlertEvent event, const FieldMoment& field, const AlertLimits& limits, bool stands) {
  const bool assumed = field.day.flags.has(model::DayFlag::start_assumed);
  switch (event) {
    case AlertEvent::at_field_capacity:
      return field.day.evening.water.at_capacity > 0.5 && !assumed;
    case AlertEvent::waterlogged:
      return field.day.wetness == model::Wetness::waterlogged;
    case AlertEvent::rain_expected:
      return !assumed && rain_fills(field, limits, stands);
    case AlertEvent::rain_on_dressing:
      return rain_on_dressing(field, limits, stands);
    case AlertEvent::runoff_likely:
      return runs_off(field, limits, stands);
    case AlertEvent::drains_to_start:
      return !assumed && drains_start(field, limits, stands);
    case AlertEvent::drains_to_stop:
      return !assumed && drains_stop(field, limits, stands);
    case AlertEvent::frozen_ground:
      return is_frozen(field, limits, stands);
    case AlertEvent::short_of_water:
      return !assumed && is_short(field, limits, stands);
    default:
      return false;
  }
}

bool holds(AlertEvent event, const MachineMoment& machine, Instant now, const AlertLimits& limits) {
  if (!machine.waiting) return false;
  if (event == AlertEvent::window_opening)
    return machine.days_carried == 0 && machine.opens && *machine.opens - now <= limits.notice;
  if (event == AlertEvent::window_closing)
    return machine.days_carried > 0 && machine.carries && machine.closes &&
           *machine.closes - now <= limits.notice;
  return false;
}

void Waiting::day(bool carried, bool driven) {
  if (!carried) {
    // A day or two closed again does not begin the wait anew: the work is still to be done.
    ++closed_;
    if (closed_ >= rules_.closed_days) {
      waits_ = true;
      days_carried_ = 0;
    }
  } else {
    closed_ = 0;
    if (waits_) ++days_carried_;
    if (days_carried_ >= rules_.open_days) waits_ = false;
  }
  if (driven) {
    waits_ = false;
    closed_ = 0;
  }
}

}  // namespace gley::daemon
