#include <chrono>

#include "model/numeric/elementary.hpp"
#include "model/weather/penman_monteith.hpp"
#include "model/weather/pressure.hpp"
#include "model/weather/radiation.hpp"
#include "model/weather/reference_et.hpp"
#include "model/weather/sun_path.hpp"
#include "model/weather/vapour_pressure.hpp"
#include "model/weather/wind.hpp"
#include "tests/published/published_check.hpp"

namespace gley::published {
namespace {

using namespace gley::model;

template <class F>
Series each(const Series& list, F&& function) {
  Series results;
  for (const double x : list) results.push_back(function(x));
  return results;
}

std::chrono::sys_days date_of(const Inputs& in) {
  return std::chrono::sys_days{std::chrono::year{2015} / std::chrono::January / 1} +
         std::chrono::days{static_cast<int>(in("day_of_year")) - 1};
}

SunPath sun_of(const Inputs& in) {
  return sun_path(
      {.latitude_deg = in("latitude_deg"), .day_of_year = static_cast<int>(in("day_of_year"))});
}

TemperatureRange range_of(const Inputs& in) {
  return {.tmin_c = in("tmin_c"), .tmax_c = in("tmax_c")};
}

double vapour_pressure_of(const Inputs& in) {
  return vapour_pressure_from_extremes_kpa(
      range_of(in), {.rh_min_pct = in("rhmin_pct"), .rh_max_pct = in("rhmax_pct")});
}

Results evaporation_of_energy(const Inputs& in) {
  return {{"evaporation", {evaporation_depth_mm(in("energy_mj_m2") * in("fraction"))}}};
}

Results air_at_height(const Inputs& in) {
  const double p = atmospheric_pressure_kpa(in("elevation_m"));
  return {{"p", {p}}, {"gamma", {psychrometric_constant_kpa_c(p)}}};
}

Results saturation(const Inputs& in) {
  return {{"e_tmax", {saturation_vapour_pressure_kpa(in("tmax_c"))}},
          {"e_tmin", {saturation_vapour_pressure_kpa(in("tmin_c"))}},
          {"es", {mean_saturation_vapour_pressure_kpa(range_of(in))}},
          {"e_tmean", {saturation_vapour_pressure_kpa(mean_temperature_c(range_of(in)))}}};
}

Results relative_humidity(const Inputs& in) {
  const double rh_mean_pct = (in("rhmin_pct") + in("rhmax_pct")) / 2.0;
  return {{"e_tmin", {saturation_vapour_pressure_kpa(in("tmin_c"))}},
          {"e_tmax", {saturation_vapour_pressure_kpa(in("tmax_c"))}},
          {"ea", {vapour_pressure_of(in)}},
          {"ea_eq19", {vapour_pressure_from_rh_mean_kpa(range_of(in), rh_mean_pct)}}};
}

Results vapour_deficit(const Inputs& in) {
  return {{"vpd", {mean_saturation_vapour_pressure_kpa(range_of(in)) - vapour_pressure_of(in)}}};
}

Results latitudes(const Inputs& in) {
  const auto radians = [&](std::size_t i) {
    const double degrees = in.list("deg_deg")[i] + in.list("minutes_min")[i] / 60.0;
    return sun_path({.latitude_deg = degrees, .day_of_year = 1}).latitude_rad;
  };
  return {{"bangkok", {radians(0)}}, {"rio", {radians(1)}}};
}

Results sun_over_20_south(const Inputs& in) {
  const SunPath sun = sun_of(in);
  return {{"phi", {sun.latitude_rad}},
          {"dr", {sun.inverse_distance}},
          {"decl", {sun.declination_rad}},
          {"ws", {sun.sunset_angle_rad}},
          {"sin_sin", {sine(sun.latitude_rad) * sine(sun.declination_rad)}},
          {"cos_cos", {cosine(sun.latitude_rad) * cosine(sun.declination_rad)}},
          {"ra", {sun.ra_mj_m2}},
          {"ra_mm", {evaporation_depth_mm(sun.ra_mj_m2)}}};
}

Results daylight(const Inputs& in) {
  return {{"n_max", {sun_of(in).daylight_h}}};
}

/// Examples 10 to 12: a month's sunshine at Rio de Janeiro.
struct Rio {
  SunPath sun;
  double sun_h;
  double rs;
  double rso;

  explicit Rio(const Inputs& in)
      : sun(sun_of(in)),
        sun_h(in("sun_month_h") / in("days")),
        rs(radiation_from_sunshine_mj_m2(
            {.sun_h = sun_h, .daylight_h = sun.daylight_h, .ra_mj_m2 = sun.ra_mj_m2})),
        rso(clear_sky_radiation_mj_m2({.ra_mj_m2 = sun.ra_mj_m2, .elevation_m = 0.0})) {}

