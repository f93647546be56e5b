#include "daemon/text/json_pointer.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using gley::daemon::JsonPointer;

TEST_CASE("pointers_of_rfc_6901_find_their_values") {
  // RFC 6901 Section 5.
  const auto document = nlohmann::json::parse(
      R"({"foo":["bar","baz"],"":0,"a/b":1,"c%d":2,"e^f":3,"g|h":4,"i\\j":5,"k\"l":6," ":7,"m~n":8})");
  const auto value = [&](const char* text) { return *JsonPointer::parse(text)->find(document); };
  CHECK(value("") == document);
  CHECK(value("/foo") == nlohmann::json({"bar", "baz"}));
  CHECK(value("/foo/0") == "bar");
  CHECK(value("/") == 0);
  CHECK(value("/a~1b") == 1);
  CHECK(value("/c%d") == 2);
  CHECK(value("/e^f") == 3);
  CHECK(value("/g|h") == 4);
  CHECK(value("/i\\j") == 5);
  CHECK(value("/k\"l") == 6);
  CHECK(value("/ ") == 7);
  CHECK(value("/m~0n") == 8);
}

TEST_CASE("a_pointer_to_nothing_finds_nothing") {
  const auto document = nlohmann::json::parse(R"({"foo":["bar"],"n":1})");
  for (const char* text : {"/bar", "/foo/1", "/foo/00", "/foo/-", "/foo/", "/foo/x", "/n/0",
                           "/foo/99999999999999999999"}) {
    INFO(text);
    CHECK(JsonPointer::parse(text)->find(document) == nullptr);
  }
}

TEST_CASE("text_that_is_no_pointer_is_refused") {
  for (const char* text : {"foo", "#/foo", "/a~", "/a~2b"}) {
    INFO(text);
    CHECK_FALSE(JsonPointer::parse(text).has_value());
  }
}
