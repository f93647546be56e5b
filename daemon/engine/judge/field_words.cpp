#include "daemon/engine/judge/field_words.hpp"

#include <cmath>

#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

/// Whole millimetres, one decimal under 10.
std::string mm(double value) {
  const long tenths = std::lround(value * 10.0);
  if (tenths >= 100) return std::to_string(std::lround(value)) + " mm";
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " mm";
}

bool shows(double value_mm) {
  return value_mm >= 0.05;
}

void say_topsoil(const model::FieldDay& day, std::vector<std::string>& reasons) {
  if (shows(day.topsoil_deficit_mm))
    reasons.push_back("topsoil " + mm(day.topsoil_deficit_mm) + " below field capacity");
  else
    reasons.push_back("topsoil full to field capacity");
}

void say_surplus(const model::Field& field, const model::FieldDay& day,
                 std::vector<std::string>& reasons) {
  const model::FieldWater<double>& water = day.evening.water;
  if (shows(water.pond_mm))
    reasons.push_back(mm(water.pond_mm) + " of water standing on the ground");
  const double fill = model::topsoil_fill(field.parameters, water);
  if (fill >= 0.3)
    reasons.push_back("topsoil's room above field capacity " +
                      std::to_string(std::lround(100.0 * fill)) + " % full");
  if (shows(day.surplus_mm))
    reasons.push_back(mm(day.surplus_mm) + " over field capacity still to drain");
}

void say_roots(const model::FieldDay& day, std::vector<std::string>& reasons) {
  if (day.wetness == model::Wetness::short_of_water)
    reasons.push_back("roots " + mm(day.depletion_mm) + " short of " +
                      mm(day.stand.total_available_mm) + " they can hold");
  else if (shows(day.depletion_mm))
    reasons.push_back("root zone " + mm(day.depletion_mm) + " below field capacity");
}

}  // namespace

std::vector<std::string> wetness_reasons(const model::Field& field, const model::FieldDay& day) {
  std::vector<std::string> reasons;
  if (day.flags.has(model::DayFlag::snow))
    reasons.push_back("snow lying, " + mm(day.evening.snow.snow_mm) + " of water in it");
  if (day.flags.has(model::DayFlag::frozen)) reasons.push_back("ground counts as frozen");
  say_surplus(field, day, reasons);
  say_topsoil(day, reasons);
  say_roots(day, reasons);
  if (shows(day.rain_mm)) reasons.push_back(mm(day.rain_mm) + " of rain today");
  if (model::drains_run(day)) reasons.push_back("water leaving by drains or below the roots");
  if (day.flags.has(model::DayFlag::start_assumed))
    reasons.push_back(
        "the start of its record is assumed, so its water is a guess until it has "
        "dried and filled again");
  return reasons;
}

}  // namespace gley::daemon
