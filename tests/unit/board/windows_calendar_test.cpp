#include "daemon/board/documents/windows_calendar.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;

WorkWindows farm() {
  return {.farm_id = "alder",
          .farm_name = "Alder Farm",
          .now = sys_days(2026y / 3 / 2) + 10h,
          .made = sys_days(2026y / 3 / 2) + 9h,
          .windows = {{.field_id = "top",
                       .field_name = "Top, Field; by the brook",
                       .machine_id = "drill",
                       .machine_name = "Drill",
                       .window = {.from = sys_days(2026y / 3 / 4) + 7h,
                                  .to = sys_days(2026y / 3 / 5) + 16h + 30min,
                                  .probability = 0.72}}}};
}

}  // namespace

TEST_CASE("a window is an event in UTC with an id that stays") {
  WorkWindows now = farm();
  const std::string calendar = windows_calendar(now);
  const auto has = [&](const std::string& line) {
    return calendar.find("\r\n" + line + "\r\n") != std::string::npos;
  };
  CHECK(calendar.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"));
  CHECK(has("UID:top.drill.20260304@alder.gley"));
  CHECK(has("DTSTART:20260304T070000Z"));
  CHECK(has("DTEND:20260305T163000Z"));
  CHECK(has("DTSTAMP:20260302T090000Z"));
  CHECK(has("SUMMARY:Drill on Top\\, Field\\; by the brook"));
  now.windows[0].window.to += 24h;
  CHECK(windows_calendar(now).find("UID:top.drill.20260304@alder.gley") != std::string::npos);
}

TEST_CASE("a window's event tells its chance in words and tenths, and never as certain") {
  WorkWindows now = farm();
  const auto says = [&](const std::string& words) {
    std::string text = windows_calendar(now);
    for (std::size_t fold = 0; (fold = text.find("\r\n ")) != std::string::npos;)
      text.erase(fold, 3);
    return text.find(words) != std::string::npos;
  };
  CHECK(says("the field carries the machine: likely\\, 7 in 10."));
  now.windows[0].window.probability = 0.97;
  CHECK(says("the field carries the machine: very likely\\, over 9 in 10."));
}

TEST_CASE("text is escaped as RFC 5545 has it, 3.3.11") {
  CHECK(calendar_text("a\\b;c,d\ne\r\nf") == "a\\\\b\\;c\\,d\\ne\\nf");
}

TEST_CASE("long lines are folded at 75 octets and no character is torn") {
  // RFC 5545, 3.1: CRLF and one blank between the parts.
  CHECK(content_line(std::string(75, 'a')) == std::string(75, 'a') + "\r\n");
  CHECK(content_line(std::string(76, 'a')) == std::string(75, 'a') + "\r\n a\r\n");
  CHECK(content_line(std::string(75 + 74 + 1, 'a')) ==
        std::string(75, 'a') + "\r\n " + std::string(74, 'a') + "\r\n a\r\n");
  CHECK(content_line(std::string(74, 'a') + "\u00e1") == std::string(74, 'a') + "\r\n \u00e1\r\n");
}

TEST_CASE("a calendar without windows still holds something") {
  WorkWindows now = farm();
  now.windows.clear();
  CHECK(windows_calendar(now).find("BEGIN:VFREEBUSY\r\n") != std::string::npos);
}

}  // namespace gley::daemon
