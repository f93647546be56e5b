#include "daemon/store/forecast_day_store.hpp"

#include <sqlite3.h>

#include <algorithm>

#include "daemon/store/store_error.hpp"
#include "daemon/text/number_text.hpp"
#include "model/outlook/spread.hpp"

namespace gley::daemon {

namespace {

std::string joined(const std::vector<double>& numbers) {
  std::string text;
  for (const double number : numbers) text += (text.empty() ? "" : " ") + number_text(number);
  return text;
}

std::vector<double> numbers(const std::string& text) {
  std::vector<double> out;
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    const auto number = number_from(std::string_view(text).substr(start, end - start));
    if (!number) throw StoreError("a forecast's day holds '" + text + "'", SQLITE_CORRUPT);
    out.push_back(*number);
    start = end + 1;
  }
  return out;
}

ForecastDay day_of(const Row& row) {
  return {.issued = row.date(0),
          .date = row.date(1),
          .members = row.integer(2),
          .rain_mm = row.real(3),
          .tmean_c = row.optional_real(4),
          .rain_members_mm = numbers(row.text(5))};
}

}  // namespace

ForecastDayStore::ForecastDayStore(Database& database)
    : database_(database),
      put_(database.prepare("INSERT INTO forecast_day(issued, date, members, rain_mm, tmean_c,"
                            " rain_members) VALUES(?, ?, ?, ?, ?, ?)"
                            " ON CONFLICT(issued, date) DO NOTHING")),
      since_(database.prepare("SELECT issued, date, members, rain_mm, tmean_c, rain_members"
                              " FROM forecast_day WHERE date >= ? ORDER BY issued, date")),
      day_before_(
          database.prepare("SELECT date, rain_members FROM forecast_day"
                           " WHERE issued = date(date, '-1 day') AND date < ? ORDER BY date")) {}

void ForecastDayStore::put(const std::vector<ForecastDay>& days) {
  Transaction transaction(database_);
  for (const ForecastDay& day : days)
    put_.run(day.issued, day.date, day.members, day.rain_mm, day.tmean_c,
             joined(day.rain_members_mm));
  transaction.commit();
}

std::vector<ForecastDay> ForecastDayStore::since(std::chrono::sys_days date) {
  std::vector<ForecastDay> days;
  since_.visit([&](const Row& row) { days.push_back(day_of(row)); }, date);
  return days;
}

std::map<std::chrono::sys_days, double> ForecastDayStore::rain_foreseen(
    std::chrono::sys_days before) {
  std::map<std::chrono::sys_days, double> rain_mm;
  day_before_.visit(
      [&](const Row& row) {
        std::vector<double> members = numbers(row.text(1));
        if (members.empty()) return;
        rain_mm[row.date(0)] = model::spread_of(std::move(members)).middle;
      },
      before);
  return rain_mm;
}

}  // namespace gley::daemon
