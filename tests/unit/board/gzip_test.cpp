#include "daemon/board/http/gzip.hpp"

#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <fstream>

#include "daemon/board/http/http_policy.hpp"
#include "tests/scratch_directory.hpp"

namespace gley::daemon {
namespace {

/// Unpacked by Debian's own gzip.
std::string unpacked(const std::string& packed) {
  const tests::ScratchDirectory scratch;
  const auto file = scratch / "text.gz";
  std::ofstream(file, std::ios::binary) << packed;
  FILE* pipe = ::popen(("gzip -dc '" + file.string() + "'").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 4096> some{};
  for (std::size_t n = 0; (n = std::fread(some.data(), 1, some.size(), pipe)) > 0;)
    text.append(some.data(), n);
  REQUIRE(::pclose(pipe) == 0);
  return text;
}

std::string long_text() {
  std::string text;
  for (int i = 0; i < 500; ++i) text += "field " + std::to_string(i) + " carries the tractor\n";
  return text;
}

Response finished(std::string body, const Request& request) {
  Response response;
  response.body = std::move(body);
  finish(request, response);
  return response;
}

}  // namespace

TEST_CASE("what is compressed comes out as it was") {
  for (const std::string& text : {std::string(), std::string("a"), long_text()})
    CHECK(unpacked(gzip(text)) == text);
}

TEST_CASE("a long text goes compressed to those that take it so, and under the same tag") {
  Shortener shortener;
  Request request;
  request.accept_encoding = "gzip, deflate, br";
  Response response = finished(long_text(), request);
  shortener.shorten(request, response);
  CHECK(header(response, "Content-Encoding") == "gzip");
  CHECK(header(response, "Vary") == "Accept-Encoding");
  CHECK(response.body.size() < long_text().size() / 4);
  CHECK(unpacked(response.body) == long_text());
  CHECK(header(response, "ETag") == entity_tag(long_text()));

  Response again = finished(long_text(), request);
  shortener.shorten(request, again);
  CHECK(again.body == response.body);
}

TEST_CASE("others, short texts and what is no text go as they are") {
  Shortener shortener;
  for (const char* accepted : {"", "deflate", "gzip;q=0", "br;q=1.0, gzip;q=0.0"}) {
    INFO(accepted);
    Request request;
    request.accept_encoding = accepted;
    Response response = finished(long_text(), request);
    shortener.shorten(request, response);
    CHECK(response.body == long_text());
    CHECK(header(response, "Content-Encoding").empty());
    CHECK(header(response, "Vary") == "Accept-Encoding");
  }
  Request request;
  request.accept_encoding = "gzip";
  Response small = finished("the ground", request);
  shortener.shorten(request, small);
  CHECK(small.body == "the ground");
  Response picture = finished(long_text(), request);
  picture.content_type = "image/png";
  shortener.shorten(request, picture);
  CHECK(picture.body == long_text());
}

TEST_CASE("of two texts in turn each comes out as its own, however many there were between") {
  Shortener shortener;
  Request request;
  request.accept_encoding = "gzip";
  for (int i = 0; i < 30; ++i) {
    const std::string text = long_text() + std::to_string(i % 12);
    Response response = finished(text, request);
    shortener.shorten(request, response);
    REQUIRE(unpacked(response.body) == text);
  }
}

}  // namespace gley::daemon
