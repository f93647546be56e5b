#include "daemon/engine/explain/explanation_sections.hpp"
#include "model/numeric/elementary.hpp"
#include "model/weather/humidity_source.hpp"
#include "model/weather/missing.hpp"
#include "model/weather/wind.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;

/// What the terms of Eq. 6 are worked out from.
struct EtInputs {
  const model::ReferenceEt& et;
  const model::DailyWeather& weather;
  model::Site site;
  model::TemperatureRange t;
};

void say_wind(const model::ReferenceEt& et, const model::Site& site,
              const std::optional<double>& wind_m_s, Lines& lines) {
  ExplanationLine line{.key = "u2_m_s", .name = "wind at 2 m u2", .value = et.u2_m_s};
  if (et.flags.has(model::DayFlag::wind_estimated)) {
    line.source = "FAO-56 p. 63: 2 m/s where no wind is measured; flagged wind_estimated";
  } else if (site.wind_height_m == 2.0) {
    line.equation = worked("max(0.5, uz) = max(0.5, {})", {*wind_m_s});
    line.source = "measured at 2 m; least wind FAO-56 p. 63";
  } else {
    line.equation = worked(
        "max(0.5, uz 4.87/ln(67.8 z - 5.42)) = max(0.5, {} * 4.87/ln(67.8 * {} "
        "- 5.42))",
        {*wind_m_s, site.wind_height_m});
    line.source = "FAO-56 Eq. 47; least wind p. 63";
    line.note = worked("z = {} m: the station's wind_height_m", {site.wind_height_m});
  }
  lines.push_back(std::move(line));
}

void say_temperature(const EtInputs& in, Lines& lines) {
  const auto saturation = [](const char* of, const char* key, double t_c) {
    return ExplanationLine{
        .key = key,
        .name = "saturation pressure e0(" + std::string(of) + ")",
        .value = model::saturation_vapour_pressure_kpa(t_c),
        .equation = worked("0.6108 exp(17.27 T/(T + 237.3)) = 0.6108 exp(17.27 * {}/({} + 237.3))",
                           {t_c, t_c}),
        .source = "FAO-56 Eq. 11"};
  };
  lines.push_back({.key = "tmean_c",
                   .name = "mean temperature Tmean",
                   .value = in.et.tmean_c,
                   .equation = worked("(Tmax + Tmin)/2 = ({} + {})/2", {in.t.tmax_c, in.t.tmin_c}),
                   .source = "FAO-56 Eq. 9"});
  const ExplanationLine at_max = saturation("Tmax", "e0_tmax_kpa", in.t.tmax_c);
  const ExplanationLine at_min = saturation("Tmin", "e0_tmin_kpa", in.t.tmin_c);
  lines.push_back(at_max);
  lines.push_back(at_min);
  lines.push_back(
      {.key = "es_kpa",
       .name = "saturation pressure es",
       .value = in.et.es_kpa,
       .equation = worked("(e0(Tmax) + e0(Tmin))/2 = ({} + {})/2",
                          {std::get<double>(at_max.value), std::get<double>(at_min.value)}),
       .source = "FAO-56 Eq. 12"});
  lines.push_back(
      {.key = "delta_kpa_c",
       .name = "slope of e0 at Tmean, Delta",
       .value = in.et.delta_kpa_c,
       .equation = worked("4098 e0(Tmean)/(Tmean + 237.3)^2 = 4098 * {}/({} + 237.3)^2",
                          {model::saturation_vapour_pressure_kpa(in.et.tmean_c), in.et.tmean_c}),
       .source = "FAO-56 Eq. 13"});
}

/// How the vapour pressure was had, in the order of Box 7.
struct HumidityWay {
  std::string equation;
  std::string source;
  std::string note;
};

HumidityWay humidity_estimated(const EtInputs& in) {
  if (in.site.dew_point_offset_c)
    return {
        worked("e0(Tmean + offset) = e0({} + {})", {in.et.tmean_c, *in.site.dew_point_offset_c}),
        "FAO-56 Eq. 14", "no humidity measured: the station's dew_point_offset_c stands in"};
  return {worked("e0(Tmin) = e0({})", {in.t.tmin_c}), "FAO-56 Eq. 48",
          "no humidity measured: Tmin stands in for the dew point"};
}

