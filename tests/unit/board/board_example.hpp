#pragma once
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// 2026-11-25 06:40 UTC, which is 06:40 in London too: a Wednesday.
inline constexpr Instant example_time{std::chrono::sys_days{std::chrono::year{2026} / 11 / 25} +
                                      std::chrono::hours{6} + std::chrono::minutes{40}};

/// A name that tries to leave every place it may be written to.
inline const std::string hostile_name = "<script>\"'&\x1b[2J\xff";

[[nodiscard]] inline bool has(const std::string& page, const std::string& words) {
  return page.find(words) != std::string::npos;
}

inline FieldView example_field() {
  FieldView field;
  field.id = "top";
  field.name = "Top Field";
  field.soil = "clay loam";
  field.crop = "grass";
  field.drainage = "moderate";
  field.known = true;
  field.date = "2026-11-25";
  field.wetness = "near field capacity";
  field.depletion_mm = 6.26;
  field.topsoil_deficit_mm = 3.44;
  field.surplus_mm = 0.04;
  field.rain_today_mm = 12.06;
  field.et0_mm = 0.51;
  field.layers = {{100.0, 0.35449, 0.2, 0.36, 0.48}, {200.0, 0.3601, 0.2, 0.36, 0.48}};
  field.flags = {"start_assumed", "humidity_estimated"};
  field.reasons = {"12 mm of rain today"};
  field.machines = {{"drill", "Tractor and drill", "with care", 0.1234, {"topsoil 5 kPa"}, {}}};
  field.spreading = {{"nitrogen", "Nitrogen", "hold", {"rain likely"}}};
  field.sign_machine = "drill";
  field.station = "yard";
  return field;
}

inline AlertView example_alert() {
  return {.id = "rain-1",
          .fields = {"top"},
          .field_names = {"Top Field"},
          .event = "heavy rain",
          .severity = "Severe",
          .urgency = "Expected",
          .certainty = "Likely",
          .onset = example_time - std::chrono::hours{3},
          .headline = "Heavy rain likely on Thursday",
          .description = "18 to 31 mm in a day.",
          .instruction = "Hold nitrogen."};
}

inline BoardSnapshot example_board() {
  BoardSnapshot board;
  board.farm_id = "alder";
  board.farm_name = "Alder Farm";
  board.time_zone = "Europe/London";
  board.time = example_time;
  board.revision = 7;
  board.fields = {example_field()};
  board.stations = {{"yard", example_time - std::chrono::minutes{2}, false}};
  board.alerts = {example_alert()};
  board.service.broker_connected = true;
  board.service.broker = "localhost:1883";
  return board;
}

}  // namespace gley::daemon
