#include "daemon/readings/topic_map.hpp"

#include <algorithm>
#include <iterator>

#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {
namespace {

std::optional<JsonPointer> pointer(const std::optional<std::string>& text) {
  return text ? JsonPointer::parse(*text) : std::nullopt;
}

}  // namespace

TopicMap::TopicMap(const FarmConfig& farm) : oldest_(farm.oldest_days) {
  for (const StationConfig& station : farm.stations) {
    for (const ReadingMap& map : station.readings) {
      mappings_.push_back({station.id, map, pointer(map.value_pointer), pointer(map.time_pointer)});
    }
  }
  for (std::size_t i = 0; i < mappings_.size(); ++i) {
    const std::string& topic = mappings_[i].map.topic;
    if (has_wildcard(topic)) {
      wild_.push_back(i);
    } else {
      plain_[topic].push_back(i);
    }
    filters_.push_back(topic);
  }
  filters_ = without_covered(std::move(filters_));
}

std::vector<const Mapping*> TopicMap::find(std::string_view topic) const {
  std::vector<std::size_t> found;
  const auto plain = plain_.find(std::string(topic));
  if (plain != plain_.end()) found = plain->second;
  std::copy_if(wild_.begin(), wild_.end(), std::back_inserter(found),
               [&](std::size_t i) { return topic_matches(mappings_[i].map.topic, topic); });
  std::sort(found.begin(), found.end());
  std::vector<const Mapping*> mappings;
  mappings.reserve(found.size());
  for (const std::size_t i : found) mappings.push_back(&mappings_[i]);
  return mappings;
}

}  // namespace gley::daemon
