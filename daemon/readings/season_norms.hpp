#pragma once
#include <array>
#include <chrono>
#include <map>
#include <optional>

#include "daemon/readings/day_record.hpp"

namespace gley::daemon {

/// Mean and spread of a month's values.
struct Norm {
  double mean = 0.0;
  double deviation = 0.0;
};

/// A station's extremes by month over all years before one: what a season can be held against.
/// Years before only, so that a later day never changes an earlier judgement.
class SeasonNorms {
 public:
  explicit SeasonNorms(const StationRecord& record) : record_(record) {}

  /// Days from this one on have changed: what rests on them is forgotten.
  void forget_from(std::chrono::sys_days date);

  struct Extremes {
    Norm tmin_c;
    Norm tmax_c;
  };
  /// For the month of a date; empty with fewer than limits::season_days days.
  /// doubted: days left out.
  [[nodiscard]] std::optional<Extremes> before_year_of(std::chrono::sys_days date,
                                                       const DoubtsByDay& doubted);

 private:
  struct Sums {
    int days = 0;
    double tmin = 0.0;
    double tmin_squares = 0.0;
    double tmax = 0.0;
    double tmax_squares = 0.0;
  };
  using ByMonth = std::array<Sums, 12>;

  void add_year(int year, const DoubtsByDay& doubted);

  const StationRecord& record_;
  std::map<int, ByMonth> before_;  ///< by year: all years before it
};

}  // namespace gley::daemon
