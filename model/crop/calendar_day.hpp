#pragma once
#include <chrono>
#include <optional>

namespace gley::model {

/// A date, or a day of every year.
struct CalendarDay {
  std::optional<std::chrono::year> year = {};
  std::chrono::month_day day{};

  friend bool operator==(const CalendarDay&, const CalendarDay&) = default;
};

/// A day of every year in one of them; 29 February is 1 March in a common year.
[[nodiscard]] inline std::chrono::sys_days day_in_year(std::chrono::year year,
                                                       std::chrono::month_day day) {
  return std::chrono::sys_days{year / day.month() / 1} +
         (std::chrono::days{1} * (unsigned(day.day()) - 1));
}

}  // namespace gley::model
