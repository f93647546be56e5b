#include "daemon/farm/calendar_text.hpp"
#include "daemon/farm/crop_reader.hpp"
#include "daemon/farm/crop_row.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {
namespace {

using std::chrono::sys_days;

/// Stages that end later than this after harvest are a mistake; the tables' own end within a week.
constexpr std::chrono::days stages_may_pass_harvest{7};

void read_dates(const TableReader& table, const CropRow* row, CropSowing& sowing) {
  const auto sown = table.day("sown");
  const auto harvested = table.day("harvested");
  if (sown && sown->year) sowing.sown = *sown->year / sown->day;
  if (sown && !sown->year) sowing.own.sown = sown->day;
  if (harvested && harvested->year) sowing.harvested = *harvested->year / harvested->day;
  if (harvested && !harvested->year) sowing.own.harvested = harvested->day;
  if (sowing.own.sown && row != nullptr && !row->stages) {
    table.problem("sown", "is \"" + day_text(*sown) + "\" of every year; " + row->name +
                              " stays where it is sown; give the date");
  }
  if (sowing.harvested && !table.has("sown")) {
    table.problem("harvested",
                  "stands without sown; give both dates, or neither for a crop sown "
                  "every year on its usual day");
  }
  if (sowing.harvested && sowing.own.sown) {
    table.problem("harvested", "is " + day_text(*harvested) + " and sown \"" + day_text(*sown) +
                                   "\" of every year; give both with their year, or neither");
  }
  if (!sowing.sown) return;
  if (!sowing.harvested && row != nullptr)
    sowing.harvested = usual_harvest(row_with(*row, sowing.own), *sowing.sown);
  if (sowing.harvested && *sowing.harvested <= *sowing.sown) {
    table.problem("harvested", "is " + date_text(*sowing.harvested) + " and sown " +
                                   date_text(*sowing.sown) + "; harvest must be the later");
  }
}

/// When the crop stands: by its dates, or in a year of its usual ones.
std::optional<CropSpan> span_of(const CropSowing& sowing, const CropRow& row) {
  if (sowing.sown) {
    if (!sowing.harvested || *sowing.harvested <= *sowing.sown) return std::nullopt;
    return CropSpan{.sown = *sowing.sown, .harvested = *sowing.harvested};
  }
  const auto season = usual_season(row);
  if (!season || !row.sown) return std::nullopt;
  const sys_days sown = model::day_in_year(std::chrono::year{2001}, *row.sown);
  return CropSpan{.sown = sown, .harvested = sown + *season};
}

void check_stage_days(const TableReader& table, const StageDays& stages, const CropSpan& span) {
  const std::chrono::days season = span.harvested - span.sown;
  const std::chrono::days staged{stages.total()};
  if (staged <= season + stages_may_pass_harvest) return;
  table.problem("stage_days", "are " + std::to_string(staged.count()) +
                                  " days together and from sowing to harvest are " +
                                  std::to_string(season.count()) +
                                  "; shorten the stages or correct the dates");
}

/// Stages follow one another from sowing to harvest; a day without a year shows as in the season.
void check_stage_dates(const TableReader& table, const CropOwn& own, const CropSpan& span) {
  const auto starts = stage_starts(own.stage_dates, span.sown);
  sys_days before = span.sown;
  std::string what = "sowing on ";
  for (const sys_days start : starts) {
    if (start <= before) {
      table.problem("stage_dates", "hold " + date_text(start) + " after " + what +
                                       date_text(before) + "; each must be the later");
      return;
    }
    before = start;
    what.clear();
  }
  if (before < span.harvested) return;
  table.problem("stage_dates", "hold " + date_text(before) + " and harvest is " +
                                   date_text(span.harvested) + "; harvest must be the later");
}

void check_roots(const TableReader& table, const CropRow& row, const CropOwn& own,
                 const std::optional<double>& soil_depth_mm) {
  if (own.root_depth_mm && soil_depth_mm && *own.root_depth_mm > *soil_depth_mm) {
    table.problem("root_depth_mm", "is " + number_text(*own.root_depth_mm) + " and soil_depth_mm " +
                                       number_text(*soil_depth_mm) +
                                       "; it must not be below the soil");
  }
  if (!own.root_depth_min_mm || *own.root_depth_min_mm <= row.root_depth_mm) return;
  table.problem("root_depth_min_mm",
                "is " + number_text(*own.root_depth_min_mm) + " and root_depth_mm" +
                    (own.root_depth_mm ? " " : " of " + row.name + " ") +
                    number_text(row.root_depth_mm) + "; it must not be the deeper");
}

void check_dated_cuts(const TableReader& table, const CropSowing& sowing) {
  for (const model::CalendarDay& cut : sowing.own.cuts) {
    if (!cut.year || !sowing.sown) continue;
    const sys_days date = *cut.year / cut.day;
    const bool after = sowing.harvested && date >= sys_days{*sowing.harvested};
    if (date >= sys_days{*sowing.sown} && !after) continue;
    table.problem("cuts", "hold " + day_text(cut) + " and the sward " +
                              (after ? "ends " + date_text(*sowing.harvested)
                                     : "is sown " + date_text(*sowing.sown)) +
                              "; cut it while it stands");
  }
}

}  // namespace

CropSowing read_sowing(const TableReader& table, const NamedCrop& form) {
  CropSowing sowing;
  sowing.place = table.place();
  if (table.has("kcb")) {
    table.problem("kcb",
                  "stands at a named crop; give kcb_mid there; a crop by numbers is written crop = "
                  "{ kcb = ..., ... }");
  }
  if (std::string_view(form.name_key) != "name" && table.has("name"))
    table.problem("name", "stands in [[field.crop]]; write crop = ... there");
  const CropRow* row = nullptr;
  if (const auto name = table.text(form.name_key)) {
    sowing.crop = *name;
    row = known_row(table, form.name_key, *name, reference_tables().crops, "crop");
  } else if (!table.has(form.name_key)) {
    table.problem(form.name_key, "is missing: the name of the crop that is sown");
  }
  sowing.own = read_own(table, row);
  read_dates(table, row, sowing);
  if (row == nullptr) return sowing;
  const CropRow whole = row_with(*row, sowing.own);
  check_roots(table, whole, sowing.own, form.soil_depth_mm);
  check_dated_cuts(table, sowing);
  const auto span = row->stages ? span_of(sowing, whole) : std::nullopt;
  if (span && sowing.own.stages) check_stage_days(table, *sowing.own.stages, *span);
  if (span && !sowing.own.stage_dates.empty()) check_stage_dates(table, sowing.own, *span);
  return sowing;
}

}  // namespace gley::daemon
