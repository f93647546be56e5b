#include "daemon/board/documents/windows_calendar.hpp"

#include <algorithm>

#include "daemon/board/words/local_time.hpp"
#include "daemon/board/words/outlook_words.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

constexpr std::size_t longest_line = 75;  // octets, without the line's end

/// "20261125T070000Z"
std::string utc(Instant instant) {
  std::string text = rfc3339(instant);
  std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
  return text;
}

bool continues_a_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

std::string id_of(const WorkWindows& farm, const WorkWindow& own) {
  const bool open = own.window.from <= farm.now;
  const std::string when = open ? "now" : utc(own.window.from).substr(0, 8);
  return own.field_id + "." + own.machine_id + "." + when + "@" + farm.farm_id + ".gley";
}

std::string event(const WorkWindows& farm, const WorkWindow& own) {
  const std::string description =
      "By the forecast the field carries the machine: " + chance_text(own.window.probability) +
      ". Walk it before you drive on it.";
  return "BEGIN:VEVENT\r\n" + content_line("UID:" + id_of(farm, own)) +
         "DTSTAMP:" + utc(farm.made) + "\r\nDTSTART:" + utc(own.window.from) +
         "\r\nDTEND:" + utc(own.window.to) + "\r\n" +
         content_line("SUMMARY:" + calendar_text(own.machine_name + " on " + own.field_name)) +
         content_line("LOCATION:" + calendar_text(own.field_name)) +
         content_line("DESCRIPTION:" + calendar_text(description)) +
         "TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n";
}

/// A calendar must hold something (RFC 5545, 3.6).
std::string nothing_to_tell(const WorkWindows& farm) {
  return "BEGIN:VFREEBUSY\r\nUID:none@" + farm.farm_id + ".gley\r\nDTSTAMP:" + utc(farm.made) +
         "\r\nCOMMENT:No window is in sight.\r\nEND:VFREEBUSY\r\n";
}

}  // namespace

std::string calendar_text(std::string_view text) {
  std::string out;
  // Line ends become one: they are the only control characters with a meaning here.
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
    if (c == '\n' || c == '\r') {
      out += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return printable(out);
}

std::string content_line(std::string_view line) {
  std::string out;
  std::size_t room = longest_line;
  while (line.size() > room) {
    std::size_t end = room;
    while (end > 1 && continues_a_character(line[end])) --end;
    out.append(line.substr(0, end)).append("\r\n ");
    line.remove_prefix(end);
    room = longest_line - 1;  // the blank that marks a folded line counts
  }
  return out.append(line).append("\r\n");
}

std::string windows_calendar(const WorkWindows& farm) {
  std::string events;
  for (const WorkWindow& own : farm.windows) events += event(farm, own);
  return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Gley//gleyd " GLEY_VERSION
         "//EN\r\nCALSCALE:GREGORIAN\r\n" +
         content_line("X-WR-CALNAME:" + calendar_text(farm.farm_name + ": windows")) +
         (events.empty() ? nothing_to_tell(farm) : events) + "END:VCALENDAR\r\n";
}

}  // namespace gley::daemon
