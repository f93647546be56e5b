#include "daemon/store/forecast_day_store.hpp"

#include <sqlite3.h>

#include "daemon/readings/date_text.hpp"
#include "daemon/readings/number_text.hpp"
#include "daemon/store/store_error.hpp"

namespace gley::daemon {

namespace {

std::string joined(const std::vector<double>& numbers) {
  std::string text;
  for (const double number : numbers) text += (text.empty() ? "" : " ") + number_text(number);
  return text;
}

/// Numbers of a row; one that cannot be read makes the row corrupt.
class Reader {
 public:
  explicit Reader(const Database& database) : database_(database) {}

  [[nodiscard]] ForecastDay day(const Row& row) const {
    return {.issued = date(row.text(0)),
            .date = date(row.text(1)),
            .members = row.integer(2),
            .rain_mm = row.real(3),
            .tmean_c = row.optional_real(4),
            .rain_members_mm = numbers(row.text(5))};
  }

 private:
  [[nodiscard]] std::chrono::sys_days date(const std::string& text) const {
    const auto read = date_from(text);
    if (!read) fail(text);
    return *read;
  }
  [[nodiscard]] std::vector<double> numbers(const std::string& text) const {
    std::vector<double> out;
    std::size_t start = 0;
    while (start < text.size()) {
      const std::size_t end = std::min(text.find(' ', start), text.size());
      const auto number = number_from(std::string_view(text).substr(start, end - start));
      if (!number) fail(text);
      out.push_back(*number);
      start = end + 1;
    }
    return out;
  }
  [[noreturn]] void fail(const std::string& text) const {
    throw StoreError(database_.file() + ": a forecast's day holds '" + text + "'", SQLITE_CORRUPT);
  }

  const Database& database_;
};

}  // namespace

ForecastDayStore::ForecastDayStore(Database& database)
    : database_(database),
      put_(database.prepare("INSERT INTO forecast_day(issued, date, members, rain_mm, tmean_c,"
                            " rain_members) VALUES(?, ?, ?, ?, ?, ?)"
                            " ON CONFLICT(issued, date) DO NOTHING")),
      since_(database.prepare("SELECT issued, date, members, rain_mm, tmean_c, rain_members"
                              " FROM forecast_day WHERE date >= ? ORDER BY issued, date")) {}

void ForecastDayStore::put(const std::vector<ForecastDay>& days) {
  Transaction transaction(database_);
  for (const ForecastDay& day : days)
    put_.run(date_text(day.issued), date_text(day.date), day.members, day.rain_mm, day.tmean_c,
             joined(day.rain_members_mm));
  transaction.commit();
}

std::vector<ForecastDay> ForecastDayStore::since(std::chrono::sys_days date) {
  std::vector<ForecastDay> days;
  const Reader reader(database_);
  since_.visit([&](const Row& row) { days.push_back(reader.day(row)); }, date_text(date));
  return days;
}

}  // namespace gley::daemon
