#include "daemon/board/words/board_words.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/words/outlook_words.hpp"
#include "daemon/board/words/plain_words.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

const FarmClock& london() {
  static const FarmClock clock("Europe/London");
  return clock;
}

// example_time is Wednesday 25 November 2026, 06:40.
Moment with_forecast() {
  return {.clock = london(), .now = example_time, .days_ahead = 7};
}

Moment without_forecast() {
  return {.clock = london(), .now = example_time};
}

MachineView drill(const std::string& verdict) {
  return {"drill", "Drill", verdict, 0.3, {"station silent for 9 h"}, {}};
}

TEST_CASE("ages are told in the largest unit that says enough") {
  CHECK(age_text(example_time - std::chrono::seconds{40}, example_time) == "just now");
  CHECK(age_text(example_time - minutes{59}, example_time) == "59 min ago");
  CHECK(age_text(example_time - hours{47}, example_time) == "47 h ago");
  CHECK(age_text(example_time - hours{48}, example_time) == "2 days ago");
  CHECK(age_text(example_time + minutes{1}, example_time).empty());
}

TEST_CASE("water is told in whole millimetres") {
  CHECK(whole_mm_text(14.4) == "14 mm");
  CHECK(whole_mm_text(0.3) == "under 1 mm");
  CHECK(whole_mm_text(0.0) == "0 mm");
}

TEST_CASE("times to come are named by today, weekday, or date") {
  CHECK(soon_text(example_time + hours{9}, with_forecast()) == "15:40");
  CHECK(soon_text(example_time + hours{33}, with_forecast()) == "Thu 15:40");
  CHECK(soon_text(example_time + hours{24 * 8}, with_forecast()) == "Thu 3 Dec 06:40");
}

TEST_CASE("a day's start is its name, and as an end the day before it") {
  const Instant saturday = example_time - hours{6} - minutes{40} + hours{72};
  CHECK(soon_text(saturday, with_forecast()) == "Sat");
  CHECK(end_text(saturday, with_forecast()) == "the end of Fri");
  CHECK(end_text(example_time + hours{9}, with_forecast()) == "15:40");
}

TEST_CASE("a carried machine's words say until when, or how far the forecast goes") {
  MachineView machine = drill("carries");
  CHECK(job_words(machine, with_forecast()).when == "for the next 7 days");
  CHECK(job_words(machine, without_forecast()).chance == "no forecast");
  machine.until = example_time + hours{33};
  CHECK(job_words(machine, with_forecast()).when == "until Thu 15:40");
}

TEST_CASE("a closed field's words say when it opens and how sure that is") {
  MachineView machine = drill("keep off");
  CHECK(job_words(machine, with_forecast()).when == "not within 7 days");
  CHECK(job_words(machine, {.clock = london(), .now = example_time, .days_ahead = 1}).when ==
        "not today");
  CHECK(job_words(machine, without_forecast()).when == "closed");
  machine.next_window = WindowView{example_time + hours{33}, example_time + hours{50}, 0.7};
  CHECK(job_words(machine, with_forecast()).when == "opens Thu 15:40");
  CHECK(job_words(machine, with_forecast()).chance == "likely, 7 in 10");
}

// IPCC (2010), Guidance note for lead authors on uncertainties, Table 1 and its footnote.
TEST_CASE("a chance's word is that of the tenths beside it") {
  CHECK(chance_text(0.97) == "very likely, over 9 in 10");
  CHECK(chance_text(0.88) == "very likely, 9 in 10");
  CHECK(chance_text(0.66) == "likely, 7 in 10");
  CHECK(chance_text(0.6) == "more likely than not, 6 in 10");
  CHECK(chance_text(0.5) == "about as likely as not, 5 in 10");
  CHECK(chance_text(0.2) == "unlikely, 2 in 10");
  CHECK(chance_text(0.1) == "very unlikely, 1 in 10");
  CHECK(chance_text(0.03) == "very unlikely, under 1 in 10");
}

TEST_CASE("what is not known says why") {
  CHECK(job_words(drill("not known"), with_forecast()).chance == "station silent for 9 h");
}

TEST_CASE("rain ahead is a range, its worst day, and its chance") {
  BoardSnapshot board = example_board();
  CHECK(rain_ahead_text(board, without_forecast()) == "No forecast has arrived");
  board.forecast = ForecastView{};
  board.forecast->received = example_time - hours{3};
  board.forecast->days = 7;
  board.forecast->rain_48h =
      RainAheadView{example_time, example_time + hours{48}, 17.6, 31.2, 0.93};
  board.forecast->rain_days = {
      {example_time, example_time + hours{17}, 0.0, 1.0, 0.2},
      {example_time + hours{18}, example_time + hours{41}, 9.0, 28.0, 0.9}};
  CHECK(rain_ahead_text(board, with_forecast()) ==
        "Next 48 h: 18 to 31 mm, most on Thu; rain very likely, 9 in 10");
  board.forecast->received = example_time - hours{25};
  CHECK(rain_ahead_text(board, with_forecast()) == "The last forecast is too old to use");
}

TEST_CASE("a headline of many fields names two and counts the rest") {
  AlertView alert = example_alert();
  alert.field_names = {"A", "B", "C", "D"};
  alert.headline = "Waterlogged: A, B, C, D";
  CHECK(short_headline(alert) == "Waterlogged: A, B and 2 more");
  alert.field_names.pop_back();
  alert.headline = "Waterlogged: A, B, C";
  CHECK(short_headline(alert) == alert.headline);
}

}  // namespace

TEST_CASE("water over field capacity is said once: on its way, or still to go") {
  FieldView field;
  field.known = true;
  field.surplus_mm = 17.0;
  CHECK(water_text(field) == "17 mm still to drain");
  field.drains_running = true;
  CHECK(water_text(field) == "17 mm draining away");
  field.surplus_mm = 0.0;
  CHECK(water_text(field) == "draining");
}

TEST_CASE("a row names the graver of a field's flags, its page all of them") {
  FieldView field;
  field.flags = {"radiation_estimated", "frozen", "rain_missing"};
  CHECK(row_flags_text(field) == "no rain known; frozen");
  CHECK(flags_text(field) == "radiation estimated; frozen; no rain known, 0 mm taken");
  field.flags = {"wind_estimated"};
  CHECK(row_flags_text(field).empty());
}

}  // namespace gley::daemon
