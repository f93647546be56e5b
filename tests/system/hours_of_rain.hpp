#pragma once
#include <chrono>
#include <string>

#include "daemon/readings/number_text.hpp"
#include "daemon/store/schema.hpp"
#include "tests/system/gleyd.hpp"

/// Readings that can be counted in the store: rain of hours of 2018.
namespace gley::tests {

[[nodiscard]] inline FarmText farm_with_old_hours(std::uint16_t mqtt_port) {
  FarmText farm;
  farm.mqtt_port = mqtt_port;
  farm.oldest_days = 100000;
  return farm;
}

/// Tenths of a millimetre in hour number n; one hour is unlike the next.
[[nodiscard]] constexpr int rain_tenths(int n) {
  return n % 50;
}

/// That hour as a SenML pack.
[[nodiscard]] inline std::string hour_of_rain(int n) {
  using namespace std::chrono;
  const sys_seconds time = sys_days{2018y / 3 / 1} + hours{n};
  return "[{\"n\":\"rain\",\"t\":" + std::to_string(time.time_since_epoch().count()) +
         ",\"v\":" + daemon::number_text(rain_tenths(n) / 10.0) + "}]";
}

/// Publishes hours from one number up to another over one connection.
inline void send_hours(const Broker& broker, const Gleyd& gleyd, int from, int to) {
  std::string lines;
  for (int n = from; n < to; ++n) lines += hour_of_rain(n) + '\n';
  publish_lines(broker.port(), "weather/yard/pack", gleyd.write("hours", lines));
}

[[nodiscard]] inline std::int64_t stored_rows(const std::filesystem::path& store) {
  return daemon::Database(store, daemon::Durability::process)
      .number("SELECT count(*) FROM reading");
}

}  // namespace gley::tests
