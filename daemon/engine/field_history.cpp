#include "daemon/engine/field_history.hpp"

#include <algorithm>

namespace gley::daemon {

namespace {

/// A mark costs about 130 bytes; between two marks a day costs under a microsecond to step again.
constexpr std::size_t days_between_marks = 16;

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
  for (std::size_t i = at.next_day; i < days.size(); ++i) {
    const bool marked = !marks_.empty() && marks_.back().next_day >= i;
    if (i > 0 && i % days_between_marks == 0 && !marked) marks_.push_back({i, at.evening});
    last_ = model::step_field(field_, days[i], at.evening);
  }
}

model::FieldDay FieldHistory::tentative(const model::StationDay& day) const {
  model::FieldState state = last_ ? last_->evening : model::start_of(field_, day);
  return model::step_field(field_, day, state);
}

void FieldHistory::each(const std::vector<model::StationDay>& days, std::chrono::sys_days from,
                        std::chrono::sys_days to,
                        const std::function<void(const model::FieldDay&)>& take) const {
  if (days.empty() || to < days.front().date) return;
  Mark at = mark_before(days, index_of(days, from));
  for (std::size_t i = at.next_day; i < days.size() && days[i].date <= to; ++i) {
    const model::FieldDay day = model::step_field(field_, days[i], at.evening);
    if (day.date >= from) take(day);
  }
}

}  // namespace gley::daemon
