#include "daemon/board/http/write_guard.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/write_routes.hpp"

namespace gley::daemon {
namespace {

constexpr const char* token = "let-me-in";

Request good_write() {
  Request request;
  request.method = "POST";
  request.path = "/api/field/top/dressing";
  request.host = "farm.example:8080";
  request.authorization = "Bearer let-me-in";
  request.content_type = "application/json; charset=utf-8";
  request.body = "{}";
  return request;
}

int status_of(const Request& request, const char* wanted = token) {
  const auto refusal = refuse_write(request, wanted);
  return refusal ? refusal->status : 0;
}

}  // namespace

TEST_CASE("a write with the token is let in, from a program and from our own page") {
  Request request = good_write();
  CHECK(status_of(request) == 0);
  request.authorization = "bearer let-me-in";
  CHECK(status_of(request) == 0);
  for (const char* origin : {"http://farm.example:8080", "https://FARM.example:8080"}) {
    request.origin = origin;
    request.fetch_site = "same-origin";
    CHECK(status_of(request) == 0);
  }
}

TEST_CASE("without a token file nothing is taken, whatever is brought") {
  CHECK(status_of(good_write(), "") == 403);
  CHECK(refuse_write(good_write(), "")->body.find("token_file") != std::string::npos);
}

TEST_CASE("a wrong or missing token is refused before the address is looked at") {
  for (const char* given :
       {"", "Bearer", "Bearer ", "Bearer let-me-i", "Bearer let-me-inn", "Bearer LET-ME-IN",
        "Basic let-me-in", "let-me-in", "Bearer let-me-inlet-me-in"}) {
    INFO(given);
    Request request = good_write();
    request.authorization = given;
    request.path = "/nothing/here";
    CHECK(status_of(request) == 401);
  }
}

TEST_CASE("a page of another origin is refused though it has the token") {
  for (const char* origin : {"https://evil.example", "null", "http://farm.example",
                             "http://farm.example:8080.evil.example", "file://"}) {
    INFO(origin);
    Request request = good_write();
    request.origin = origin;
    CHECK(status_of(request) == 403);
  }
  for (const char* site : {"cross-site", "same-site", "anything"}) {
    INFO(site);
    Request request = good_write();
    request.fetch_site = site;
    CHECK(status_of(request) == 403);
  }
}

TEST_CASE("a write must be JSON and short") {
  Request request = good_write();
  request.body = std::string(4097, ' ');
  CHECK(status_of(request) == 413);
  request = good_write();
  for (const char* type : {"", "text/plain", "application/x-www-form-urlencoded",
                           "multipart/form-data", "application/jsonp"}) {
    INFO(type);
    request.content_type = type;
    CHECK(status_of(request) == 415);
  }
}

TEST_CASE("secrets are the same only as a whole") {
  CHECK(same_secret("abc", "abc"));
  for (const char* given : {"", "ab", "abcd", "abd", "abcabc"})
    CHECK_FALSE(same_secret(given, "abc"));
  CHECK_FALSE(same_secret("", ""));
}

TEST_CASE("a write finds its address, and another method is told what is allowed") {
  std::string got;
  const auto note = [&](const std::string& what) {
    return [&got, what](const std::string& id, const std::string& body) {
      got = what + " " + id + " " + body;
      Response response;
      response.status = 201;
      return response;
    };
  };
  const Writes writes{note("dressing"), note("report"), note("seen")};
  Request request = good_write();
  CHECK(respond_to_write(request, writes).status == 201);
  CHECK(got == "dressing top {}");
  request.path = "/api/alert/waterlogged-2026-03-20t0930z/seen";
  CHECK(respond_to_write(request, writes).status == 201);
  CHECK(got == "seen waterlogged-2026-03-20t0930z {}");
  request.method = "DELETE";
  CHECK(respond_to_write(request, writes).headers.front().second == "POST");
  request.path = "/api/field//report";
  const Response response = respond_to_write(request, writes);
  CHECK(response.status == 405);
  CHECK(response.headers.front().second == "GET, HEAD");
}

}  // namespace gley::daemon
