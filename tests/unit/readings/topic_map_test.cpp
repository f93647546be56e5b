#include "daemon/readings/topic_map.hpp"

#include <catch2/catch.hpp>

#include "daemon/text/topic_filter.hpp"

using namespace gley::daemon;

namespace {

ReadingMap mapping(const char* topic) {
  ReadingMap map;
  map.topic = topic;
  return map;
}

}  // namespace

TEST_CASE("wildcards_match_as_the_standard_says") {
  // Examples of MQTT 5.0, Sections 4.7.1.2, 4.7.1.3 and 4.7.2.
  CHECK(topic_matches("sport/tennis/player1/#", "sport/tennis/player1"));
  CHECK(topic_matches("sport/tennis/player1/#", "sport/tennis/player1/ranking"));
  CHECK(topic_matches("sport/tennis/player1/#", "sport/tennis/player1/score/wimbledon"));
  CHECK(topic_matches("sport/#", "sport"));
  CHECK(topic_matches("sport/tennis/+", "sport/tennis/player1"));
  CHECK_FALSE(topic_matches("sport/tennis/+", "sport/tennis/player1/ranking"));
  CHECK_FALSE(topic_matches("sport/+", "sport"));
  CHECK(topic_matches("sport/+", "sport/"));
  CHECK(topic_matches("+/+", "/finance"));
  CHECK(topic_matches("/+", "/finance"));
  CHECK_FALSE(topic_matches("+", "/finance"));
  CHECK_FALSE(topic_matches("#", "$SYS/monitor"));
  CHECK_FALSE(topic_matches("+/monitor/Clients", "$SYS/monitor/Clients"));
  CHECK(topic_matches("$SYS/#", "$SYS/monitor"));
  CHECK_FALSE(topic_matches("a/b", "a"));
  CHECK_FALSE(topic_matches("a", "a/b"));
}

TEST_CASE("only_whole_levels_may_be_wildcards") {
  // MQTT 5.0, Sections 4.7.1.2 and 4.7.1.3.
  for (const char* good : {"#", "+", "a/#", "+/tennis/#", "a/+/b", "/", "a//b"}) {
    INFO(good);
    CHECK(valid_topic_filter(good));
  }
  for (const char* bad : {"", "sport/tennis#", "sport/#/ranking", "sport+", "a/b+/c", "##"}) {
    INFO(bad);
    CHECK_FALSE(valid_topic_filter(bad));
  }
}

TEST_CASE("filters_that_another_covers_are_not_subscribed_to") {
  CHECK(without_covered({"a/b", "a/+", "a/b", "c"}) == std::vector<std::string>{"a/+", "c"});
  CHECK(without_covered({"a/#", "a/+/c", "a"}) == std::vector<std::string>{"a/#"});
  CHECK(without_covered({"a/+", "a/#"}) == std::vector<std::string>{"a/#"});
  CHECK(without_covered({"a/+/c", "a/b/#"}).size() == 2);
}

TEST_CASE("one_topic_feeds_every_mapping_that_names_it") {
  FarmConfig farm;
  StationConfig yard;
  yard.id = "yard";
  yard.readings = {mapping("weather/yard"), mapping("weather/+")};
  yard.readings[0].value_pointer = "/rain";
  yard.readings[1].senml_name = "temp";
  StationConfig brook;
  brook.id = "brook";
  brook.readings = {mapping("weather/#"), mapping("other")};
  farm.stations = {yard, brook};
  const TopicMap map(farm);

  const auto found = map.find("weather/yard");
  REQUIRE(found.size() == 3);
  CHECK(found[0]->station == "yard");
  CHECK(found[0]->value.has_value());
  CHECK(found[1]->map.senml_name == "temp");
  CHECK(found[2]->station == "brook");
  CHECK(map.find("weather/brook").size() == 2);
  CHECK(map.find("else").empty());
  CHECK(map.filters() == std::vector<std::string>{"other", "weather/#"});
}
