#include "daemon/board/documents/metrics_text.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

bool has_line(const std::string& text, const std::string& line) {
  return ('\n' + text).find('\n' + line + '\n') != std::string::npos;
}

TEST_CASE("metrics tell readings by outcome, broker, stations, alerts and fields") {
  BoardSnapshot board = example_board();
  board.service.readings_stored = 41;
  board.service.rejected = {{"wrong_unit", 2}};
  board.service.started = Instant{std::chrono::milliseconds{1500}};
  board.stations.push_back({"hill", {}, true});
  const std::string text = metrics_text(board, {}, MetricsFormat::text_0_0_4);
  CHECK(has_line(text, "# TYPE gley_readings_total counter"));
  CHECK(has_line(text, R"(gley_readings_total{outcome="stored"} 41)"));
  CHECK(has_line(text, R"(gley_readings_total{outcome="wrong_unit"} 2)"));
  CHECK(has_line(text, "process_start_time_seconds 1.5"));
  CHECK(has_line(text, "gley_broker_connected 1"));
  CHECK(has_line(text, "gley_store_writable 1"));
  // 2026-11-25T06:38:00Z by GNU date.
  CHECK(has_line(text, R"(gley_station_last_heard_timestamp_seconds{station="yard"} 1795588680)"));
  CHECK(text.find(R"(last_heard_timestamp_seconds{station="hill"})") == std::string::npos);
  CHECK(has_line(text, R"(gley_station_silent{station="hill"} 1)"));
  CHECK(has_line(text, R"(gley_alerts{severity="Severe"} 1)"));
  CHECK(has_line(text, R"(gley_alerts{severity="Minor"} 0)"));
  CHECK(has_line(text, R"(gley_fields{wetness="near field capacity"} 1)"));
  CHECK(has_line(text, R"(gley_fields{wetness="waterlogged"} 0)"));
}

TEST_CASE("OpenMetrics names a counter's family without its suffix and ends with EOF") {
  // OpenMetrics 1.0, "Counter" and "Overall structure".
  const std::string text = metrics_text(example_board(), {}, MetricsFormat::open_metrics_1_0);
  CHECK(has_line(text, "# TYPE gley_readings counter"));
  CHECK(has_line(text, R"(gley_readings_total{outcome="stored"} 0)"));
  CHECK(has_line(text, "# TYPE gley_build info"));
  CHECK(text.ends_with("\n# EOF\n"));
}

TEST_CASE("a histogram counts what took at most each bound") {
  // Prometheus, "Metric types": buckets are cumulative, and +Inf is the count.
  Workings workings;
  workings.reading_delay = Histogram({1.0, 10.5});
  for (const double seconds : {0.25, 1.0, 4.0, 90.0, -3.0}) workings.reading_delay.add(seconds);
  const std::string text = metrics_text(example_board(), workings, MetricsFormat::text_0_0_4);
  CHECK(has_line(text, "# TYPE gley_reading_delay_seconds histogram"));
  CHECK(has_line(text, R"(gley_reading_delay_seconds_bucket{le="1.0"} 3)"));
  CHECK(has_line(text, R"(gley_reading_delay_seconds_bucket{le="10.5"} 4)"));
  CHECK(has_line(text, R"(gley_reading_delay_seconds_bucket{le="+Inf"} 5)"));
  CHECK(has_line(text, "gley_reading_delay_seconds_sum 95.25"));
  CHECK(has_line(text, "gley_reading_delay_seconds_count 5"));
}

TEST_CASE("metrics tell the broker's absence, the forecast's age and whether all is well") {
  BoardSnapshot board = example_board();
  board.forecast.emplace().received = example_time - std::chrono::hours{2};
  Workings workings;
  workings.now = example_time;
  workings.broker_away = std::chrono::seconds{700};
  const std::string text = metrics_text(board, workings, MetricsFormat::text_0_0_4);
  CHECK(has_line(text, "gley_forecast_age_seconds 7200"));
  CHECK(has_line(text, "gley_broker_away_seconds 700"));
  CHECK(has_line(text, "gley_healthy 0"));
}

TEST_CASE("a label's value is escaped") {
  BoardSnapshot board = example_board();
  board.stations.front().id = "a\"b\\c\nd";
  const std::string text = metrics_text(board, {}, MetricsFormat::text_0_0_4);
  CHECK(text.find("{station=\"a\\\"b\\\\c\xEF\xBF\xBD"
                  "d\"} 0\n") != std::string::npos);
}

TEST_CASE("the collector's Accept header chooses the format") {
  CHECK(metrics_format("") == MetricsFormat::text_0_0_4);
  CHECK(metrics_format("text/html, */*") == MetricsFormat::text_0_0_4);
  CHECK(metrics_format("application/openmetrics-text;version=1.0.0,text/plain;q=0.5") ==
        MetricsFormat::open_metrics_1_0);
  CHECK(metrics_format("application/openmetrics-text;q=0.3,text/plain;version=0.0.4;q=0.5") ==
        MetricsFormat::text_0_0_4);
  CHECK(metrics_format("application/openmetrics-text;q=0") == MetricsFormat::text_0_0_4);
}

}  // namespace
}  // namespace gley::daemon
