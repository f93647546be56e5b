#include <catch2/catch.hpp>

#include "daemon/alerts/field_moment.hpp"
#include "daemon/board/words/outlook_words.hpp"

namespace gley::daemon {
namespace {

const AlertLimits limits;

bool says(AlertEvent event, const std::string& part) {
  return std::string(words_of(event).description).find(part) != std::string::npos;
}

TEST_CASE("an alert by the forecast says from which chance on it is given") {
  const auto from = [](double chance) { return "a chance of " + odds_text(chance) + " or more"; };
  CHECK(says(AlertEvent::rain_expected, from(limits.capacity_chance)));
  CHECK(says(AlertEvent::rain_on_dressing, from(limits.heavy_rain_chance)));
  CHECK(says(AlertEvent::runoff_likely, from(limits.runoff_chance)));
  CHECK(says(AlertEvent::drains_to_start, from(limits.drains_start_chance)));
  CHECK(says(AlertEvent::frozen_ground, from(limits.frozen_chance)));
  CHECK(says(AlertEvent::drains_to_stop,
             "a chance of " + odds_text(limits.drains_stop_chance) + " or less"));
}

}  // namespace
}  // namespace gley::daemon
