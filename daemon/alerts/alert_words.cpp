#include <array>
#include <utility>

#include "daemon/alerts/alert.hpp"

namespace gley::daemon {

namespace {

using std::chrono::hours;

// CAP 1.2 (OASIS 2010) gives the words of severity, urgency and certainty. 'Observed' stands for
// what the water balance says of a day that has passed or is passing, 'Likely' for a chance of more
// than one half (CAP 1.2, 3.2.2), 'Possible' for less. The chances told are AlertLimits'. How long
// each lingers is our choice.
constexpr std::array<std::pair<AlertEvent, AlertWords>, alert_events.size()> table{{
    {AlertEvent::at_field_capacity,
     {"at field capacity", "Moderate", "Immediate", "Observed", "At field capacity",
      "The soil holds all the water it can against gravity. More rain will drain, run off or "
      "stand.",
      "Keep heavy wheels off, hold slurry and fertiliser, and look at drains and ditches. Local "
      "codes and product labels decide.",
      hours{0}}},
    {AlertEvent::waterlogged,
     {"waterlogged", "Severe", "Immediate", "Observed", "Waterlogged",
      "Half or more of the topsoil's room for surplus water is full, or water stands on the "
      "ground.",
      "Keep machines and stock off, spread nothing, and check outfalls and ditches. Local codes "
      "and product labels decide.",
      hours{0}}},
    {AlertEvent::rain_expected,
     {"near field capacity with rain expected", "Moderate", "Expected", "Possible",
      "Near field capacity with rain expected",
      "The forecast may bring the soil to field capacity within 48 hours: a chance of 3 in 10 or "
      "more.",
      "Finish heavy work while the ground carries it, and hold slurry and fertiliser. Local codes "
      "and product labels decide.",
      hours{24}}},
    {AlertEvent::window_opening,
     {"window opening", "Minor", "Expected", "Likely", "Window opening",
      "Fields that have been closed to this machine are likely to carry it in working hours within "
      "a day, or have just begun to.",
      "Get the machine ready, and walk the field before you drive on it.", hours{12}}},
    {AlertEvent::window_closing,
     {"window closing", "Moderate", "Expected", "Possible", "Window closing",
      "Fields that opened to this machine a few days ago may close again within a day: that they "
      "carry it is no longer likely enough for a window.",
      "Finish what cannot wait, the wettest field first.", hours{12}}},
    {AlertEvent::rain_on_dressing,
     {"heavy rain on a fresh dressing", "Moderate", "Expected", "Possible",
      "Heavy rain coming on a fresh dressing",
      "Heavy rain has fallen today, or may within 48 hours with a chance of 3 in 10 or more, on "
      "what was spread in the last days: it may wash off or down to the drains.",
      "Spread no more there, and watch ditches and outfalls. Local codes and product labels "
      "decide.",
      hours{12}}},
    {AlertEvent::runoff_likely,
     {"runoff likely", "Severe", "Expected", "Likely", "Runoff likely",
      "Water is running off the surface today, or may within 48 hours with a chance of 5 in 10 or "
      "more.",
      "Spread nothing, keep stock and loose soil from slopes above water, and see that ditches are "
      "open. Local codes and product labels decide.",
      hours{12}}},
    {AlertEvent::drains_to_start,
     {"drains expected to start", "Minor", "Expected", "Likely", "Drains expected to start",
      "After a week or more without, water has begun to leave below the roots or by the pipes, or "
      "is likely to within two days: a chance of 6 in 10 or more.",
      "Hold slurry and fertiliser, and look at the outfalls when they run. Local codes and product "
      "labels decide.",
      hours{12}}},
    {AlertEvent::drains_to_stop,
     {"drains expected to stop", "Minor", "Expected", "Likely", "Drains expected to stop",
      "After a week or more in which water left below the roots or by the pipes, that is ending, "
      "and unlikely to begin again in the next days: a chance of 3 in 10 or less.",
      "Walk the field: the ground may carry again within days.", hours{12}}},
    {AlertEvent::frozen_ground,
     {"frozen ground", "Minor", "Expected", "Likely", "Frozen ground",
      "The ground counts as frozen today, or is likely to by tomorrow, a chance of 6 in 10 or "
      "more: what is spread stays on the surface and runs off with the thaw.",
      "Spread nothing. A frozen skin does not carry heavy wheels, and a thaw leaves it soft. Local "
      "codes and product labels decide.",
      hours{24}}},
    {AlertEvent::short_of_water,
     {"short of water", "Minor", "Immediate", "Observed", "Short of water",
      "The crop has used the water it can take up easily, and grows less than it could.",
      "Irrigate if you can, beginning where the crop is worth most; one that ripens wants none. "
      "Move stock before the grass is bare.",
      hours{24}}},
    {AlertEvent::station_silent,
     {"station silent", "Minor", "Immediate", "Observed", "No readings",
      "Nothing has been heard from this weather station for longer than it should take. Answers "
      "for its fields rest on old weather.",
      "Check the station's power, its radio and the broker; walk the fields before you decide.",
      hours{0}}},
    {AlertEvent::time_unknown,
     {"readings without a time", "Minor", "Past", "Observed", "Readings without a time",
      "Readings that carry no time of their own waited while the connection was down. When they "
      "were measured is not known, so they are kept and not used.",
      "Have the station send the time with each reading, or enter the day's rain from a file.",
      hours{0}}},
    {AlertEvent::gauge_blocked,
     {"rain gauge blocked", "Moderate", "Immediate", "Likely", "Rain gauge blocked",
      "The gauge has counted next to nothing on days on which it rained at the stations around it "
      "or, where there are none, much rain was forecast. "
      "Its rain is not used: the next station's is, where a field names one, else none.",
      "Clear the funnel of leaves, nests and insects, and check the cable. If it was truly dry, "
      "say so with the command 'gleyd accept'.",
      hours{0}}},
    {AlertEvent::readings_doubted,
     {"readings doubted", "Minor", "Immediate", "Likely", "Readings doubted",
      "A sensor sent values that cannot be or that never move. They are kept and not used: another "
      "station's values, or estimates, stand in their place.",
      "The command 'gleyd doubts' lists them, and what to do about each; 'gleyd accept' says "
      "that they are right.",
      hours{0}}},
    {AlertEvent::clock_off,
     {"station clock off", "Moderate", "Immediate", "Likely", "Station clock off",
      "The times that this station gives differ steadily from the moments at which its readings "
      "come, by half an hour or more. Its rain may count for the wrong day; times over 10 minutes "
      "ahead are kept and not used.",
      "Set the station's clock, and have it send UTC or the offset with each time.", hours{0}}},
}};

}  // namespace

const AlertWords& words_of(AlertEvent event) {
  for (const auto& [own, words] : table)
    if (own == event) return words;
  return table.front().second;
}

std::optional<AlertEvent> alert_event_from(std::string_view word) {
  for (const auto& [event, words] : table)
    if (words.event == word) return event;
  return {};
}

}  // namespace gley::daemon
