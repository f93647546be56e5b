#include "daemon/engine/explain/explanation_day.hpp"

#include "daemon/engine/outlook/judged_with_outlook.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;
using Days = std::vector<model::StationDay>;

constexpr std::chrono::days one_day{1};

bool knows_temperatures(const model::StationDay& day) {
  return day.weather.tmin_c && day.weather.tmax_c &&
         !day.flags.has(model::DayFlag::temperature_estimated);
}

std::optional<sys_days> temperatures_known_before(const Days& days, sys_days date) {
  for (auto day = days.rbegin(); day != days.rend(); ++day)
    if (day->date < date && knows_temperatures(*day)) return day->date;
  return {};
}

std::optional<model::StationDay> day_on(const Days& days, sys_days date) {
  if (days.empty() || date < days.front().date || date > days.back().date) return {};
  return days[static_cast<std::size_t>((date - days.front().date).count())];
}

std::string no_weather(const FieldConfig& field, const Days& days, sys_days date) {
  const std::string none = "no weather for field '" + field.id + "' on " + date_text(date);
  if (days.empty()) return none + ", nor on any day: its stations have nothing on record";
  return none + ": its days run from " + date_text(days.front().date) + " to " +
         date_text(days.back().date);
}

ExplainedDay day_before_numbers(const FarmConfig& farm, const FieldBook& book, std::size_t field,
                                sys_days date) {
  const WeatherSequence& weather = book.weather(field);
  return {.farm = farm,
          .config = book.config(field),
          .field = book.history(field).field(),
          .seen = weather.seen_on(date),
          .choice = weather.choice(date, DayPart::whole),
          .sources = {},
          .doubts = {},
          .weather = {},
          .weather_before = day_on(weather.days(), date - one_day),
          .temperatures_known_on = temperatures_known_before(weather.days(), date),
          .morning = {},
          .day = {},
          .before = {},
          .silence = {},
          .advice = {}};
}

ExplainedDay today_so_far(const FarmState& state, std::size_t field, Instant now,
                          const FarmOutlook* outlook) {
  const FieldBook& book = state.book();
  const std::optional<model::FieldDay>& yesterday = book.history(field).last();
  const JudgedDay judged = judged_with_outlook(state, field, now, outlook);
  ExplainedDay out = day_before_numbers(state.farm(), book, field, state.today());
  out.choice = book.weather(field).choice(state.today(), DayPart::so_far);
  out.weather = book.weather(field).today(state.today());
  out.first = !yesterday;
  out.morning = yesterday ? yesterday->evening : model::start_of(out.field, out.weather);
  out.day = judged.day;
  out.before = judged.before;
  out.silence = judged.silence;
  out.so_far = true;
  out.if_wetter = judged.if_wetter;
  out.advice = spreading_views(state.farm(), out.config, judged);
  return out;
}

}  // namespace

tl::expected<ExplainedDay, std::string> ended_day(const FarmConfig& farm, const FieldBook& book,
                                                  std::size_t field, sys_days date) {
  const Days& days = book.weather(field).days();
  const auto weather = day_on(days, date);
  if (!weather) return tl::unexpected(no_weather(book.config(field), days, date));
  ExplainedDay out = day_before_numbers(farm, book, field, date);
  out.weather = *weather;
  out.first = date == days.front().date;
  out.morning = model::start_of(out.field, days.front());
  book.history(field).each(days, {date - one_day, date}, [&](const model::FieldDay& day) {
    if (day.date == date) {
      out.day = day;
      return;
    }
    out.morning = day.evening;
    out.before.frozen = day.ground.frozen;
  });
  out.advice = spreading_views(farm, out.config, {out.field, out.day, out.before});
  return out;
}

tl::expected<ExplainedDay, std::string> day_of_farm(const FarmState& state, std::size_t field,
                                                    sys_days date, Instant now,
                                                    const FarmOutlook* outlook) {
  const bool so_far = date == state.today() && state.day_of(field);
  tl::expected<ExplainedDay, std::string> out =
      so_far ? today_so_far(state, field, now, outlook)
             : ended_day(state.farm(), state.book(), field, date);
  if (!out) return out;
  out->sources = state.keeper().sources(out->config.stations, date);
  out->doubts = state.keeper().doubts(out->config.stations, date);
  return out;
}

}  // namespace gley::daemon
