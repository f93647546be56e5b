#include "daemon/board/documents/metrics_text.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "daemon/board/documents/health.hpp"
#include "daemon/board/documents/metrics_writer.hpp"
#include "daemon/board/http/http_policy.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

std::string seconds_text(Instant instant) {
  return decimal_text(static_cast<double>(instant.time_since_epoch().count()) / 1000.0);
}

void write_service(MetricsWriter& out, const BoardSnapshot& board) {
  const ServiceView& service = board.service;
  out.info("gley_build", "The version that runs.");
  out.sample("version", GLEY_VERSION, "1");
  if (service.started) {
    out.gauge("process_start_time_seconds", "When this process began, in seconds of Unix time.",
              seconds_text(*service.started));
  }
  out.gauge("gley_broker_connected", "1 while connected to the MQTT broker.",
            service.broker_connected ? "1" : "0");
  out.gauge("gley_store_writable", "1 while readings can be stored.",
            service.store_message.empty() ? "1" : "0");
  out.counter("gley_clock_jumps", "Times that the wall clock was set ahead or back.",
              service.clock_jumps);
  out.counter("gley_readings", "Readings by what became of them.");
  out.sample("outcome", "stored", std::to_string(service.readings_stored));
  out.sample("outcome", "repeated", std::to_string(service.readings_repeated));
  for (const auto& [why, count] : service.rejected) {
    out.sample("outcome", why, std::to_string(count));
  }
  out.counter("gley_told", "Dressings and reports told by people, by what became of them.");
  out.sample("outcome", "stored", std::to_string(service.told));
  for (const auto& [why, count] : service.told_refused) {
    out.sample("outcome", why, std::to_string(count));
  }
}

void write_board(MetricsWriter& out, const BoardSnapshot& board, const Workings& workings) {
  out.gauge("gley_healthy", "1 while /healthz answers 200.",
            health_of(board, workings).ill.empty() ? "1" : "0");
  out.gauge("gley_board_timestamp_seconds", "When the board was last made anew.",
            seconds_text(board.time));
  out.counter("gley_forecasts", "Forecasts taken into the store.", workings.forecasts_stored);
  if (!board.forecast) return;
  out.gauge("gley_forecast_timestamp_seconds", "Arrival of the forecast in use.",
            seconds_text(board.forecast->received));
  out.gauge("gley_forecast_age_seconds", "Age of the forecast in use.",
            seconds_text(Instant{workings.now - board.forecast->received}));
}

void write_broker(MetricsWriter& out, const Workings& workings) {
  out.gauge("gley_broker_away_seconds", "How long the broker has been away; 0 while connected.",
            std::to_string(workings.broker_away.value_or(std::chrono::seconds{0}).count()));
  out.counter("gley_broker_connects", "Connections made to the broker.", workings.broker_connects);
  out.counter("gley_broker_clients_replaced",
              "Times the MQTT client was made anew, for a write that failed or came too late.",
              workings.broker_clients_replaced);
  out.counter("gley_messages_received", "Messages that came from the broker.",
              workings.messages_received);
  out.counter("gley_messages_published", "Messages sent to the broker.",
              workings.messages_published);
  out.counter("gley_publish_failures", "Messages that the broker refused or that could not go yet.",
              workings.publish_failures);
  out.gauge("gley_messages_waiting", "Messages that wait to be sent.",
            std::to_string(workings.messages_waiting));
}

void write_work(MetricsWriter& out, const Workings& workings) {
  out.histogram("gley_store_write_seconds", "A message's way into the store, commit included.",
                workings.store_write);
  out.histogram("gley_reading_delay_seconds",
                "Arrival of a reading after the time it carries; none if it carries no time.",
                workings.reading_delay);
  out.histogram("gley_reading_to_board_seconds", "From a reading's commit to the changed board.",
                workings.reading_to_board);
  out.histogram("gley_fields_step_seconds", "All fields stepped up to now.", workings.fields_step);
  out.gauge("gley_event_clients", "Pages that are open on /events.",
            std::to_string(workings.event_clients));
  out.counter("gley_http_refused", "Connections and requests turned away, by why.");
  for (const auto& [why, count] : workings.http_refused)
    out.sample("why", why, std::to_string(count));
}

void write_stations(MetricsWriter& out, const std::vector<StationView>& stations) {
  out.gauge("gley_station_last_heard_timestamp_seconds",
            "Arrival of a station's last good reading; no sample before the first.");
  for (const StationView& station : stations) {
    if (station.last_heard) out.sample("station", station.id, seconds_text(*station.last_heard));
  }
  out.gauge("gley_station_silent", "1 while a station has been silent too long.");
  for (const StationView& station : stations) {
    out.sample("station", station.id, station.silent ? "1" : "0");
  }
}

void write_doubts(MetricsWriter& out, const std::vector<StationView>& stations) {
  out.gauge("gley_station_doubts",
            "Findings of the quality checks at a station that keep values from being used, of "
            "today and the two days before.");
  for (const StationView& station : stations) {
    const auto count = std::count_if(station.doubts.begin(), station.doubts.end(),
                                     [](const DoubtView& doubt) { return !doubt.accepted; });
    out.sample("station", station.id, std::to_string(count));
  }
  out.gauge("gley_station_clock_behind_seconds",
            "By how much the times that a station gives are steadily off; below 0: ahead.");
  for (const StationView& station : stations)
    out.sample("station", station.id, std::to_string(station.clock_behind_min * 60));
}

/// Every word of a closed list has a sample, zero too, so that a sum over them is never short.
void write_counts(MetricsWriter& out, std::string_view label,
                  const std::map<std::string, std::uint64_t>& counts) {
  for (const auto& [word, count] : counts) out.sample(label, word, std::to_string(count));
}

void write_alerts(MetricsWriter& out, const std::vector<AlertView>& alerts) {
  std::map<std::string, std::uint64_t> counts;
  for (const std::string_view severity : severities) counts[std::string(severity)] = 0;
  for (const AlertView& alert : alerts) ++counts[alert.severity];
  out.gauge("gley_alerts", "Alerts that stand now, by severity (CAP 1.2).");
  write_counts(out, "severity", counts);
}

void write_fields(MetricsWriter& out, const std::vector<FieldView>& fields) {
  std::map<std::string, std::uint64_t> counts{{std::string(not_known), 0}};
  for (const std::string_view wetness : wetness_words) counts[std::string(wetness)] = 0;
  for (const FieldView& field : fields) {
    ++counts[field.known ? field.wetness : std::string(not_known)];
  }
  out.gauge("gley_fields", "Fields by wetness.");
  write_counts(out, "wetness", counts);
}

}  // namespace

MetricsFormat metrics_format(std::string_view accept) {
  const double open = quality_of(accept, "application/openmetrics-text");
  return open > 0.0 && open >= quality_of(accept, "text/plain") ? MetricsFormat::open_metrics_1_0
                                                                : MetricsFormat::text_0_0_4;
}

std::string_view content_type(MetricsFormat format) {
  return format == MetricsFormat::open_metrics_1_0
             ? "application/openmetrics-text; version=1.0.0; charset=utf-8"
             : "text/plain; version=0.0.4; charset=utf-8";
}

std::string metrics_text(const BoardSnapshot& board, const Workings& workings,
                         MetricsFormat format) {
  MetricsWriter out(format);
  write_service(out, board);
  write_board(out, board, workings);
  write_broker(out, workings);
  write_work(out, workings);
  write_stations(out, board.stations);
  write_doubts(out, board.stations);
  write_alerts(out, board.alerts);
  write_fields(out, board.fields);
  return std::move(out).text();
}

}  // namespace gley::daemon
