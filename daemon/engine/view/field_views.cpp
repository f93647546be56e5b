#include "daemon/engine/view/field_views.hpp"

#include <algorithm>
#include <utility>

#include "daemon/engine/judge/judged_today.hpp"

namespace gley::daemon {

namespace {

/// A reload may have put other fields before it, or taken it away.
std::optional<FieldView> take(std::vector<FieldView>& views, std::size_t index,
                              const std::string& id) {
  if (index < views.size() && views[index].id == id) return std::move(views[index]);
  const auto found = std::find_if(views.begin(), views.end(),
                                  [&](const FieldView& view) { return view.id == id; });
  if (found == views.end()) return {};
  return std::move(*found);
}

}  // namespace

FieldViews::Grounds FieldViews::grounds_of(const FarmState& state, std::size_t field, Instant now,
                                           const FarmOutlook* outlook) {
  Grounds grounds;
  grounds.version = state.book().version(field);
  grounds.today = state.today();
  grounds.rain_24h_mm =
      state.last_hours().rain_24h_mm(state.book().weather(field).rain_station(state.today()));
  grounds.silent = silence_of(state, state.book().config(field).stations, now).has_value();
  if (outlook == nullptr) return grounds;
  grounds.outlook_made = outlook->made;
  // Windows open and close as time goes by; to the minute is as often as anyone looks.
  grounds.outlook_read = std::chrono::floor<std::chrono::minutes>(now);
  return grounds;
}

std::vector<ShownAnew> FieldViews::look(const FarmState& state, Instant now,
                                        const FarmOutlook* outlook, std::vector<FieldView>& views) {
  const std::size_t fields = state.book().fields();
  const bool all = grounds_.size() != fields || views.size() != fields;
  std::vector<FieldView> before;
  if (all) before = std::exchange(views, std::vector<FieldView>(fields));
  grounds_.resize(fields);
  std::vector<ShownAnew> anew;
  for (std::size_t i = 0; i < fields; ++i) {
    Grounds grounds = grounds_of(state, i, now, outlook);
    // How long a station has been silent is told in words, so silence is always told anew.
    if (!all && !grounds.silent && grounds == grounds_[i]) continue;
    grounds_[i] = grounds;
    FieldView view = field_view(state, i, now, outlook);
    anew.push_back(
        {i, all ? take(before, i, view.id) : std::optional<FieldView>(std::move(views[i]))});
    views[i] = std::move(view);
  }
  return anew;
}

}  // namespace gley::daemon
