#include "daemon/store/told_store.hpp"

namespace gley::daemon {

namespace {

Teller teller_of(const std::string& via, std::string name) {
  for (const ToldVia known : {ToldVia::mqtt, ToldVia::http, ToldVia::command})
    if (to_word(known) == via) return {known, std::move(name)};
  return {ToldVia::command, std::move(name)};
}

}  // namespace

ToldStore::ToldStore(Database& database)
    : put_dressing_(database.prepare(
          "INSERT INTO dressing(field, material, rate, unit, time_ms, via, told_by, told_ms)"
          " VALUES(?, ?, ?, ?, ?, ?, ?, ?)"
          " ON CONFLICT(field, material, rate, unit, time_ms) DO NOTHING")),
      put_report_(database.prepare(
          "INSERT INTO field_report(field, report, machine, time_ms, via, told_by, told_ms)"
          " VALUES(?, ?, ?, ?, ?, ?, ?) ON CONFLICT(field, report, machine, time_ms) DO NOTHING")),
      dressings_(database.prepare(
          "SELECT field, material, rate, unit, time_ms, via, told_by, told_ms FROM dressing"
          " WHERE time_ms >= ? ORDER BY time_ms, id")),
      reports_(database.prepare("SELECT field, report, machine, time_ms, via, told_by, told_ms"
                                " FROM field_report WHERE time_ms >= ? ORDER BY time_ms, id")),
      rows_(database.prepare("SELECT (SELECT ifnull(max(id), 0) FROM dressing) +"
                             " (SELECT ifnull(max(id), 0) FROM field_report)")) {}

bool ToldStore::put(const Dressing& dressing, const Teller& teller, Instant told) {
  put_dressing_.run(dressing.field, dressing.material, dressing.rate, dressing.unit, dressing.time,
                    to_word(teller.via), teller.name, told);
  return put_dressing_.changes() > 0;
}

bool ToldStore::put(const FieldReport& report, const Teller& teller, Instant told) {
  put_report_.run(report.field, to_word(report.kind), report.machine, report.time,
                  to_word(teller.via), teller.name, told);
  return put_report_.changes() > 0;
}

std::vector<KeptDressing> ToldStore::dressings_since(Instant moment) {
  std::vector<KeptDressing> found;
  dressings_.visit(
      [&](const Row& row) {
        found.push_back({.dressing = {.field = row.text(0),
                                      .material = row.text(1),
                                      .rate = row.real(2),
                                      .unit = row.text(3),
                                      .time = row.instant(4)},
                         .teller = teller_of(row.text(5), row.text(6)),
                         .told = row.instant(7)});
      },
      moment);
  return found;
}

std::vector<KeptReport> ToldStore::reports_since(Instant moment) {
  std::vector<KeptReport> found;
  reports_.visit(
      [&](const Row& row) {
        const auto kind = report_kind_from(row.text(1));
        if (!kind) return;
        found.push_back({.report = {.field = row.text(0),
                                    .kind = *kind,
                                    .machine = row.text(2),
                                    .time = row.instant(3)},
                         .teller = teller_of(row.text(4), row.text(5)),
                         .told = row.instant(6)});
      },
      moment);
  return found;
}

std::int64_t ToldStore::rows() {
  return rows_.number();
}

}  // namespace gley::daemon
