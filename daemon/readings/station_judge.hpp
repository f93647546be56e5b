#pragma once
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "daemon/readings/day_record.hpp"
#include "daemon/readings/season_norms.hpp"

namespace gley::daemon {

/// A station that is held against the others, and against its own past.
struct JudgedStation {
  std::string id;
  GeoPoint place;
  double elevation_m = 0.0;
  const StationRecord* record = nullptr;  ///< never null; must not move
};

/// A person's word that a station's quantity is right on the days from one to another.
struct AcceptedDays {
  std::string station;
  Quantity quantity = Quantity::rain;
  std::chrono::sys_days from;
  std::chrono::sys_days to;

  friend bool operator==(const AcceptedDays&, const AcceptedDays&) = default;
};

/// Rain of days that are over as it was forecast the day before, mm: the members' median.
using RainForeseen = std::map<std::chrono::sys_days, double>;

/// Judges whole days: a rain gauge at 0 while it rained around it or was to rain, humidity at 100 %
/// for days, temperature far from the stations around and from its own season. What it finds
/// depends on the records, on what was foreseen and on what was accepted alone, not on their order
/// of coming; a day may be doubted later for what the days after it brought. Limits:
/// quality_limits.hpp.
class StationJudge {
 public:
  explicit StationJudge(std::vector<JudgedStation> stations);

  /// A record of that day, at any station, is another than before.
  void changed(std::chrono::sys_days date);
  /// Replaces all that was accepted before.
  void accept(std::vector<AcceptedDays> accepted);
  /// Replaces all that was foreseen before.
  void foresee(RainForeseen rain);

  /// Brings the findings in step with the records. Tells for each station whose findings changed
  /// from which day on.
  [[nodiscard]] std::map<std::string, std::chrono::sys_days> judge();

  /// Lives as long as the judge; a station that is none of its own has no findings.
  [[nodiscard]] const DoubtsByDay& doubts(const std::string& station) const;

 private:
  struct Seat {
    JudgedStation station;
    std::vector<std::size_t> neighbours;
    SeasonNorms norms;
    DoubtsByDay out_of_season;  ///< of the findings, those the norms leave out
    DoubtsByDay doubts;
  };

  void find_neighbours();
  [[nodiscard]] std::optional<std::chrono::sys_days> rejudge(Seat& seat,
                                                             std::chrono::sys_days from);
  void judge_season(Seat& seat, std::chrono::sys_days from);
  void add_apart(Seat& seat, std::chrono::sys_days from, DoubtsByDay& found);
  void add_blocked(const Seat& seat, std::chrono::sys_days from, DoubtsByDay& found) const;
  void add_saturated(const Seat& seat, std::chrono::sys_days from, DoubtsByDay& found) const;
  void add(const Seat& seat, std::chrono::sys_days date, const Doubt& doubt,
           DoubtsByDay& found) const;
  [[nodiscard]] bool can_look_blocked(const Seat& seat) const;
  [[nodiscard]] std::optional<double> rain_around(const Seat& seat,
                                                  std::chrono::sys_days date) const;
  [[nodiscard]] bool is_farther_off(Seat& seat, Seat& other, std::chrono::sys_days date);
  [[nodiscard]] bool is_accepted(const std::string& station, Quantity quantity,
                                 std::chrono::sys_days date) const;

  std::vector<Seat> seats_;
  std::vector<AcceptedDays> accepted_;
  RainForeseen foreseen_;
  std::optional<std::chrono::sys_days> changed_from_;
};

}  // namespace gley::daemon
