#include "daemon/engine/run/topics.hpp"

#include "daemon/board/documents/topic_json.hpp"

namespace gley::daemon {

namespace {

/// The board but for its fields.
BoardSnapshot board_frame(const BoardSnapshot& board) {
  BoardSnapshot frame;
  frame.time = board.time;
  frame.farm_id = board.farm_id;
  frame.farm_name = board.farm_name;
  frame.stations = board.stations;  // what is doubted of them
  frame.alerts = board.alerts;
  frame.forecast = board.forecast;  // when it came
  return frame;
}

}  // namespace

void Topics::offer_field(const FieldView& field, Instant now) {
  const std::string base = "field/" + field.id + "/";
  publisher_.offer(base + "water", water_json(field, now), now);
  for (const MachineView& machine : field.machines)
    publisher_.offer(base + "machine/" + machine.id, machine_json(machine, now), now);
  for (const SpreadingView& material : field.spreading)
    publisher_.offer(base + "spreading/" + material.id, spreading_json(material, now), now);
  publisher_.offer(base + "sign", field.sign, now);
}

bool Topics::offer(const BoardSnapshot& board, const std::vector<ShownAnew>& anew) {
  if (all_) publisher_.begin_round();
  bool changed = all_;
  for (const ShownAnew& shown : anew) {
    const FieldView& field = board.fields[shown.field];
    offer_field(field, board.time);
    changed = changed || !shown.before || !same_on_board(*shown.before, field);
  }
  for (const AlertView& alert : board.alerts)
    publisher_.offer("alert/" + alert.id, alert_json(alert), board.time);
  const std::string frame_json = without_time(board_json(board_frame(board)));
  changed = changed || frame_json != frame_;
  frame_ = frame_json;
  // With 500 fields the board takes milliseconds to write, and it goes out once a second at most.
  if (changed) publisher_.offer_late("board", write_board_);
  if (all_) publisher_.withdraw_others(board.time);
  all_ = false;
  return changed;
}

}  // namespace gley::daemon
