#include "daemon/engine/explain/explanation_sections.hpp"
#include "daemon/farm/reference_tables.hpp"
#include "daemon/text/date_text.hpp"
#include "model/numeric/elementary.hpp"
#include "model/weather/wind.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;
using Standing = model::CropCalendar::Standing;

double stage_day(const ExplainedDay& day, const Standing& standing) {
  const model::CropCourse& course = standing.course;
  if (!course.heat) return standing.day_of_season;
  return model::day_by_heat(*course.heat, course.kcb.lengths, day.day.evening.heat.day_degrees_c_d);
}

/// The coefficient of a day of the season by its stage, Eq. 66.
std::string stage_equation(const model::SeasonCourse& kcb, double i) {
  const auto& [initial, mid, end] = kcb.coefficients;
  const double ini_d = kcb.lengths.initial_d;
  const double grown_d = ini_d + kcb.lengths.development_d;
  const double late_from_d = grown_d + kcb.lengths.mid_season_d;
  const double late_d = kcb.lengths.late_season_d;
  if (i <= ini_d) return worked("initial stage, day {} of {}", {i, ini_d});
  if (i <= grown_d)
    return worked(
        "development: Kini + (i - Lini)/Ldev (Kmid - Kini) = {} + ({} - {})/{} * ({} - "
        "{})",
        {initial, i, ini_d, grown_d - ini_d, mid, initial});
  if (i <= late_from_d) return worked("mid-season, day {} to {}", {grown_d + 1, late_from_d});
  if (i >= late_from_d + late_d)
    return worked("end of the season, from day {}", {late_from_d + late_d});
  return worked(
      "late season: Kmid + (i - Lbefore)/Llate (Kend - Kmid) = {} + ({} - {})/{} * ({} - "
      "{})",
      {mid, i, late_from_d, late_d, end, mid});
}

void say_crop(const ExplainedDay& day, const Standing& standing, Lines& lines) {
  lines.push_back({.key = "crop",
                   .name = "stands on the field",
                   .value = standing.course.name,
                   .source = crop_source(day)});
  if (standing.course.lasts_all_year()) return;
  lines.push_back({.key = "day_of_season",
                   .name = "day of its season i",
                   .value = stage_day(day, standing),
                   .source = standing.course.heat ? "warmth since sowing, put into days of the "
                                                    "stages: McMaster and Wilhelm (1997), method 1"
                                                  : "days since sowing, 1 on its day",
                   .note = standing.sown ? "sown " + date_text(*standing.sown) : ""});
}

/// Where the sowing's own coefficients go before the row's.
std::string own_kcb(const ExplainedDay& day, const model::CropCourse& course) {
  const CropRow* row = reference_tables().crop(course.name);
  const auto& [initial, mid, end] = course.kcb.coefficients;
  const bool as_tabled =
      row == nullptr || (row->kcb_ini == initial && row->kcb_mid == mid && row->kcb_end == end);
  return as_tabled ? "" : ", but for field " + day.config.id + "'s own in the configuration";
}

std::string kcb_equation(const model::CropCourse& course, double tabled, double term) {
  if (!course.climate_adjusted) return {};
  const auto& [initial, mid, end] = course.kcb.coefficients;
  if (course.lasts_all_year())
    return worked("max(0, Kcb tabled + climate term) = max(0, {} + {})", {tabled, term});
  return worked("Eq. 66 between Kcb ini {}, mid {} + {} and end {}", {initial, mid, term, end}) +
         (end < 0.45 ? "" : worked(" + {}", {term}));
}

std::string cut_note(const Standing& standing) {
  const auto& cutting = standing.course.cutting;
  if (!cutting || !standing.days_since_cut || *standing.days_since_cut >= cutting->recovery_d)
    return {};
  return worked("cut {} days ago: from {} right after the cut, back to its own after {} days",
                {static_cast<double>(*standing.days_since_cut), cutting->kcb,
                 static_cast<double>(cutting->recovery_d)});
}

