#include "daemon/engine/fields/field_history.hpp"

#include <algorithm>

namespace gley::daemon {

namespace {

/// A mark costs about 170 bytes; between two marks a day costs under a microsecond to step again.
/// What comes late is mostly of the last weeks; for years ago a few marks do.
constexpr std::size_t days_between_marks = 16;
constexpr std::size_t days_between_old_marks = 8 * days_between_marks;
constexpr std::size_t old_after_days = 4 * days_between_marks;

std::size_t index_of(const std::vector<model::StationDay>& days, std::chrono::sys_days date) {
  const auto since = (date - days.front().date).count();
  return static_cast<std::size_t>(std::clamp<long>(since, 0, static_cast<long>(days.size())));
}

}  // namespace

FieldHistory::Mark FieldHistory::mark_before(const std::vector<model::StationDay>& days,
                                             std::size_t index) const {
  for (auto mark = marks_.rbegin(); mark != marks_.rend(); ++mark)
    if (mark->next_day <= index) return *mark;
  return {0, model::start_of(field_, days.front())};
}

void FieldHistory::remake(const std::vector<model::StationDay>& days, std::chrono::sys_days from) {
  ++revision_;
  if (days.empty()) {
    marks_.clear();
    first_.reset();
    last_.reset();
    return;
  }
  if (first_ != days.front().date) marks_.clear();
  first_ = days.front().date;
  const std::size_t dirty = index_of(days, from);
  // Where days were only taken off, the last of those left is stepped again.
  Mark at = mark_before(days, std::min(dirty, days.size() - 1));
  std::erase_if(marks_, [dirty](const Mark& mark) { return mark.next_day > dirty; });
  for (std::size_t i = at.next_day; i + 1 < days.size(); ++i) {
    mark(i, at.evening);
    model::pass_day(field_, days[i], at.evening);
  }
  mark(days.size() - 1, at.evening);
  last_ = model::step_field(field_, days.back(), at.evening);
  thin_out_marks(days.size());
}

void FieldHistory::mark(std::size_t next_day, const model::FieldState& evening) {
  const bool marked = !marks_.empty() && marks_.back().next_day >= next_day;
  if (next_day > 0 && next_day % days_between_marks == 0 && !marked)
    marks_.push_back({next_day, evening});
}

void FieldHistory::thin_out_marks(std::size_t days) {
  std::erase_if(marks_, [days](const Mark& mark) {
    return mark.next_day + old_after_days < days && mark.next_day % days_between_old_marks != 0;
  });
}

void FieldHistory::restore(const std::vector<model::StationDay>& days, std::vector<Mark> marks) {
  if (days.empty()) return;
  marks_ = std::move(marks);
  first_ = days.front().date;
  remake(days, days.back().date + std::chrono::days{1});
}

model::FieldDay FieldHistory::tentative(const model::StationDay& day) const {
  model::FieldState state = last_ ? last_->evening : model::start_of(field_, day);
  return model::step_field(field_, day, state);
}

model::FieldState FieldHistory::last_evening_if(
    const std::vector<model::StationDay>& days, std::chrono::sys_days from,
    const std::function<model::StationDay(const model::StationDay&)>& other) const {
  Mark at = mark_before(days, index_of(days, from));
  for (std::size_t i = at.next_day; i < days.size(); ++i)
    model::pass_day(field_, other(days[i]), at.evening);
  return at.evening;
}

void FieldHistory::each(const std::vector<model::StationDay>& days, const DayRange& range,
                        const std::function<void(const model::FieldDay&)>& take) const {
  if (days.empty()) return;
  const std::chrono::sys_days from = range.from.value_or(days.front().date);
  const std::chrono::sys_days to = range.to.value_or(days.back().date);
  if (to < days.front().date) return;
  Mark at = mark_before(days, index_of(days, from));
  for (std::size_t i = at.next_day; i < days.size() && days[i].date <= to; ++i) {
    const model::FieldDay day = model::step_field(field_, days[i], at.evening);
    if (day.date >= from) take(day);
  }
}

}  // namespace gley::daemon
