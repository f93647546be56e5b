#include "daemon/engine/view/outlook_view.hpp"

#include "model/ground/verdict.hpp"
#include "model/spreading/spreading_advice.hpp"

namespace gley::daemon {

namespace {

using Windows = std::vector<TimeWindow>;

const TimeWindow* window_at(const Windows& windows, Instant now) {
  for (const TimeWindow& window : windows)
    if (window.from <= now && now < window.to) return &window;
  return nullptr;
}

std::optional<WindowView> next_after(const Windows& windows, Instant now) {
  for (const TimeWindow& window : windows)
    if (window.from > now) return window_view(window);
  return {};
}

/// What is closed now may open in the course of a window that its evening opens: the next day of it
/// counts.
std::optional<WindowView> next_opening(const Windows& windows, const FarmOutlook& outlook,
                                       Instant now) {
  const TimeWindow* current = window_at(windows, now);
  if (current == nullptr || current->to <= outlook.today_ends) return next_after(windows, now);
  return WindowView{.from = outlook.today_ends, .to = current->to, .probability = current->chance};
}

void show(MachineView& machine, const Windows& windows, const FarmOutlook& outlook, Instant now) {
  if (machine.verdict == model::to_word(model::Verdict::not_known)) return;
  if (machine.verdict != model::to_word(model::Verdict::carries)) {
    machine.next_window = next_opening(windows, outlook, now);
    return;
  }
  const TimeWindow* current = window_at(windows, now);
  // Rain that should have closed it and has not may still do so before the day is over.
  if (current == nullptr)
    machine.until = outlook.today_closes > now ? outlook.today_closes : outlook.today_ends;
  if (current != nullptr && !current->reaches_the_end) machine.until = current->to;
  machine.next_window = next_after(windows, now);
}

void show(SpreadingView& material, const Windows& windows, const FarmOutlook& outlook,
          Instant now) {
  if (material.advice == model::to_word(model::Advice::not_known)) return;
  const bool clear = material.advice == model::to_word(model::Advice::clear);
  material.next_window = clear ? next_after(windows, now) : next_opening(windows, outlook, now);
}

}  // namespace

WindowView window_view(const TimeWindow& window) {
  return {.from = window.from, .to = window.to, .probability = window.chance};
}

void show_outlook(FieldView& field, const FarmOutlook& outlook, std::size_t index, Instant now) {
  const FieldDaysAhead* ahead = days_ahead_of(&outlook, index);
  if (ahead == nullptr) return;
  for (std::size_t i = 0; i < field.machines.size() && i < ahead->machines.size(); ++i)
    show(field.machines[i], ahead->machines[i], outlook, now);
  for (std::size_t i = 0; i < field.spreading.size() && i < ahead->materials.size(); ++i)
    show(field.spreading[i], ahead->materials[i], outlook, now);
}

}  // namespace gley::daemon
