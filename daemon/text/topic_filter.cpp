#include "daemon/text/topic_filter.hpp"

#include <algorithm>

namespace gley::daemon {
namespace {

std::string_view take_level(std::string_view& text, bool& more) {
  const auto size = std::min(text.find('/'), text.size());
  const std::string_view level = text.substr(0, size);
  more = size < text.size();
  text.remove_prefix(more ? size + 1 : size);
  return level;
}

}  // namespace

bool covers(std::string_view wide, std::string_view narrow) {
  const bool deep = narrow.ends_with('#') && !wide.ends_with('#');
  return wide == narrow || (!deep && topic_matches(wide, narrow));
}

bool has_wildcard(std::string_view filter) {
  return filter.find_first_of("+#") != std::string_view::npos;
}

bool topic_matches(std::string_view filter, std::string_view topic) {
  if (topic.starts_with('$') && has_wildcard(filter.substr(0, 1))) return false;
  bool more_filter = true;
  bool more_topic = true;
  while (more_filter && more_topic) {
    const auto wanted = take_level(filter, more_filter);
    if (wanted == "#") return true;
    const auto level = take_level(topic, more_topic);
    if (wanted != "+" && wanted != level) return false;
  }
  // "a/#" stands for "a" too.
  return more_filter == more_topic || (more_filter && filter == "#");
}

bool valid_topic_filter(std::string_view filter) {
  if (filter.empty() || filter.size() > 65535 || filter.find('\0') != std::string_view::npos) {
    return false;
  }
  for (bool more = true; more;) {
    const auto level = take_level(filter, more);
    if (level.size() > 1 && has_wildcard(level)) return false;
    if (level == "#" && more) return false;
  }
  return true;
}

std::vector<std::string> without_covered(std::vector<std::string> filters) {
  std::sort(filters.begin(), filters.end());
  filters.erase(std::unique(filters.begin(), filters.end()), filters.end());
  std::vector<std::string> kept;
  for (const std::string& filter : filters) {
    const bool covered = std::any_of(filters.begin(), filters.end(), [&](const std::string& other) {
      return other != filter && has_wildcard(other) && covers(other, filter);
    });
    if (!covered) kept.push_back(filter);
  }
  return kept;
}

}  // namespace gley::daemon
