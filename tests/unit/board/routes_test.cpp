#include "daemon/board/routes.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/http/http_policy.hpp"
#include "daemon/board/pages/board_assets.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

std::optional<std::string> one_day(const std::string& id, const DayRange&) {
  return id == "top" ? std::optional<std::string>("date,field\n2026-11-25,top\n") : std::nullopt;
}

Response get(const std::string& path, const BoardSnapshot& board = example_board(),
             std::map<std::string, std::string> query = {}) {
  Request request;
  request.path = path;
  request.query = std::move(query);
  return respond(request, board, {one_day});
}

TEST_CASE("every route answers with its own type") {
  const std::vector<std::pair<std::string, std::string>> routes{
      {"/", "text/html; charset=utf-8"},
      {"/field/top", "text/html; charset=utf-8"},
      {"/api/board", "application/json"},
      {"/api/field/top", "application/json"},
      {"/api/field/top/days.csv", "text/csv; charset=utf-8; header=present"},
      {"/events", "text/event-stream"},
      {"/metrics", "text/plain; version=0.0.4; charset=utf-8"},
      {"/healthz", "application/json"},
      {"/board.css", "text/css; charset=utf-8"},
      {"/board.js", "text/javascript; charset=utf-8"},
      {"/favicon.ico", "image/svg+xml"},
      {"/field.css", "text/css; charset=utf-8"},
      {"/field.js", "text/javascript; charset=utf-8"},
      {"/seen.js", "text/javascript; charset=utf-8"},
      {"/chart.js", "text/javascript; charset=utf-8"},
  };
  for (const auto& [path, type] : routes) {
    INFO(path);
    const Response response = get(path);
    CHECK(response.status == 200);
    CHECK(response.content_type == type);
    CHECK(response.event_stream == (path == "/events"));
    CHECK(response.body.empty() == response.event_stream);
  }
}

TEST_CASE("an asset asked for by its version may be kept for good, any other is asked for again") {
  const std::string address = asset_address("chart.js");
  const std::string version = address.substr(address.find('=') + 1);
  CHECK(address.starts_with("chart.js?v="));
  Response known = get("/chart.js", example_board(), {{"v", version}});
  Response other = get("/chart.js", example_board(), {{"v", "1"}});
  finish({}, known);
  finish({}, other);
  CHECK(header(known, "Cache-Control") == "public, max-age=31536000, immutable");
  CHECK(header(other, "Cache-Control") == "no-cache");
}

TEST_CASE("what is not there is 404, with a way back to the board") {
  for (const char* path :
       {"/nothing", "/field/", "/field/other", "/field/top/more", "/board.css/", "/api/field/other",
        "/api/field/other/days.csv", "/api/field//days.csv", "/days.csv"}) {
    INFO(path);
    CHECK(get(path).status == 404);
  }
  CHECK(get("/a/b/c").body.find("href=\"../../board.css\"") != std::string::npos);
  CHECK(get("/nothing").body.find("href=\"./\"") != std::string::npos);
}

TEST_CASE("a page can only be read") {
  Request request;
  request.method = "POST";
  const Response response = respond(request, example_board(), {one_day});
  CHECK(response.status == 405);
  CHECK(response.headers.front() == std::pair<std::string, std::string>("Allow", "GET, HEAD"));
  request.method = "HEAD";
  CHECK(respond(request, example_board(), {one_day}).status == 200);
}

TEST_CASE("links are relative, so that a proxy may serve the board under any name") {
  CHECK(get("/").body.find("href=\"/") == std::string::npos);
  CHECK(get("/").body.find("href=\"field/top\"") != std::string::npos);
  CHECK(get("/field/top").body.find("href=\"../board.css?v=") != std::string::npos);
}

TEST_CASE("days are asked for by dates") {
  DayRange asked;
  const DaysSource source = [&](const std::string&, const DayRange& range) {
    asked = range;
    return std::optional<std::string>("date\n");
  };
  Request request;
  request.path = "/api/field/top/days.csv";
  request.query = {{"from", "2026-02-28"}, {"to", "2026-03-01"}};
  CHECK(respond(request, example_board(), {source}).body == "date\n");
  using std::chrono::year;
  CHECK(asked.from == year{2026} / 2 / 28);
  CHECK(asked.to == year{2026} / 3 / 1);
}

TEST_CASE("a bad range of days is refused in words") {
  const std::string path = "/api/field/top/days.csv";
  const auto refused = [&](std::map<std::string, std::string> query, const std::string& words) {
    const Response response = get(path, example_board(), std::move(query));
    INFO(response.body);
    CHECK(response.status == 400);
    CHECK(response.body.find(words) != std::string::npos);
  };
  refused({{"from", "2026-02-29"}}, "from=\"2026-02-29\" is not a date");
  refused({{"to", "25/11/2026"}}, "to=\"25/11/2026\" is not a date");
  refused({{"from", "2026-1-01"}}, "is not a date");
  refused({{"from", ""}}, "is not a date");
  refused({{"from", "2026-03-01"}, {"to", "2026-02-01"}}, "to is before from");
  refused({{"until", "2026-03-01"}}, "\"until\"");
}

TEST_CASE("the board with all it loads stays under 100 kB for twenty fields") {
  BoardSnapshot board = example_board();
  FieldView field = example_field();
  field.layers.assign(6, field.layers.front());
  field.machines.assign(5, field.machines.front());
  board.fields.assign(20, field);
  std::size_t bytes = get("/", board).body.size();
  for (const char* path : {"/board.css", "/board.js", "/favicon.ico"}) {
    bytes += get(path).body.size();
  }
  CHECK(bytes < 100'000);
}

}  // namespace
}  // namespace gley::daemon
