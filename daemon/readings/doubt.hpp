#pragma once
#include <chrono>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/farm/farm_config.hpp"
#include "model/weather/day_flags.hpp"

namespace gley::daemon {

/// Why a value is doubted. The words of to_word stand in metrics and files.
enum class DoubtKind {
  spike,                  ///< it left and returned within the hour
  stuck,                  ///< the same value all day
  counter_jump,           ///< a count rose by more than can fall
  above_air_temperature,  ///< a dew point that air of its temperature cannot have
  saturated,              ///< humidity at 100 % for days
  blocked,                ///< a rain gauge at 0 while it rained around it or was to
  apart,                  ///< temperature far from that of the stations around
  out_of_season,          ///< temperature far from what its station ever had at this time of year
};
[[nodiscard]] std::string_view to_word(DoubtKind kind);

/// One finding about a quantity of a station on one day.
struct Doubt {
  Quantity quantity = Quantity::rain;
  DoubtKind kind = DoubtKind::spike;
  std::string source = {};  ///< topic, and record if any; empty where the whole day is meant
  int readings = 0;         ///< how many are doubted; 0 where the whole day is
  bool accepted = false;    ///< a person said that it is right: it is used

  friend bool operator==(const Doubt&, const Doubt&) = default;
};

/// Which quantities are doubted and why, in a record that is kept by its bytes: without sources and
/// counts.
class DoubtSet {
 public:
  DoubtSet() = default;
  explicit DoubtSet(const std::vector<Doubt>& doubts);

  [[nodiscard]] std::vector<Doubt> list() const;
  [[nodiscard]] bool empty() const { return found_ == 0; }

  friend bool operator==(const DoubtSet&, const DoubtSet&) = default;

 private:
  std::uint64_t found_ = 0;  ///< bit 8 * quantity + kind
  std::uint64_t accepted_ = 0;
};

/// "humidity stuck: 24 readings on weather/yard/air"
[[nodiscard]] std::string in_words(const Doubt& doubt);

/// What a person should do about it, one sentence.
[[nodiscard]] std::string_view what_to_do(DoubtKind kind);

/// Sets the flag of the doubted quantity, unless a person accepted it. A spike leaves the day's
/// other readings to go by and sets none.
void flag_doubt(model::DayFlags& flags, const Doubt& doubt);

/// Findings of a station by day; days without one are left out.
using DoubtsByDay = std::map<std::chrono::sys_days, std::vector<Doubt>>;

/// Quantities of one day that a person said are right, whatever the checks say.
using AcceptedQuantities = std::set<Quantity>;

}  // namespace gley::daemon
