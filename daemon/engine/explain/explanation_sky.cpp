#include "daemon/engine/explain/explanation_sections.hpp"
#include "daemon/farm/with_id.hpp"
#include "model/weather/radiation_source.hpp"
#include "model/weather/sun_path.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;

int day_of_year(std::chrono::sys_days date) {
  const std::chrono::year year = std::chrono::year_month_day{date}.year();
  return static_cast<int>((date - std::chrono::sys_days{year / 1 / 1}).count()) + 1;
}

std::string given_by(bool own, const StationConfig& station) {
  return "configuration, " + (own ? "station " + station.id : std::string("farm"));
}

void say_place(const ExplainedDay& day, const model::Site& site, Lines& lines) {
  const StationConfig& station = first_station(day);
  lines.push_back({.key = "latitude_deg",
                   .name = "latitude",
                   .value = site.latitude_deg,
                   .source = given_by(station.latitude.has_value(), station)});
  lines.push_back({.key = "elevation_m",
                   .name = "elevation z",
                   .value = site.elevation_m,
                   .source = given_by(station.elevation_m.has_value(), station)});
}

void say_sun(const model::SunPath& sun, int j, double latitude_deg, Lines& lines) {
  lines.push_back({.key = "day_of_year",
                   .name = "day of the year J",
                   .value = static_cast<double>(j),
                   .source = "the date"});
  lines.push_back({.key = "inverse_distance",
                   .name = "inverse distance to the sun dr",
                   .value = sun.inverse_distance,
                   .equation = worked("1 + 0.033 cos(2 pi J/365) = 1 + 0.033 cos(2 pi {}/365)",
                                      {static_cast<double>(j)}),
                   .source = "FAO-56 Eq. 23"});
  lines.push_back(
      {.key = "declination_rad",
       .name = "declination of the sun delta",
       .value = sun.declination_rad,
       .equation = worked("0.409 sin(2 pi J/365 - 1.39) = 0.409 sin(2 pi {}/365 - 1.39)",
                          {static_cast<double>(j)}),
       .source = "FAO-56 Eq. 24"});
  lines.push_back({.key = "sunset_angle_rad",
                   .name = "sunset hour angle ws",
                   .value = sun.sunset_angle_rad,
                   .equation = worked("arccos(-tan(lat) tan(delta)) = arccos(-tan({}) tan({}))",
                                      {sun.latitude_rad, sun.declination_rad}),
                   .source = "FAO-56 Eq. 22 and 25",
                   .note = worked("latitude {} deg in radians", {latitude_deg})});
}

}  // namespace

const StationConfig& first_station(const ExplainedDay& day) {
  return *with_id(day.farm.stations, day.config.stations.front());
}

ExplanationSection sky_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Place and sun", .lines = {}};
  const model::Site site = site_of(day.farm, first_station(day));
  const model::ReferenceEt& et = day.weather.et;
  const int j = day_of_year(day.day.date);
  const model::SunPath sun = model::sun_path({.latitude_deg = site.latitude_deg, .day_of_year = j});
  say_place(day, site, out.lines);
  say_sun(sun, j, site.latitude_deg, out.lines);
  out.lines.push_back(
      {.key = "ra_mj_m2",
       .name = "radiation above the air Ra",
       .value = et.ra_mj_m2,
       .equation = worked(
           "24 60/pi 0.0820 dr (ws sin(lat) sin(delta) + cos(lat) cos(delta) "
           "sin(ws)) = 37.586 * {} * ({} sin({}) sin({}) + cos({}) cos({}) sin({}))",
           {sun.inverse_distance, sun.sunset_angle_rad, sun.latitude_rad, sun.declination_rad,
            sun.latitude_rad, sun.declination_rad, sun.sunset_angle_rad}),
       .source = "FAO-56 Eq. 21"});
  out.lines.push_back({.key = "daylight_h",
                       .name = "daylight N",
                       .value = et.daylight_h,
                       .equation = worked("24 ws/pi = 24 * {}/pi", {sun.sunset_angle_rad}),
                       .source = "FAO-56 Eq. 34"});
  out.lines.push_back({.key = "rso_mj_m2",
                       .name = "radiation of a clear sky Rso",
                       .value = et.rso_mj_m2,
                       .equation = worked("(0.75 + 0.00002 z) Ra = (0.75 + 0.00002 * {}) * {}",
                                          {site.elevation_m, et.ra_mj_m2}),
                       .source = "FAO-56 Eq. 37"});
  out.lines.push_back(
      {.key = "pressure_kpa",
       .name = "air pressure P",
       .value = et.pressure_kpa,
       .equation =
           worked("101.3 ((293 - 0.0065 z)/293)^5.26 = 101.3 ((293 - 0.0065 * {})/293)^5.26",
                  {site.elevation_m}),
       .source = "FAO-56 Eq. 7"});
  out.lines.push_back({.key = "gamma_kpa_c",
                       .name = "psychrometric constant gamma",
                       .value = et.gamma_kpa_c,
                       .equation = worked("0.000665 P = 0.000665 * {}", {et.pressure_kpa}),
                       .source = "FAO-56 Eq. 8"});
  return out;
}

}  // namespace gley::daemon
