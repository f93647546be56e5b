#include "daemon/farm/calendar_text.hpp"
#include "daemon/farm/config_draft.hpp"

namespace gley::daemon {

namespace {

/// "07:00-19:00"
void read_working_hours(const TableReader& table, AlertsConfig& alerts) {
  const auto written = table.text("working_hours");
  if (!written) return;
  const std::size_t dash = written->find('-');
  const auto from = parse_time_of_day(written->substr(0, dash));
  const auto to =
      dash == std::string::npos ? std::nullopt : parse_time_of_day(written->substr(dash + 1));
  if (!from || !to || *from >= *to) {
    table.problem(
        "working_hours",
        "is \"" + *written + "\"; it must be two times of one day, such as \"07:00-19:00\"");
    return;
  }
  alerts.working_from = *from;
  alerts.working_to = *to;
}

}  // namespace

void read_alerts(const TableReader& table, ConfigDraft& draft) {
  AlertsConfig& alerts = draft.farm.alerts;
  read_working_hours(table, alerts);
  for (const TextAt& machine : table.texts("machines")) {
    alerts.machines.push_back(machine.text);
    draft.machines_used.push_back(
        {.name = machine.text,
         .label = table.label() + ": machines",
         .place = {.file = table.place("machines").file, .line = machine.line}});
  }
  table.assign(alerts.closed_days, table.whole_number("closed_days"));
  table.assign(alerts.open_days, table.whole_number("open_days"));
  table.assign(alerts.notice_h, table.whole_number("notice_h"));
  table.assign(alerts.fresh_dressing_days, table.whole_number("fresh_dressing_days"));
}

}  // namespace gley::daemon
