#pragma once
#include <chrono>
#include <string>

#include "daemon/store/schema.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/senml_text.hpp"

/// Readings that can be counted in the store: rain of hours of 2018.
namespace gley::tests {

[[nodiscard]] inline FarmText farm_with_old_hours(std::uint16_t mqtt_port) {
  FarmText farm(mqtt_port);
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
  return senml_pack({{"rain", sys_days{2018y / 3 / 1} + hours{n}, rain_tenths(n) / 10.0}});
}

/// Publishes hours from one number up to another over one connection.
inline void send_hours(const Broker& broker, const Gleyd& gleyd, int from, int to) {
  std::string lines;
  for (int n = from; n < to; ++n) lines += hour_of_rain(n) + '\n';
  broker.publish_lines("weather/yard/pack", gleyd.write("hours", lines));
}

[[nodiscard]] inline std::int64_t stored_rows(const std::filesystem::path& store) {
  return daemon::Database(store, daemon::Durability::process)
      .number("SELECT count(*) FROM reading");
}

}  // namespace gley::tests
