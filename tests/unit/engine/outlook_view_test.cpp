#include "daemon/engine/view/outlook_view.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;

const Instant midnight{sys_days{2026y / 5 / 13}};
const Instant six = midnight + 6h;

/// One machine under an outlook whose today ends at midnight, at six in the morning.
MachineView shown(const std::string& verdict, const std::vector<TimeWindow>& windows,
                  Instant today_closes = midnight + 24h) {
  FarmOutlook outlook;
  outlook.today_closes = today_closes;
  outlook.today_ends = midnight + 24h;
  outlook.fields.emplace_back(FieldDaysAhead{});
  outlook.fields.front()->machines = {windows};
  FieldView field;
  field.machines.emplace_back().verdict = verdict;
  show_outlook(field, outlook, 0, six);
  return field.machines.front();
}

const TimeWindow all_days{midnight, midnight + 168h, 0.9, true};
const TimeWindow two_days{midnight, midnight + 55h, 0.8};
const TimeWindow from_third{midnight + 48h, midnight + 168h, 0.7, true};

}  // namespace

TEST_CASE("what is carried as far as the forecast goes has no end") {
  CHECK(shown("carries", {all_days}).until == std::nullopt);
}

TEST_CASE("what is carried for some days has their end") {
  CHECK(shown("carries", {two_days}).until == midnight + 55h);
}

TEST_CASE("what the evening probably closes is carried until then") {
  const MachineView machine = shown("carries", {from_third}, midnight + 15h);
  CHECK(machine.until == midnight + 15h);
  REQUIRE(machine.next_window);
  CHECK(machine.next_window->from == midnight + 48h);
}

TEST_CASE("what rain should have closed and has not is never carried for all days") {
  CHECK(shown("carries", {from_third}, six).until == midnight + 24h);
  CHECK(shown("carries", {}, midnight + 2h).until == midnight + 24h);
}

TEST_CASE("what is closed opens with tomorrow at the earliest") {
  const MachineView machine = shown("keep off", {two_days});
  CHECK(machine.until == std::nullopt);
  REQUIRE(machine.next_window);
  CHECK(machine.next_window->from == midnight + 24h);
  CHECK(shown("not known", {two_days}).next_window == std::nullopt);
}

}  // namespace gley::daemon
