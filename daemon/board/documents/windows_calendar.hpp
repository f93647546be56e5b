#pragma once
#include <string>
#include <string_view>

#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// A window of one machine on one field, in working hours.
struct WorkWindow {
  std::string field_id;
  std::string field_name;
  std::string machine_id;
  std::string machine_name;
  WindowView window;
};

/// The farm's windows, and the moment they were asked for and were made.
struct WorkWindows {
  std::string farm_id;
  std::string farm_name;
  Instant now{};
  Instant made{};  ///< when the forecast they rest on came
  std::vector<WorkWindow> windows;
};

/// The windows of all machines as a calendar to subscribe to (RFC 5545): one event a window, named
/// by the same id for as long as the window begins on the same day; one that is open already by
/// the id of its field and machine.
[[nodiscard]] std::string windows_calendar(const WorkWindows& farm);

/// Text as the value of a property: backslash, semicolon, comma and line ends escaped (RFC 5545,
/// 3.3.11).
[[nodiscard]] std::string calendar_text(std::string_view text);

/// A content line, folded so that no line is longer than 75 octets and no character is torn
/// (RFC 5545, 3.1), with its end.
[[nodiscard]] std::string content_line(std::string_view line);

}  // namespace gley::daemon
