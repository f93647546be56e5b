#pragma once
#include <chrono>
#include <string>

#include "daemon/text/date_text.hpp"

namespace gley::tests {

/// A day of a weather file whose ET0 is given: no temperatures, so neither snow nor frost.
struct PlainDay {
  std::string rain_mm;
  std::string et0_mm;
};

/// Today by UTC, the time zone of the tests' farm.
[[nodiscard]] inline std::chrono::sys_days today() {
  return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
}

/// A weather file of the days up to yesterday, each like `day`.
[[nodiscard]] inline std::string days_up_to_yesterday(int count, const PlainDay& day) {
  std::string text = "date,rain_mm,et0_mm\n";
  for (int ago = count; ago > 0; --ago)
    text += daemon::date_text(today() - std::chrono::days{ago}) + "," + day.rain_mm + "," +
            day.et0_mm + "\n";
  return text;
}

}  // namespace gley::tests
