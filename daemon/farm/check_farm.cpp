#include <algorithm>
#include <map>

#include "daemon/farm/config_draft.hpp"
#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {
namespace {

template <class Item>
std::vector<std::string> ids_of(const std::vector<Item>& items) {
  std::vector<std::string> ids;
  ids.reserve(items.size());
  for (const Item& item : items) ids.push_back(item.id);
  return ids;
}

void check_names(const std::vector<NameUse>& uses, const std::vector<std::string>& given,
                 const std::string& what, ProblemList& problems) {
  for (const NameUse& use : uses) {
    if (std::find(given.begin(), given.end(), use.name) != given.end()) continue;
    problems.add(use.place, use.label + " " + no_such(what, use.name, given));
  }
}

template <class Item>
void check_twice(const std::vector<Item>& items, const std::string& what, ProblemList& problems) {
  std::map<std::string, FilePlace> first;
  for (const Item& item : items) {
    if (item.id.empty()) continue;  // missing or bad: said already
    const auto [seen, is_new] = first.emplace(item.id, item.place);
    if (is_new) continue;
    problems.add(item.place, "[[" + what + "]] '" + item.id + "': id is given twice, first at " +
                                 place_text(seen->second) + "; give each its own");
  }
}

/// Rows and columns of one name cannot be told apart on the board.
template <class Item>
void check_same_name(const std::vector<Item>& items, const std::string& what,
                     ProblemList& problems) {
  std::map<std::string, const Item*> first;
  for (const Item& item : items) {
    const auto [seen, is_new] = first.emplace(item.name, &item);
    if (is_new || seen->second->id == item.id) continue;  // the same id: said already
    problems.add(item.place, "[[" + what + "]] '" + item.id + "': name is \"" + item.name +
                                 "\", as that of '" + seen->second->id + "' is; give each its own");
  }
}

/// True if a filter would hear what is published under a root.
bool hears(std::string_view filter, std::string_view root) {
  // The filter's part above the root has to match it, and something has to follow.
  std::size_t levels = 1;
  for (const char c : root) levels += c == '/' ? 1U : 0U;
  std::size_t end = 0;
  for (std::size_t level = 0; level < levels; ++level) {
    const std::size_t slash = filter.find('/', end);
    if (slash == std::string_view::npos)
      return filter.ends_with('#') && topic_matches(filter, root);
    end = slash + 1;
  }
  return topic_matches(filter.substr(0, end - 1), root);
}

std::string takes_in_own(const std::string& root) {
  return ", which takes in " + root + "/..., what this daemon says itself; choose a narrower one";
}

void check_own_topics(const ConfigDraft& draft, ProblemList& problems) {
  const FarmConfig& farm = draft.farm;
  const std::string& root = farm.mqtt.root;
  for (const StationConfig& station : farm.stations) {
    for (const ReadingMap& map : station.readings) {
      if (map.topic.empty() || !hears(map.topic, root)) continue;
      problems.add(map.place, "[[station]] '" + station.id + "', reading: topic is \"" + map.topic +
                                  "\"" + takes_in_own(root));
    }
  }
  if (!farm.forecast || !hears(farm.forecast->topic, root)) return;
  problems.add(draft.forecast_topic,
               "[forecast]: topic is \"" + farm.forecast->topic + "\"" + takes_in_own(root));
}

/// A message is the forecast or a reading: one that could be either is the forecast.
void check_forecast_topic(const ConfigDraft& draft, ProblemList& problems) {
  const FarmConfig& farm = draft.farm;
  if (!farm.forecast || farm.forecast->topic.empty()) return;
  for (const StationConfig& station : farm.stations) {
    for (const ReadingMap& map : station.readings) {
      if (map.topic.empty() || !covers(farm.forecast->topic, map.topic)) continue;
      problems.add(draft.forecast_topic, "[forecast]: topic is \"" + farm.forecast->topic +
                                             "\", which takes in \"" + map.topic +
                                             "\" of station '" + station.id +
                                             "', and its readings would be lost; choose a narrower "
                                             "one");
      return;
    }
  }
}

}  // namespace

void check_farm(const ConfigDraft& draft, const std::string& first_file, ProblemList& problems) {
  const FarmConfig& farm = draft.farm;
  const FilePlace first{.file = first_file, .line = 1};
  if (farm.stations.empty()) problems.add(first, "there is no [[station]]; add one");
  if (farm.fields.empty()) problems.add(first, "there is no [[field]]; add one");
  check_names(draft.stations_used, ids_of(farm.stations), "station", problems);
  check_names(draft.machines_used, ids_of(farm.machines), "machine", problems);
  check_twice(farm.stations, "station", problems);
  check_twice(farm.fields, "field", problems);
  check_twice(farm.machines, "machine", problems);
  check_twice(farm.materials, "material", problems);
  check_twice(farm.watercourses, "watercourse", problems);
  check_twice(farm.springs, "spring", problems);
  check_same_name(farm.fields, "field", problems);
  check_same_name(farm.machines, "machine", problems);
  check_same_name(farm.materials, "material", problems);
  check_land(farm, problems);
  if (!farm.id.empty()) check_own_topics(draft, problems);
  check_forecast_topic(draft, problems);
}

}  // namespace gley::daemon
