#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

/// True if a topic is one the filter stands for (MQTT 5.0 Section 4.7: '+' one level, '#' all that
/// follow and the parent; neither stands for a first level that begins with '$').
[[nodiscard]] bool topic_matches(std::string_view filter, std::string_view topic);

/// True if the text may be subscribed to: not empty, '+' and '#' alone in their level, '#' last.
[[nodiscard]] bool valid_topic_filter(std::string_view filter);

/// True if the filter has a level '+' or '#'.
[[nodiscard]] bool has_wildcard(std::string_view filter);

/// True if every topic that `narrow` stands for is one of `wide`'s.
[[nodiscard]] bool covers(std::string_view wide, std::string_view narrow);

/// The filters sorted, each once, without those that another one covers: a broker may deliver a
/// message once for each filter it matches, and a reading without a time would count twice.
/// Filters that overlap only in part ("a/+/c" and "a/b/#") stay.
[[nodiscard]] std::vector<std::string> without_covered(std::vector<std::string> filters);

}  // namespace gley::daemon
