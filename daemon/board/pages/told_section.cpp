#include "daemon/board/pages/told_section.hpp"

#include <algorithm>

#include "daemon/board/pages/table_parts.hpp"
#include "daemon/board/words/figure_text.hpp"

namespace gley::daemon {

namespace {

std::string before_text(long days) {
  if (days == 0) return "the same day";
  return std::to_string(days) + (days == 1 ? " day before" : " days before");
}

/// What to do where the ground was not judged as it was found.
std::string advice_on(const ReportView& report) {
  if (report.report == "left ruts" && report.check->said == "carries")
    return ". The ruts were not foreseen: check the field's soil and drainage, and the machine's "
           "load and pressure";
  if (report.report == "drains running" && report.check->said == "dry")
    return ". Not foreseen: check the field's soil and drainage";
  return {};
}

struct ToldRow {
  Instant time{};
  std::string what;
  std::string by;
  std::string record;
};

Html row(const ToldRow& told, Instant now, const FarmClock& clock) {
  Html out;
  out.markup("<tr><th scope=\"row\">").text(clock.as_seen(told.time, now)).markup("</th>");
  out.part(table_cell(told.what)).part(table_cell(told.by)).part(table_cell(told.record));
  return out.markup("</tr>\n");
}

std::vector<ToldRow> rows_of(const FieldView& field) {
  std::vector<ToldRow> rows;
  for (const DressingView& told : field.dressings)
    rows.push_back(
        {told.time,
         name_of(field.spreading, told.material) + ", " + decimal_text(told.rate) + ' ' + told.unit,
         told.by,
         {}});
  for (const ReportView& told : field.reports) {
    std::string what = told.report;
    if (!told.machine.empty()) what += ", " + name_of(field.machines, told.machine);
    rows.push_back({told.time, std::move(what), told.by, judged_text(told, field)});
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const ToldRow& a, const ToldRow& b) { return a.time > b.time; });
  return rows;
}

Html table(const FieldView& field, Instant now, const FarmClock& clock) {
  Html out;
  out.markup("<table class=\"plain days\">\n<caption>Of the last 60 days; beside each report ");
  out.markup("what the record of days says of that day's ground</caption>\n");
  out.part(table_head({"When", "What", "Told by", "The record"})).markup("<tbody>\n");
  for (const ToldRow& told : rows_of(field)) out.part(row(told, now, clock));
  return out.markup("</tbody>\n</table>");
}

}  // namespace

std::string judged_text(const ReportView& report, const FieldView& field) {
  if (!report.check) return "nothing: the day is not on record";
  const ReportCheck& check = *report.check;
  const std::string subject =
      check.machine.empty() ? "Drains" : name_of(field.machines, check.machine);
  return subject + ": " + check.said + " since " + short_date(check.since) +
         (check.or_earlier ? " or earlier, " : ", ") + before_text(check.days_before) +
         advice_on(report);
}

Html told_section(const FieldView& field, Instant now, const FarmClock& clock) {
  Html out;
  if (field.dressings.empty() && field.reports.empty()) return out;
  out.markup("<section class=\"wide\"><h2>Told of this field</h2>\n");
  return out.part(scroll_box("Told of this field", table(field, now, clock)))
      .markup("</section>\n");
}

}  // namespace gley::daemon
