#include "daemon/alerts/alert_book.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;
using Ids = std::vector<std::string>;
using Set = std::set<std::string>;
const AlertBook::Topic wet{AlertEvent::at_field_capacity};
const Instant start = sys_days(2024y / 11 / 3) + 7h + 5min;

bool changes_nothing(const AlertBook::Changes& changes) {
  return changes.begun.empty() && changes.changed.empty() && changes.ended.empty();
}

TEST_CASE("an alert begins once for all fields and is not repeated") {
  AlertBook book;
  const auto first = book.look(wet, {"top", "low"}, start);
  REQUIRE(first.begun.size() == 1);
  CHECK(first.begun.front() == "at-field-capacity-2024-11-03t0705z");
  for (const minutes after : {1min, 60min, 3000min})
    CHECK(changes_nothing(book.look(wet, {"low", "top"}, start + after)));
  REQUIRE(book.open().size() == 1);
  CHECK(book.open().front().members == Ids{"low", "top"});
  CHECK(book.open().front().onset == start);
}

TEST_CASE("a field joins within a day, later it begins an alert of its own") {
  AlertBook book;
  const std::string id = book.look(wet, {"top"}, start).begun.front();
  const auto joined = book.look(wet, {"top", "low"}, start + 23h + 59min);
  CHECK(joined.begun == Ids{});
  CHECK(joined.changed == Ids{id});
  CHECK(book.find_open(id)->members == Ids{"top", "low"});
  const auto late = book.look(wet, {"top", "low", "hill"}, start + 24h);
  REQUIRE(late.begun.size() == 1);
  CHECK(book.find_open(late.begun.front())->members == Ids{"hill"});
  CHECK(book.find_open(id)->members == Ids{"top", "low"});
}

TEST_CASE("an alert ends when it holds for none of its fields") {
  AlertBook book;
  const std::string id = book.look(wet, {"top", "low"}, start).begun.front();
  const auto left = book.look(wet, {"low"}, start + 1h);
  CHECK(left.changed == Ids{id});
  CHECK(book.find_open(id)->active == Set{"low"});
  CHECK(book.find_open(id)->members == Ids{"low", "top"});
  const auto ended = book.look(wet, {}, start + 2h);
  CHECK(ended.ended == Ids{id});
  CHECK(ended.changed == Ids{});
  CHECK(book.open().empty());
  const auto all = book.take_ended();
  REQUIRE(all.size() == 1);
  CHECK(all.front().ended == start + 2h);
  CHECK(book.take_ended().empty());
  CHECK(changes_nothing(book.look(wet, {}, start + 3h)));
}

TEST_CASE("a field that comes back within the day joins again and stands once among the members") {
  AlertBook book;
  const std::string id = book.look(wet, {"top", "low"}, start).begun.front();
  book.look(wet, {"low"}, start + 1h);
  CHECK(book.look(wet, {"top", "low"}, start + 2h).changed == Ids{id});
  CHECK(book.find_open(id)->members == Ids{"low", "top"});
}

TEST_CASE("one event's fields say nothing of another's") {
  AlertBook book;
  book.look(wet, {"top"}, start);
  const auto other = book.look({AlertEvent::waterlogged}, {"top"}, start);
  CHECK(other.begun.size() == 1);
  CHECK(book.look({AlertEvent::waterlogged}, {}, start + 1h).ended == other.begun);
  CHECK(book.open().size() == 1);
}

TEST_CASE("an alert that ends and begins again within a minute has another id") {
  AlertBook book;
  const std::string first = book.look(wet, {"top"}, start).begun.front();
  book.look(wet, {}, start + 1s);
  (void)book.take_ended();
  const std::string second = book.look(wet, {"top"}, start + 2s).begun.front();
  CHECK(second != first);
}

TEST_CASE("alerts taken up from another run go on and end") {
  AlertBook before;
  const std::string id = before.look(wet, {"top"}, start).begun.front();
  AlertBook book;
  book.restore(before.open());
  CHECK(changes_nothing(book.look(wet, {"top"}, start + 1h)));
  CHECK(book.look(wet, {}, start + 2h).ended == Ids{id});
}

TEST_CASE("an id that another run gave in this minute is not given again") {
  AlertBook before;
  const std::string id = before.look(wet, {"top"}, start).begun.front();
  AlertBook book({.is_taken = [&](const std::string& asked) { return asked == id; }});
  CHECK(book.look(wet, {"low"}, start + 10s).begun.front() == id + "-2");
}

TEST_CASE("what comes and goes within its lingering time is one alert") {
  AlertBook book;
  constexpr AlertEvent runoff = AlertEvent::runoff_likely;
  const auto lingers = words_of(runoff).lingers;
  REQUIRE(lingers > 4h);
  const std::string id = book.look({runoff}, {"top"}, start).begun.front();
  CHECK(changes_nothing(book.look({runoff}, {}, start + 1h)));
  CHECK(changes_nothing(book.look({runoff}, {"top"}, start + 2h)));
  CHECK(changes_nothing(book.look({runoff}, {}, start + 3h)));
  CHECK(changes_nothing(book.look({runoff}, {}, start + 3h + lingers - 1min)));
  CHECK(book.look({runoff}, {}, start + 3h + lingers).ended == Ids{id});
}

TEST_CASE("windows of two machines are two alerts") {
  AlertBook book;
  const AlertBook::Topic drill{AlertEvent::window_opening, "drill"};
  const AlertBook::Topic quad{AlertEvent::window_opening, "quad"};
  CHECK(book.look(drill, {"top"}, start).begun == Ids{"window-opening-drill-2024-11-03t0705z"});
  CHECK(book.look(quad, {"top"}, start).begun == Ids{"window-opening-quad-2024-11-03t0705z"});
  CHECK(book.names(drill, "top"));
  CHECK_FALSE(book.names(drill, "low"));
}

}  // namespace
}  // namespace gley::daemon
