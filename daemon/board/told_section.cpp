#include "daemon/board/told_section.hpp"

#include <algorithm>

#include "daemon/board/field_parts.hpp"
#include "daemon/board/number_text.hpp"

namespace gley::daemon {

namespace {

/// The record is looked through so far back.
constexpr long longest_days_before = 30;

std::string machine_name(const FieldView& field, const std::string& id) {
  const auto own = std::find_if(field.machines.begin(), field.machines.end(),
                                [&](const MachineView& machine) { return machine.id == id; });
  return own == field.machines.end() ? id : own->name;
}

std::string before_text(long days) {
  if (days == 0) return "that day, not the day before";
  if (days >= longest_days_before) return "30 days before or longer";
  return std::to_string(days) + (days == 1 ? " day before" : " days before");
}

/// What to do where the ground was not judged as it was found.
std::string advice_on(const ReportView& report) {
  if (report.report == "left ruts" && report.judged == "carries")
    return ". The ruts were not foreseen: check the field's soil and drainage, and the machine's "
           "load and pressure";
  if (report.report == "drains running" && report.judged == "dry")
    return ". Not foreseen: check the field's soil and drainage";
  return {};
}

Html row(Instant time, const std::string& what, const std::string& by, const std::string& record,
         Instant now, const FarmClock& clock) {
  Html out;
  out.markup("<tr><th scope=\"row\">").text(clock.as_seen(time, now)).markup("</th>");
  for (const std::string* cell : {&what, &by, &record})
    out.markup("<td>").text(*cell).markup("</td>");
  return out.markup("</tr>\n");
}

struct ToldRow {
  Instant time{};
  std::string what;
  std::string by;
  std::string record;
};

std::vector<ToldRow> rows_of(const FieldView& field) {
  std::vector<ToldRow> rows;
  for (const DressingView& told : field.dressings)
    rows.push_back(
        {told.time, told.material + ", " + decimal_text(told.rate) + ' ' + told.unit, told.by, {}});
  for (const ReportView& told : field.reports) {
    std::string what = told.report;
    if (!told.machine.empty()) what += ", " + machine_name(field, told.machine);
    rows.push_back({told.time, std::move(what), told.by, judged_text(told, field)});
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const ToldRow& a, const ToldRow& b) { return a.time > b.time; });
  return rows;
}

}  // namespace

std::string judged_text(const ReportView& report, const FieldView& field) {
  if (report.judged.empty()) return "nothing: the day is not on record";
  const std::string subject =
      report.judged_machine.empty() ? "Drains" : machine_name(field, report.judged_machine);
  return subject + ": " + report.judged + " since " + short_date(report.judged_since) + ", " +
         before_text(report.judged_days_before) + advice_on(report);
}

Html told_section(const FieldView& field, Instant now, const FarmClock& clock) {
  Html out;
  if (field.dressings.empty() && field.reports.empty()) return out;
  out.markup("<section class=\"wide\"><h2>Told of this field</h2>\n<div class=\"scroll\" ");
  out.markup("tabindex=\"0\" role=\"region\" aria-label=\"Told of this field\">\n");
  out.markup(
      "<table class=\"plain days\">\n<caption>Of the last 60 days; beside each report what ");
  out.markup("the record of days says of that day's ground</caption>\n<thead><tr>");
  for (const char* name : {"When", "What", "Told by", "The record"})
    out.markup("<th scope=\"col\">").text(name).markup("</th>");
  out.markup("</tr></thead>\n<tbody>\n");
  for (const ToldRow& told : rows_of(field))
    out.part(row(told.time, told.what, told.by, told.record, now, clock));
  return out.markup("</tbody>\n</table></div></section>\n");
}

}  // namespace gley::daemon
