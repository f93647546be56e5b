#include "daemon/engine/fields/field_history.hpp"

#include <catch2/catch.hpp>

#include "daemon/engine/fields/days_csv.hpp"
#include "tests/unit/engine/past_days.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using Days = std::vector<model::StationDay>;

/// All that a history tells of its days, as the days file writes it.
std::string told(const FieldHistory& history, const Days& days) {
  std::string text;
  if (days.empty()) return text;
  history.each(days, {days.front().date, days.back().date}, [&](const model::FieldDay& day) {
    text += days_csv_row("top", history.field(), day, 6);
  });
  return text;
}

FieldHistory fresh(const Days& days) {
  FieldHistory history(clay_field());
  if (!days.empty()) history.remake(days, days.front().date);
  return history;
}

void check_same(const FieldHistory& history, const Days& days) {
  const FieldHistory want = fresh(days);
  CHECK(told(history, days) == told(want, days));
  REQUIRE(history.last());
  CHECK(history.last()->date == days.back().date);
  CHECK(history.last()->evening == want.last()->evening);
}

TEST_CASE("a day that changes late gives what a fresh run gives, wherever it lies") {
  for (const int changed : {0, 1, 15, 16, 17, 31, 32, 100, 158, 159}) {
    INFO("day " << changed);
    Days days = past_days(160);
    FieldHistory history = fresh(days);
    const std::string before = told(history, days);
    auto& day = days[static_cast<std::size_t>(changed)];
    day.weather.rain_mm = *day.weather.rain_mm + 21.0;
    history.remake(days, day.date);
    CHECK(told(history, days) != before);
    check_same(history, days);
  }
}

TEST_CASE("days that come one by one give what all at once give") {
  const Days all = past_days(70);
  FieldHistory history(clay_field());
  for (std::size_t count = 1; count <= all.size(); ++count) {
    const Days so_far(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
    history.remake(so_far, so_far.back().date);
  }
  check_same(history, all);
}

TEST_CASE("days may be taken off again, at a mark too") {
  const Days all = past_days(70);
  for (const std::ptrdiff_t left : {1, 15, 16, 17, 32, 48, 69}) {
    INFO(left << " days left");
    FieldHistory history = fresh(all);
    const Days fewer(all.begin(), all.begin() + left);
    history.remake(fewer, fewer.back().date + days{1});
    check_same(history, fewer);
    history.remake(all, fewer.back().date + days{1});
    check_same(history, all);
  }
}

TEST_CASE("a first day that moves back starts the field there") {
  const Days all = past_days(70);
  const Days later(all.begin() + 33, all.end());
  FieldHistory history = fresh(later);
  history.remake(all, all.front().date);
  check_same(history, all);
}

TEST_CASE("without days nothing is known, and a first day may be tried") {
  FieldHistory history = fresh(past_days(20));
  history.remake({}, first_past_day);
  CHECK_FALSE(history.last());
  CHECK(history.tentative(past_days(1).front()).date == first_past_day);
}

TEST_CASE("a day that is tried is not kept") {
  const Days all = past_days(41);
  const Days known(all.begin(), all.begin() + 40);
  FieldHistory history = fresh(known);
  const model::FieldDay tried = history.tentative(all.back());
  CHECK(tried.evening == fresh(all).last()->evening);
  check_same(history, known);
}

TEST_CASE("any span of days can be told") {
  const Days all = past_days(70);
  const FieldHistory history = fresh(all);
  std::vector<sys_days> dates;
  const auto take = [&](const model::FieldDay& day) { dates.push_back(day.date); };
  history.each(all, {all[20].date, all[22].date}, take);
  CHECK(dates == std::vector<sys_days>{all[20].date, all[21].date, all[22].date});
  dates.clear();
  history.each(all, {first_past_day - days{9}, first_past_day}, take);
  CHECK(dates == std::vector<sys_days>{first_past_day});
  dates.clear();
  history.each(all, {all.back().date + days{1}, all.back().date + days{9}}, take);
  history.each(all, {first_past_day - days{9}, first_past_day - days{1}}, take);
  history.each(all, {all[22].date, all[20].date}, take);
  CHECK(dates.empty());
}

}  // namespace
}  // namespace gley::daemon
