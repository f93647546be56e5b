#include <array>
#include <utility>

#include "daemon/alerts/alert.hpp"

namespace gley::daemon {

namespace {

// CAP 1.2 (OASIS 2010) gives the words of severity, urgency and certainty. 'Observed' stands for
// what the water balance says of a day that has passed or is passing.
constexpr std::array<std::pair<AlertEvent, AlertWords>, 8> table{{
    {AlertEvent::at_field_capacity,
     {"at field capacity", "Moderate", "Immediate", "Observed", "At field capacity",
      "The soil holds all the water it can against gravity. More rain will drain, run off or "
      "stand.",
      "Keep heavy wheels off, hold slurry and fertiliser, and look at drains and ditches. Local "
      "codes and product labels decide."}},
    {AlertEvent::waterlogged,
     {"waterlogged", "Severe", "Immediate", "Observed", "Waterlogged",
      "Half or more of the topsoil's room for surplus water is full, or water stands on the "
      "ground.",
      "Keep machines and stock off, spread nothing, and check outfalls and ditches. Local codes "
      "and "
      "product labels decide."}},
    {AlertEvent::rain_expected,
     {"near field capacity with rain expected", "Moderate", "Expected", "Possible",
      "Near field capacity with rain expected",
      "The forecast may bring the soil to field capacity within 48 hours: a chance of 3 in 10 or "
      "more.",
      "Finish heavy work while the ground carries it, and hold slurry and fertiliser. Local codes "
      "and product labels decide."}},
    {AlertEvent::station_silent,
     {"station silent", "Minor", "Immediate", "Observed", "No readings",
      "Nothing has been heard from this weather station for longer than it should take. Answers "
      "for "
      "its fields rest on old weather.",
      "Check the station's power, its radio and the broker; walk the fields before you decide."}},
    {AlertEvent::time_unknown,
     {"readings without a time", "Minor", "Past", "Observed", "Readings without a time",
      "Readings that carry no time of their own waited while the connection was down. When they "
      "were "
      "measured is not known, so they are kept and not used.",
      "Have the station send the time with each reading, or enter the day's rain from a file."}},
    {AlertEvent::gauge_blocked,
     {"rain gauge blocked", "Moderate", "Immediate", "Likely", "Rain gauge blocked",
      "The gauge has counted next to nothing on days on which it rained at the stations around it. "
      "Its rain is not used: the next station's is, where a field names one, else none.",
      "Clear the funnel of leaves, nests and insects, and check the cable. If it was truly dry, "
      "say "
      "so with gleyd accept."}},
    {AlertEvent::readings_doubted,
     {"readings doubted", "Minor", "Immediate", "Likely", "Readings doubted",
      "A sensor sent values that cannot be or that never move. They are kept and not used: another "
      "station's values, or estimates, stand in their place.",
      "gleyd doubts lists them, and what to do about each; gleyd accept takes up what is right."}},
    {AlertEvent::clock_off,
     {"station clock off", "Moderate", "Immediate", "Likely", "Station clock off",
      "The times that this station gives differ steadily from the moments at which its readings "
      "come, by half an hour or more. Its rain may count for the wrong day; times over 10 minutes "
      "ahead are kept and not used.",
      "Set the station's clock, and have it send UTC or the offset with each time."}},
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