HumidityWay humidity_way(const EtInputs& in) {
  const auto rh_min = model::usable_humidity_pct(in.weather.rh_min_pct);
  const auto rh_max = model::usable_humidity_pct(in.weather.rh_max_pct);
  const auto rh_mean = model::usable_humidity_pct(in.weather.rh_mean_pct);
  const double e_max = model::saturation_vapour_pressure_kpa(in.t.tmax_c);
  const double e_min = model::saturation_vapour_pressure_kpa(in.t.tmin_c);
  if (in.weather.dew_point_c)
    return {worked("e0(Tdew) = e0({})", {*in.weather.dew_point_c}), "FAO-56 Eq. 14", ""};
  if (rh_max && rh_min)
    return {worked("(e0(Tmin) RHmax + e0(Tmax) RHmin)/200 = ({} * {} + {} * {})/200",
                   {e_min, *rh_max, e_max, *rh_min}),
            "FAO-56 Eq. 17", ""};
  if (rh_max)
    return {worked("e0(Tmin) RHmax/100 = {} * {}/100", {e_min, *rh_max}), "FAO-56 Eq. 18", ""};
  if (rh_mean)
    return {worked("es RHmean/100 = {} * {}/100", {in.et.es_kpa, *rh_mean}), "FAO-56 Eq. 19", ""};
  return humidity_estimated(in);
}

/// t: absent where no temperature is known.
ExplanationLine least_humidity_line(const model::ReferenceEt& et,
                                    const model::DailyWeather& weather,
                                    const std::optional<model::TemperatureRange>& t) {
  ExplanationLine line{.key = "rh_min_pct",
                       .name = "least humidity RHmin used",
                       .value = et.rh_min_pct,
                       .source = "measured"};
  if (model::usable_humidity_pct(weather.rh_min_pct)) return line;
  line.source = "45 % where no temperature is known: FAO-56's sub-humid standard";
  if (!t) return line;
  line.equation = worked("100 ea/e0(Tmax), 0 to 100 = 100 * {}/{}",
                         {et.ea_kpa, model::saturation_vapour_pressure_kpa(t->tmax_c)});
  line.source = "FAO-56 Eq. 63";
  return line;
}

void say_humidity(const EtInputs& in, Lines& lines) {
  const HumidityWay way = humidity_way(in);
  lines.push_back({.key = "ea_kpa",
                   .name = "vapour pressure ea",
                   .value = in.et.ea_kpa,
                   .equation = way.equation,
                   .source = way.source,
                   .note = way.note});
  lines.push_back(least_humidity_line(in.et, in.weather, in.t));
}

ExplanationLine solar_line(const EtInputs& in) {
  ExplanationLine line{
      .key = "rs_mj_m2", .name = "solar radiation used Rs", .value = in.et.rs_mj_m2};
  const bool doubtful = in.et.flags.has(model::DayFlag::radiation_doubtful);
  if (in.weather.solar_mj_m2 && *in.weather.solar_mj_m2 >= 0.0) {
    line.source = "as measured";
    if (doubtful) {
      line.equation =
          worked("min(measured, Ra) = min({}, {})", {*in.weather.solar_mj_m2, in.et.ra_mj_m2});
      line.note = "well above a clear sky's: flagged radiation_doubtful (our choice)";
    }
  } else if (in.weather.sun_h && *in.weather.sun_h >= 0.0) {
    line.equation = worked(
        "(0.25 + 0.50 n/N) Ra = (0.25 + 0.50 * {}/{}) * {}",
        {model::least(*in.weather.sun_h, in.et.daylight_h), in.et.daylight_h, in.et.ra_mj_m2});
    line.source = "FAO-56 Eq. 35";
    if (doubtful) line.note = "more sunshine than daylight: held to N, flagged radiation_doubtful";
  } else {
    line.equation =
        worked("min(Rso, krs sqrt(Tmax - Tmin) Ra) = min({}, {} * sqrt({} - {}) * {})",
               {in.et.rso_mj_m2, in.site.krs, in.t.tmax_c, in.t.tmin_c, in.et.ra_mj_m2});
    line.source = "FAO-56 Eq. 50; krs from the configuration, 0.16 unless given";
    line.note = "no radiation or sunshine measured: flagged radiation_estimated";
  }
  return line;
}

