#pragma once
#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "daemon/readings/day_range.hpp"
#include "model/water/field_day.hpp"

namespace gley::daemon {

/// One field's water through its days. It keeps a state now and then, not every day, and steps on
/// from there: the same days give the same bytes, so nothing is lost by forgetting them. Owned by
/// one thread.
class FieldHistory {
 public:
  explicit FieldHistory(model::Field field) : field_(std::move(field)) {}

  [[nodiscard]] const model::Field& field() const { return field_; }

  /// Steps through `days` to their end, anew from `from` on; what stood before `from` is kept.
  void remake(const std::vector<model::StationDay>& days, std::chrono::sys_days from);

  /// An evening that is kept.
  struct Mark {
    std::size_t next_day = 0;  ///< index of the day that follows it
    model::FieldState evening;

    friend bool operator==(const Mark&, const Mark&) = default;
  };
  [[nodiscard]] const std::vector<Mark>& marks() const { return marks_; }

  /// Goes on from evenings that `marks()` gave for the same `days`, instead of beginning anew.
  void restore(const std::vector<model::StationDay>& days, std::vector<Mark> marks);

  /// Rises whenever its ended days are made anew.
  [[nodiscard]] std::uint64_t revision() const { return revision_; }

  /// The last day stepped; empty before the first.
  [[nodiscard]] const std::optional<model::FieldDay>& last() const { return last_; }

  /// A day after the last, stepped from its evening without being kept.
  [[nodiscard]] model::FieldDay tentative(const model::StationDay& day) const;

  /// The last evening, had the days from `from` on been others.
  [[nodiscard]] model::FieldState last_evening_if(
      const std::vector<model::StationDay>& days, std::chrono::sys_days from,
      const std::function<model::StationDay(const model::StationDay&)>& other) const;

  /// Hands every day of `days` in the range to `take`, in order.
  void each(const std::vector<model::StationDay>& days, const DayRange& range,
            const std::function<void(const model::FieldDay&)>& take) const;

 private:
  /// The latest mark that lies before day `index`; the start if there is none.
  [[nodiscard]] Mark mark_before(const std::vector<model::StationDay>& days,
                                 std::size_t index) const;
  void mark(std::size_t next_day, const model::FieldState& evening);
  void thin_out_marks(std::size_t days);

  model::Field field_;
  std::vector<Mark> marks_;
  std::optional<std::chrono::sys_days> first_;  ///< date of the first day the marks count from
  std::optional<model::FieldDay> last_;
  std::uint64_t revision_ = 1;
};

}  // namespace gley::daemon
