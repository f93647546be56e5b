#include "daemon/readings/doubt.hpp"

namespace gley::daemon {

std::string_view to_word(DoubtKind kind) {
  switch (kind) {
    case DoubtKind::spike:
      return "spike";
    case DoubtKind::stuck:
      return "stuck";
    case DoubtKind::counter_jump:
      return "counter jump";
    case DoubtKind::above_air_temperature:
      return "above air temperature";
    case DoubtKind::saturated:
      return "saturated for days";
    case DoubtKind::blocked:
      return "blocked";
    case DoubtKind::apart:
      return "far from its neighbours";
    case DoubtKind::out_of_season:
      return "out of season";
  }
  return "";
}

namespace {

constexpr std::uint64_t kinds = 8;
constexpr std::uint64_t quantities = 8;

std::uint64_t bit(std::uint64_t quantity, std::uint64_t kind) {
  return std::uint64_t{1} << (kinds * quantity + kind);
}

}  // namespace

DoubtSet::DoubtSet(const std::vector<Doubt>& doubts) {
  for (const Doubt& doubt : doubts) {
    const auto own =
        bit(static_cast<std::uint64_t>(doubt.quantity), static_cast<std::uint64_t>(doubt.kind));
    found_ |= own;
    if (doubt.accepted) accepted_ |= own;
  }
}

std::vector<Doubt> DoubtSet::list() const {
  std::vector<Doubt> doubts;
  for (std::uint64_t quantity = 0; quantity < quantities; ++quantity)
    for (std::uint64_t kind = 0; kind < kinds; ++kind)
      if ((found_ & bit(quantity, kind)) != 0)
        doubts.push_back({.quantity = static_cast<Quantity>(quantity),
                          .kind = static_cast<DoubtKind>(kind),
                          .accepted = (accepted_ & bit(quantity, kind)) != 0});
  return doubts;
}

std::string in_words(const Doubt& doubt) {
  std::string text = std::string(to_word(doubt.quantity)) + ' ' + std::string(to_word(doubt.kind));
  if (doubt.readings > 0)
    text +=
        ": " + std::to_string(doubt.readings) + (doubt.readings == 1 ? " reading" : " readings");
  if (!doubt.source.empty()) text += " on " + doubt.source;
  return text + (doubt.accepted ? "; accepted by a person and used" : "; not used");
}

void flag_doubt(model::DayFlags& flags, const Doubt& doubt) {
  if (doubt.accepted || doubt.kind == DoubtKind::spike) return;
  switch (doubt.quantity) {
    case Quantity::rain:
      return flags.set(model::DayFlag::rain_doubtful);
    case Quantity::temperature:
      return flags.set(model::DayFlag::temperature_doubtful);
    case Quantity::humidity:
    case Quantity::dew_point:
      return flags.set(model::DayFlag::humidity_doubtful);
    case Quantity::wind:
      return flags.set(model::DayFlag::wind_doubtful);
    case Quantity::sunshine:
    case Quantity::radiation:
      return flags.set(model::DayFlag::radiation_doubtful);
    case Quantity::irrigation:
      return;
  }
}

std::string_view what_to_do(DoubtKind kind) {
  switch (kind) {
    case DoubtKind::spike:
      return "Look for a loose plug, a wet joint or a failing battery.";
    case DoubtKind::stuck:
      return "Switch the sensor off and on; if the value stays, replace it.";
    case DoubtKind::counter_jump:
      return "Find out whether the counter was reset or served; the day's rain may be short.";
    case DoubtKind::above_air_temperature:
    case DoubtKind::saturated:
      return "Dry and clean the humidity sensor and its shield, or replace it.";
    case DoubtKind::blocked:
      return "Clear the rain gauge's funnel of leaves, nests and insects, and check its cable.";
    case DoubtKind::apart:
    case DoubtKind::out_of_season:
      return "Check the thermometer's shade, its place and the unit it is mapped with.";
  }
  return "";
}

}  // namespace gley::daemon
