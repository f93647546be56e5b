#include "daemon/board/http/http_policy.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/http/http_target.hpp"
#include "daemon/board/pages/board_assets.hpp"

namespace gley::daemon {
namespace {

Response page() {
  Response response;
  response.body = "the ground";
  return response;
}

TEST_CASE("every answer forbids what pages do not need") {
  Response response = page();
  response.status = 404;
  finish({}, response);
  CHECK(header(response, "Content-Security-Policy").starts_with("default-src 'none';"));
  CHECK(header(response, "X-Content-Type-Options") == "nosniff");
  CHECK(header(response, "Referrer-Policy") == "no-referrer");
  CHECK(header(response, "ETag").empty());
}

TEST_CASE("a client that has the text already is told so without a body") {
  Response first = page();
  finish({}, first);
  const std::string tag = header(first, "ETag");
  CHECK(tag.starts_with("W/\""));
  for (const std::string& asked : {tag, tag.substr(2), "\"other\" , " + tag, std::string("*")}) {
    INFO(asked);
    Request request;
    request.if_none_match = asked;
    Response again = page();
    finish(request, again);
    CHECK(again.status == 304);
    CHECK(again.body.empty());
    CHECK(header(again, "ETag") == tag);
  }
}

TEST_CASE("another text has another tag and is sent") {
  Request request;
  request.if_none_match = entity_tag("the ground.");
  Response response = page();
  finish(request, response);
  CHECK(response.status == 200);
  CHECK(response.body == "the ground");
}

TEST_CASE("an entity tag is the FNV-1a hash of the body") {
  // Fowler, Noll and Vo's published 64-bit vectors: "" and "foobar".
  CHECK(entity_tag("") == "W/\"cbf29ce484222325\"");
  CHECK(entity_tag("foobar") == "W/\"85944171f73967e8\"");
}

TEST_CASE("the version in an asset's address is a number and nothing else") {
  const std::string before = "board.css?v=";
  const std::string address = asset_address("board.css");
  REQUIRE(address.starts_with(before));
  CHECK(address.size() > before.size());
  CHECK(address.find_first_not_of("0123456789abcdef", before.size()) == std::string::npos);
}

TEST_CASE("a target is split and decoded") {
  const auto target = parse_target("/field/T%C3%B6p%20Field?from=2026-01-01&note=a+b%26");
  REQUIRE(target);
  CHECK(target->path == "/field/Töp Field");
  CHECK(target->query.at("from") == "2026-01-01");
  CHECK(target->query.at("note") == "a b&");
}

TEST_CASE("a path that could mean something else is not understood") {
  for (const char* target :
       {"",          "*",         "field",      "http://farm/", "/../etc/passwd", "/field/..",
        "/./",       "/%2e%2e/x", "/field/%2e", "/a%2Fb",       "/a%5Cb",         "/a\\b",
        "//",        "//farm/x",  "/a//b",      "/a%",          "/a%4",           "/a%zz",
        "/a%00",     "/a%0d%0a",  "/a%1b",      "/%ff",         "/%c0%af",        "/?a%",
        "/?a=1&a=2", "/?a=%00"}) {
    INFO(target);
    CHECK_FALSE(parse_target(target));
  }
}

TEST_CASE("an ordinary path is understood as it stands") {
  for (const char* target : {"/", "/field/", "/a.b/..c", "/a...", "/?", "/?a", "/?a=1&b="}) {
    INFO(target);
    CHECK(parse_target(target));
  }
}

}  // namespace
}  // namespace gley::daemon
