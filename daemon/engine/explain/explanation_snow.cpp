#include "daemon/engine/explain/explanation_sections.hpp"
#include "model/numeric/elementary.hpp"
#include "model/water/snow_and_frost.hpp"
#include "model/weather/missing.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;

/// Temperatures are known and the field knows snow.
void say_snow(const ExplainedDay& day, const model::TemperatureRange& t, Lines& lines) {
  const double tmean_c = (t.tmin_c + t.tmax_c) / 2.0;
  const double before_mm = day.morning.snow.snow_mm;
  const double share = model::snow_share(tmean_c);
  const double fallen_mm = day.day.rain_mm * share;
  const double rain_mm = day.day.rain_mm - fallen_mm;
  const double could_melt_mm = model::melt_potential_mm({.tmean_c = tmean_c, .rain_mm = rain_mm});
  const double melt_mm = model::least(before_mm + fallen_mm, could_melt_mm);
  lines.push_back({.key = "snow_share",
                   .name = "share of the rain that is snow",
                   .value = share,
                   .equation = worked("(2 - Tmean)/2, 0 to 1 = (2 - {})/2", {tmean_c}),
                   .source = "usual practice: all at 0 degC, none from 2 degC"});
  lines.push_back(
      {.key = "melt_mm",
       .name = "snow that melts",
       .value = melt_mm,
       .equation = worked("min(snow, 3.5 T + 0.0125 rain T), T at least 0 = min({} + "
                          "{}, {})",
                          {before_mm, fallen_mm, could_melt_mm}),
       .source = "Kuusisto (1980), Nordic Hydrol. 11:235-246; rain's heat by 4.19/334"});
  lines.push_back({.key = "snow_evaporation_mm",
                   .name = "evaporation of snow",
                   .value = day.day.ground.snow_evaporation_mm,
                   .equation = worked("min(0.4, ET0) where the ground is covered = min(0.4, {})",
                                      {day.day.et0_mm}),
                   .source = "FAO-56 p. 209",
                   .note = day.day.ground.covered ? "snow covers the ground: soil and crop "
                                                    "evaporate nothing"
                                                  : "not covered: none"});
}

void say_frost(const ExplainedDay& day, const model::TemperatureRange& t, Lines& lines) {
  const double tmean_c = (t.tmin_c + t.tmax_c) / 2.0;
  const double depth_cm = day.morning.snow.snow_mm / (10.0 * model::snow_density);
  lines.push_back(
      {.key = "frost_index_c_d",
       .name = "frost index",
       .value = day.day.evening.snow.frost_index_c_d,
       .equation = worked(
           "max(0, 0.97 index before - Tmean exp(-0.4 K snow depth in cm)), K 0.5 "
           "over 0 degC, else 0.08 = max(0, 0.97 * {} - {} exp(-0.4 * {} * {}))",
           {day.morning.snow.frost_index_c_d, tmean_c, tmean_c > 0.0 ? 0.5 : 0.08, depth_cm}),
       .source = "Molnau and Bissell (1983), 51st Western Snow Conf., 109-119",
       .note = std::string("over 83 frost seals the ground: ") +
               (day.day.ground.sealed ? "sealed" : "not sealed")});
  lines.push_back(
      {.key = "frozen",
       .name = "counts as frozen for spreading",
       .value = day.day.ground.frozen ? "yes" : "no",
       .equation = worked("Tmean under -1, or Tmax at most 1 with Tmin under -3: {}, {}, {} degC",
                          {tmean_c, t.tmax_c, t.tmin_c}),
       .source = "our stand-in for 'frozen for more than 12 of the last 24 hours'"});
}

ExplanationLine snow_line(const ExplainedDay& day) {
  std::string note;
  if (!model::extremes_of(day.weather.weather))
    note = "no temperature: all rain, no melt, no frost";
  if (day.config.textbook) note = "a textbook field knows no snow";
  const model::GroundWeather& ground = day.day.ground;
  return {
      .key = "snow_mm",
      .name = "water in lying snow",
      .value = day.day.evening.snow.snow_mm,
      .equation = worked(
          "before + rain - rain and melt to the ground - evaporation = {} + {} - "
          "{} - {}",
          {day.morning.snow.snow_mm, day.day.rain_mm, ground.water_mm, ground.snow_evaporation_mm}),
      .source = day.first ? "no snow at the start" : "before: carried over from the day before",
      .note = note};
}

}  // namespace

ExplanationSection snow_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Snow and frost", .lines = {}};
  const auto t = model::extremes_of(day.weather.weather);
  if (t && !day.config.textbook) {
    say_snow(day, *t, out.lines);
    say_frost(day, *t, out.lines);
  }
  out.lines.push_back(snow_line(day));
  out.lines.push_back({.key = "water_mm",
                       .name = "rain and melt to the ground",
                       .value = day.day.ground.water_mm,
                       .equation = "rain that is not snow + melt",
                       .source = "the lines above"});
  return out;
}

}  // namespace gley::daemon