void say_kcb(const ExplainedDay& day, const Standing& standing, Lines& lines) {
  const model::CropCourse& course = standing.course;
  const model::ReferenceEt& et = day.weather.et;
  const double i = stage_day(day, standing);
  const double tabled = model::stage_coefficient(course.kcb, i);
  lines.push_back(
      {.key = "kcb_tabled",
       .name = "basal coefficient, tabled",
       .value = tabled,
       .equation = course.lasts_all_year() ? "the same all year" : stage_equation(course.kcb, i),
       .source = course.lasts_all_year() ? crop_number_source(day, &CropRow::kcb_mid, tabled)
                                         : "FAO-56 Eq. 66; Kcb ini, mid and end: " +
                                               crop_source(day) + own_kcb(day, course)});
  const model::CropClimate climate{et.u2_m_s, et.rh_min_pct, course.height_m};
  const double term = model::climate_adjusted_mid(0.0, climate);
  if (course.climate_adjusted)
    lines.push_back(
        {.key = "climate_term",
         .name = "climate term",
         .value = term,
         .equation = worked(
             "(0.04 (u2 - 2) - 0.004 (RHmin - 45)) (h/3)^0.3 = (0.04 ({} - 2) - "
             "0.004 ({} - 45)) ({}/3)^0.3",
             {model::held_between(1.0, et.u2_m_s, 6.0),
              model::held_between(20.0, et.rh_min_pct, 80.0), model::least(course.height_m, 10.0)}),
         .source = "FAO-56 Eq. 70: u2 1 to 6 m/s, RHmin 20 to 80 %, h the full height; none under "
                   "0.1 m. The day's air, where FAO-56 takes the stage's mean: our choice"});
  lines.push_back({.key = "kcb",
                   .name = "basal coefficient Kcb",
                   .value = day.day.stand.kcb,
                   .equation = kcb_equation(course, tabled, term),
                   .source = course.climate_adjusted ? "FAO-56 Eq. 70" : "as given or tabled",
                   .note = cut_note(standing)});
}

void say_canopy(const ExplainedDay& day, const Standing& standing, Lines& lines) {
  const model::StandDay& stand = day.day.stand;
  const model::CropCourse& course = standing.course;
  const model::ReferenceEt& et = day.weather.et;
  lines.push_back(
      {.key = "height_m",
       .name = "height h",
       .value = stand.height_m,
       .source = course.lasts_all_year()
                     ? crop_number_source(day, &CropRow::height_m, course.height_m)
                     : worked("FAO-56 Annex 8: grows with Kcb to {} m", {course.height_m})});
  lines.push_back(
      {.key = "kc_max",
       .name = "largest coefficient Kcmax",
       .value = stand.kc_max,
       .equation = worked("max(1.2 + (0.04 (u2 - 2) - 0.004 (RHmin - 45)) (h/3)^0.3, Kcb + 0.05) = "
                          "max(1.2 + (0.04 ({} - 2) - 0.004 ({} - 45)) ({}/3)^0.3, {} + 0.05)",
                          {model::greatest(model::least_wind_m_s, et.u2_m_s), et.rh_min_pct,
                           stand.height_m, stand.kcb}),
       .source = "FAO-56 Eq. 72",
       .note = course.residue_cover > 0.0
                   ? worked("residue on {} of the ground takes 0.5 of that share off Kcmax - Kcb "
                            "(p. 198)",
                            {course.residue_cover})
                   : ""});
  ExplanationLine cover{.key = "cover", .name = "ground covered fc", .value = stand.cover};
  if (course.cover) {
    const CropRow* row = reference_tables().crop(course.name);
    const bool is_own = row != nullptr && row->cover != course.cover;
    cover.source = is_own ? "configuration, the field's own number for its crop" : crop_source(day);
    cover.note = cut_note(standing);
  } else {
    cover.equation = worked(
        "((Kcb - 0.15)/(Kcmax - 0.15))^(1 + 0.5 h), at most 0.99 = (({} - "
        "0.15)/({} - 0.15))^(1 + 0.5 * {})",
        {stand.kcb, stand.kc_max, stand.height_m});
    cover.source = "FAO-56 Eq. 76, Kcmin 0.15; Kcb - Kcmin at least 0.01";
  }
  lines.push_back(std::move(cover));
}