void say_radiation(const EtInputs& in, Lines& lines) {
  lines.push_back(solar_line(in));
  lines.push_back({.key = "rns_mj_m2",
                   .name = "net shortwave Rns",
                   .value = in.et.rns_mj_m2,
                   .equation = worked("(1 - 0.23) Rs = 0.77 * {}", {in.et.rs_mj_m2}),
                   .source = "FAO-56 Eq. 38"});
  const double clearness =
      in.et.rso_mj_m2 > 0.0 ? model::held_between(0.3, in.et.rs_mj_m2 / in.et.rso_mj_m2, 1.0) : 1.0;
  lines.push_back(
      {.key = "clearness",
       .name = "clearness Rs/Rso",
       .value = clearness,
       .equation = worked("Rs/Rso, 0.3 to 1 = {}/{}", {in.et.rs_mj_m2, in.et.rso_mj_m2}),
       .source = "FAO-56 Eq. 39, at most 1; at least 0.3, and 1 without sun: our choice"});
  lines.push_back(
      {.key = "rnl_mj_m2",
       .name = "net longwave Rnl",
       .value = in.et.rnl_mj_m2,
       .equation = worked("4.903e-9 ((Tmax + 273.16)^4 + (Tmin + 273.16)^4)/2 (0.34 - 0.14 "
                          "sqrt(ea)) (1.35 Rs/Rso - 0.35) = 4.903e-9 (({} + 273.16)^4 + ({} + "
                          "273.16)^4)/2 (0.34 - 0.14 sqrt({})) (1.35 * {} - 0.35)",
                          {in.t.tmax_c, in.t.tmin_c, in.et.ea_kpa, clearness}),
       .source = "FAO-56 Eq. 39"});
  lines.push_back({.key = "rn_mj_m2",
                   .name = "net radiation Rn",
                   .value = in.et.rn_mj_m2,
                   .equation = worked("Rns - Rnl = {} - {}", {in.et.rns_mj_m2, in.et.rnl_mj_m2}),
                   .source = "FAO-56 Eq. 40"});
}

void say_penman_monteith(const EtInputs& in, Lines& lines) {
  const model::ReferenceEt& et = in.et;
  lines.push_back(
      {.key = "penman_monteith_mm",
       .name = "Penman-Monteith ET0",
       .value = et.penman_monteith_mm,
       .equation =
           worked("(0.408 Delta (Rn - G) + gamma 900/(Tmean + 273) u2 (es - ea))/(Delta + gamma "
                  "(1 + 0.34 u2)) = (0.408 * {} * ({} - 0) + {} * 900/({} + 273) * {} * ({} - "
                  "{}))/({} + {} * (1 + 0.34 * {}))",
                  {et.delta_kpa_c, et.rn_mj_m2, et.gamma_kpa_c, et.tmean_c, et.u2_m_s, et.es_kpa,
                   et.ea_kpa, et.delta_kpa_c, et.gamma_kpa_c, et.u2_m_s}),
       .source = "FAO-56 Eq. 6; G = 0 for a day, Eq. 42"});
}

ExplanationLine used_line(const model::ReferenceEt& et, const model::DailyWeather& weather) {
  ExplanationLine line{.key = "et0_mm", .name = "reference ET, ET0", .value = et.et0_mm};
  if (et.flags.has(model::DayFlag::et0_missing)) {
    line.source = "no temperatures and no ET0: taken as 0 mm, flagged et0_missing (our choice)";
    return line;
  }
  line.equation = weather.et0_mm
                      ? worked("max(0, ET0 with the weather) = max(0, {})", {*weather.et0_mm})
                      : worked("max(0, Eq. 6) = max(0, {})", {et.penman_monteith_mm});
  line.source = weather.et0_mm ? "given with the weather: overrides Eq. 6, flagged et0_given"
                               : "FAO-56 Eq. 6";
  if (et.flags.has(model::DayFlag::et0_negative))
    line.note = "below 0 means dew: taken as 0 and flagged et0_negative (our choice)";
  return line;
}

}  // namespace

ExplanationSection reference_et_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Reference evapotranspiration", .lines = {}};
  const model::ReferenceEt& et = day.weather.et;
  const model::DailyWeather& weather = day.weather.weather;
  const model::Site site = site_of(day.farm, first_station(day));
  say_wind(et, site, weather.wind_m_s, out.lines);
  if (const auto t = model::extremes_of(weather)) {
    const EtInputs in{et, weather, site, *t};
    say_temperature(in, out.lines);
    say_humidity(in, out.lines);
    say_radiation(in, out.lines);
    say_penman_monteith(in, out.lines);
  } else {
    out.lines.push_back(least_humidity_line(et, weather, {}));
  }
  out.lines.push_back(used_line(et, weather));
  return out;
}

}  // namespace gley::daemon