  [[nodiscard]] double rnl(const Inputs& in) const {
    return net_longwave_mj_m2(
        {.temperature = range_of(in), .ea_kpa = in("ea_kpa"), .clearness = rs / rso});
  }
};

Results radiation_from_sun(const Inputs& in) {
  const Rio rio(in);
  return {{"ra", {rio.sun.ra_mj_m2}},
          {"n_max", {rio.sun.daylight_h}},
          {"n", {rio.sun_h}},
          {"rs", {rio.rs}},
          {"rs_mm", {evaporation_depth_mm(rio.rs)}}};
}

Results longwave(const Inputs& in) {
  const Rio rio(in);
  return {{"rso", {rio.rso}},
          {"sig_tmax", {black_body_radiation_mj_m2(in("tmax_c"))}},
          {"sig_tmin", {black_body_radiation_mj_m2(in("tmin_c"))}},
          {"rs_rso", {rio.rs / rio.rso}},
          {"rnl", {rio.rnl(in)}},
          {"rnl_mm", {evaporation_depth_mm(rio.rnl(in))}}};
}

Results net_radiation(const Inputs& in) {
  const Rio rio(in);
  const double rns = net_shortwave_mj_m2(rio.rs);
  const double rn = rns - rio.rnl(in);
  return {{"rns", {rns}}, {"rn", {rn}}, {"rn_mm", {evaporation_depth_mm(rn)}}};
}

Results wind(const Inputs& in) {
  const double height_m = in("height_m");
  return {{"factor", {wind_factor_to_2m(height_m)}},
          {"u2", {wind_at_2m_m_s({.speed_m_s = in("speed_m_s"), .height_m = height_m})}}};
}

double radiation_from_temperatures(const Inputs& in) {
  return radiation_from_temperature_mj_m2(
      {.temperature = range_of(in), .ra_mj_m2 = sun_of(in).ra_mj_m2, .krs = in("krs")});
}

Results temperature_radiation(const Inputs& in) {
  const double rs = radiation_from_temperatures(in);
  return {{"ra", {sun_of(in).ra_mj_m2}}, {"rs", {rs}}, {"rs_mm", {evaporation_depth_mm(rs)}}};
}

Results radiation_without_data(const Inputs& in) {
  const double ra = sun_of(in).ra_mj_m2;
  const double rs = radiation_from_temperatures(in);
  const double rso = clear_sky_radiation_mj_m2({.ra_mj_m2 = ra, .elevation_m = 0.0});
  const double rnl = net_longwave_mj_m2(
      {.temperature = range_of(in), .ea_kpa = in("ea_kpa"), .clearness = rs / rso});
  const double rn = net_shortwave_mj_m2(rs) - rnl;
  return {{"ra", {ra}},
          {"rs", {rs}},
          {"rso", {rso}},
          {"rns", {net_shortwave_mj_m2(rs)}},
          {"rnl", {rnl}},
          {"rn", {rn}},
          {"rn_mm", {evaporation_depth_mm(rn)}}};
}

/// Example 17: a month, so with a soil heat flux, which reference_et() does not know.
Results bangkok_month(const Inputs& in) {
  const TemperatureRange range = range_of(in);
  const SunPath sun = sun_of(in);
  const double p = atmospheric_pressure_kpa(in("elevation_m"));
  const double rs = radiation_from_sunshine_mj_m2(
      {.sun_h = in("sun_h"), .daylight_h = sun.daylight_h, .ra_mj_m2 = sun.ra_mj_m2});
  const double rso =
      clear_sky_radiation_mj_m2({.ra_mj_m2 = sun.ra_mj_m2, .elevation_m = in("elevation_m")});
  const double rnl =
      net_longwave_mj_m2({.temperature = range, .ea_kpa = in("ea_kpa"), .clearness = rs / rso});
  const PenmanMonteithTerms terms{.tmean_c = mean_temperature_c(range),
                                  .u2_m_s = in("u2_m_s"),
                                  .rn_mj_m2 = net_shortwave_mj_m2(rs) - rnl,
                                  .g_mj_m2 = in("g_mj_m2"),
                                  .delta_kpa_c = saturation_slope_kpa_c(mean_temperature_c(range)),
                                  .gamma_kpa_c = psychrometric_constant_kpa_c(p),
                                  .es_kpa = mean_saturation_vapour_pressure_kpa(range),
                                  .ea_kpa = in("ea_kpa")};
  return {{"delta", {terms.delta_kpa_c}},
          {"p", {p}},
          {"gamma", {terms.gamma_kpa_c}},
          {"es", {terms.es_kpa}},
          {"vpd", {terms.es_kpa - terms.ea_kpa}},
          {"ra", {sun.ra_mj_m2}},
          {"n_max", {sun.daylight_h}},
          {"rs", {rs}},
          {"rso", {rso}},
          {"rns", {net_shortwave_mj_m2(rs)}},
          {"rnl", {rnl}},
          {"rn", {terms.rn_mj_m2}},
          {"et0", {penman_monteith_mm(terms)}}};
}

/// Example 18, through the call that the daemon makes.
Results uccle_day(const Inputs& in) {
  DailyWeather day;
  day.tmin_c = in("tmin_c");
  day.tmax_c = in("tmax_c");
  day.rh_min_pct = in("rhmin_pct");
  day.rh_max_pct = in("rhmax_pct");
  day.wind_m_s = in("speed_km_h") / 3.6;
  day.sun_h = in("sun_h");
  const ReferenceEt et = reference_et({.latitude_deg = in("latitude_deg"),
                                       .elevation_m = in("elevation_m"),
                                       .wind_height_m = in("height_m")},
                                      date_of(in), day);
  return {{"u2", {et.u2_m_s}},
          {"p", {et.pressure_kpa}},
          {"delta", {et.delta_kpa_c}},
          {"gamma", {et.gamma_kpa_c}},
          {"es", {et.es_kpa}},
          {"ea", {et.ea_kpa}},
          {"vpd", {et.es_kpa - et.ea_kpa}},
          {"ra", {et.ra_mj_m2}},
          {"n_max", {et.daylight_h}},
          {"rs", {et.rs_mj_m2}},
          {"rso", {et.rso_mj_m2}},
          {"rns", {et.rns_mj_m2}},
          {"rnl", {et.rnl_mj_m2}},
          {"rn", {et.rn_mj_m2}},
          {"et0", {et.et0_mm}}};
}

ReferenceEt lyon_day(const Inputs& in, std::optional<double> wind_m_s) {
  DailyWeather day;
  day.tmin_c = in("tmin_c");
  day.tmax_c = in("tmax_c");
  day.wind_m_s = wind_m_s;
  return reference_et(
      {.latitude_deg = in("latitude_deg"), .elevation_m = in("elevation_m"), .krs = in("krs")},
      date_of(in), day);
}

/// Example 20, through the call that the daemon makes: nothing but the temperatures.
Results lyon_from_temperatures(const Inputs& in) {
  const ReferenceEt et = lyon_day(in, std::nullopt);
  return {{"delta", {et.delta_kpa_c}},
          {"gamma", {et.gamma_kpa_c}},
          {"ea", {et.ea_kpa}},
          {"es", {et.es_kpa}},
          {"vpd", {et.es_kpa - et.ea_kpa}},
          {"ra", {et.ra_mj_m2}},
          {"rs", {et.rs_mj_m2}},
          {"rso", {et.rso_mj_m2}},
          {"rns", {et.rns_mj_m2}},
          {"rnl", {et.rnl_mj_m2}},
          {"rn", {et.rn_mj_m2}},
          {"et0", {et.et0_mm}},
          {"et0_u1", {lyon_day(in, 1.0).et0_mm}},
          {"et0_u3", {lyon_day(in, 3.0).et0_mm}}};
}

Results pressure_table(const Inputs& in) {
  return {{"p", each(in.list("elevation_m"), atmospheric_pressure_kpa)}};
}

Results psychrometric_table(const Inputs& in) {
  return {{"gamma", each(in.list("elevation_m"), [](double elevation_m) {
             return psychrometric_constant_kpa_c(atmospheric_pressure_kpa(elevation_m));
           })}};
}

Results saturation_table(const Inputs& in) {
  return {{"e0", each(in.list("t_c"), saturation_vapour_pressure_kpa)}};
}

Results slope_table(const Inputs& in) {
  return {{"delta", each(in.list("t_c"), saturation_slope_kpa_c)}};
}

Results black_body_table(const Inputs& in) {
  return {{"sigma_t4", each(in.list("t_c"), black_body_radiation_mj_m2)}};
}

Results wind_table(const Inputs& in) {
  return {{"factor", each(in.list("height_m"), wind_factor_to_2m)}};
}

}  // namespace

Calculations fao56_weather() {
  return {{"ex1", evaporation_of_energy},
          {"ex2", air_at_height},
          {"ex3", saturation},
          {"ex5", relative_humidity},
          {"ex6", vapour_deficit},
          {"ex7", latitudes},
          {"ex8", sun_over_20_south},
          {"ex9", daylight},
          {"ex10", radiation_from_sun},
          {"ex11", longwave},
          {"ex12", net_radiation},
          {"ex14", wind},
          {"ex15", temperature_radiation},
          {"ex16", radiation_without_data},
          {"ex17", bangkok_month},
          {"ex18", uccle_day},
          {"ex20", lyon_from_temperatures},
          {"table2_1", pressure_table},
          {"table2_2", psychrometric_table},
          {"table2_3", saturation_table},
          {"table2_4", slope_table},
          {"table2_8", black_body_table},
          {"table2_9", wind_table}};
}

}  // namespace gley::published