/// What the table's row says of its numbers; empty for a soil of the owner's own.
std::string soil_row_source(const FieldConfig& config) {
  const auto* named = std::get_if<SoilByClass>(&config.soil);
  const SoilRow* row = named != nullptr ? reference_tables().soil(named->name) : nullptr;
  return row != nullptr ? named->name + ": " + row->source : "";
}

std::string root_source(const ExplainedDay& day, const model::CropCourse& course) {
  if (!course.lasts_all_year())
    return worked("FAO-56 Eq. 8-1: from {} to {} mm as Kcb grows to mid-season",
                  {course.root_min_mm, course.root_max_mm});
  const CropRow* row = reference_tables().crop(course.name);
  if (row != nullptr && row->kind == CropKind::bare) return "under bare ground: " + row->source;
  return crop_number_source(day, &CropRow::root_depth_mm, course.root_max_mm);
}

void say_roots(const ExplainedDay& day, const Standing& standing, Lines& lines) {
  const model::StandDay& stand = day.day.stand;
  lines.push_back({.key = "root_depth_mm",
                   .name = "root depth Zr",
                   .value = stand.root_depth_mm,
                   .source = root_source(day, standing.course),
                   .note = "at most the depth of the soil"});
  std::string sum;
  for (int l = 0; l < day.field.parameters.soil.layers; ++l)
    sum += (l == 0 ? "" : " + ") + worked("{}", {stand.rooted_available_mm[l]});
  lines.push_back({.key = "taw_mm",
                   .name = "available water TAW",
                   .value = stand.total_available_mm,
                   .equation = "sum over layers of 1000 (FC - WP) * rooted thickness in m = " + sum,
                   .source = "FAO-56 Eq. 82; FC and WP: " + soil_source(day.config),
                   .note = soil_row_source(day.config)});
}

}  // namespace

std::string crop_source(const ExplainedDay& day) {
  if (std::holds_alternative<CropByNumbers>(day.config.crop))
    return "configuration, the field's crop by numbers";
  return "crops.toml, '" + day.field.crops.on(day.day.date).course.name + "'";
}

std::string crop_number_source(const ExplainedDay& day, double CropRow::*member, double used) {
  const CropRow* row = reference_tables().crop(day.field.crops.on(day.day.date).course.name);
  if (row != nullptr && member == &CropRow::kcb_mid && row->uncut_kcb == used)
    return crop_source(day) + ", grown where it is cut";
  const bool is_own = row != nullptr && row->*member != used;
  return is_own ? "configuration, the field's own number for its crop" : crop_source(day);
}

std::string soil_source(const FieldConfig& config) {
  const SoilOwn& own =
      std::visit([](const auto& soil) -> const SoilOwn& { return soil.own; }, config.soil);
  const bool has_own = own.field_capacity || own.wilting_point || own.saturation || own.retention_b;
  const std::string but = has_own ? ", but for the field's own numbers in the configuration" : "";
  if (const auto* named = std::get_if<SoilByClass>(&config.soil))
    return "soils.toml, '" + named->name + "'" + but;
  if (std::holds_alternative<SoilByTexture>(config.soil))
    return "the configured texture by Saxton and Rawls (2006), Soil Sci. Soc. Am. J. 70:1569-1578, "
           "with the class's available water" +
           but;
  return "configuration, the field's soil by numbers" + but;
}

ExplanationSection stand_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "What stands on the field", .lines = {}};
  const Standing standing = day.field.crops.on(day.day.date);
  say_crop(day, standing, out.lines);
  if (const CropRow* row = reference_tables().crop(standing.course.name))
    out.lines.front().note = row->source;
  say_kcb(day, standing, out.lines);
  say_canopy(day, standing, out.lines);
  say_roots(day, standing, out.lines);
  return out;
}

}  // namespace gley::daemon
