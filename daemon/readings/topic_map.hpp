#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "daemon/farm/farm_config.hpp"
#include "daemon/text/json_pointer.hpp"

namespace gley::daemon {

/// One [[station.reading]] of one station, made ready for decoding.
struct Mapping {
  std::string station;
  ReadingMap map;
  std::optional<JsonPointer> value;
  std::optional<JsonPointer> time;
};

/// Which messages carry which readings. Never changes once made, so any thread may read it.
class TopicMap {
 public:
  explicit TopicMap(const FarmConfig& farm);

  /// All mappings a topic feeds, in the order of the configuration.
  [[nodiscard]] std::vector<const Mapping*> find(std::string_view topic) const;
  /// What to subscribe to, each once; filters that others cover are left out.
  [[nodiscard]] const std::vector<std::string>& filters() const { return filters_; }
  /// Readings older than this when they arrive are kept aside.
  [[nodiscard]] std::chrono::days oldest() const { return oldest_; }

 private:
  std::vector<Mapping> mappings_;
  std::vector<std::string> filters_;
  std::chrono::days oldest_;
  std::unordered_map<std::string, std::vector<std::size_t>> plain_;  ///< topics without wildcards
  std::vector<std::size_t> wild_;
};

}  // namespace gley::daemon
