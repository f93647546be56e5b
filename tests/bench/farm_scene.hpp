#pragma once
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <string>

namespace gley::bench {

/// A farm on paper: fields of many soils, drainages and crops, spread evenly over its stations.
struct FarmScene {
  int fields = 500;
  int stations = 5;
  int machines = 5;
  std::uint16_t mqtt_port = 1;  ///< default: where no broker is
  std::uint16_t http_port = 0;
  std::string durability = "process";
  int oldest_days = 30;
};

/// The configuration; its store is farm.db beside it, its root gley/alder. Station n sends rain,
/// temperature, humidity and wind as bare numbers on weather/sn/rain and so on, or as SenML packs
/// on weather/sn/pack.
[[nodiscard]] std::string farm_text(const FarmScene& scene);

/// Fills a store with hourly readings of all four quantities from every station, as a gauge's
/// years might look: `days` whole days, the last one that of `until`. Seeded. Returns how many.
std::int64_t fill_store(const std::filesystem::path& store, const FarmScene& scene,
                        std::chrono::sys_days until, int days);

}  // namespace gley::bench
