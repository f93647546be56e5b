#include "daemon/engine/run/topics.hpp"

#include <cmath>

#include "daemon/board/documents/topic_json.hpp"

namespace gley::daemon {

namespace {

bool same_mm(double a, double b) {
  return std::lround(a * 10.0) == std::lround(b * 10.0);
}

bool same_layers(const std::vector<LayerView>& a, const std::vector<LayerView>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t l = 0; l < a.size(); ++l)
    if (std::lround(a[l].theta * 1000.0) != std::lround(b[l].theta * 1000.0)) return false;
  return true;
}

bool same_machines(const std::vector<MachineView>& a, const std::vector<MachineView>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (machine_json(a[i], {}) != machine_json(b[i], {})) return false;
  return true;
}

bool same_spreading(const std::vector<SpreadingView>& a, const std::vector<SpreadingView>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (spreading_json(a[i], {}) != spreading_json(b[i], {})) return false;
  return true;
}

/// Whether two views of a field are the same to anyone who reads them: in words, and in numbers to
/// 0.1 mm and 0.001 of water content.
bool looks_the_same(const FieldView& a, const FieldView& b) {
  return a.id == b.id && a.name == b.name && a.known == b.known && a.date == b.date &&
         a.wetness == b.wetness && a.drains_running == b.drains_running && a.flags == b.flags &&
         a.sign == b.sign && a.reasons == b.reasons && same_mm(a.depletion_mm, b.depletion_mm) &&
         same_mm(a.topsoil_deficit_mm, b.topsoil_deficit_mm) &&
         same_mm(a.surplus_mm, b.surplus_mm) && same_mm(a.rain_today_mm, b.rain_today_mm) &&
         same_mm(a.et0_mm, b.et0_mm) && same_layers(a.layers, b.layers) &&
         same_machines(a.machines, b.machines) && same_spreading(a.spreading, b.spreading);
}

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
  const auto offer = [&](const std::string& topic, const auto& json_at) {
    publisher_.offer(topic, json_at(now), json_at(Instant{}), now);
  };
  offer(base + "water", [&](Instant at) { return water_json(field, at); });
  for (const MachineView& machine : field.machines)
    offer(base + "machine/" + machine.id, [&](Instant at) { return machine_json(machine, at); });
  for (const SpreadingView& material : field.spreading)
    offer(base + "spreading/" + material.id,
          [&](Instant at) { return spreading_json(material, at); });
  publisher_.offer(base + "sign", field.sign, field.sign, now);
}

bool Topics::offer(const BoardSnapshot& board, const std::vector<ShownAnew>& anew) {
  if (all_) publisher_.begin_round();
  bool changed = all_;
  for (const ShownAnew& shown : anew) {
    const FieldView& field = board.fields[shown.field];
    if (!all_ && shown.before && looks_the_same(*shown.before, field)) continue;
    offer_field(field, board.time);
    changed = changed || !shown.before || !same_on_board(*shown.before, field);
  }
  for (const AlertView& alert : board.alerts) {
    const std::string json = alert_json(alert);
    publisher_.offer("alert/" + alert.id, json, json, board.time);
  }
  const std::string frame_json = without_time(board_json(board_frame(board)));
  changed = changed || frame_json != frame_;
  frame_ = frame_json;
  if (changed) offer_board();
  if (all_) publisher_.withdraw_others(board.time);
  all_ = false;
  return changed;
}

/// With 500 fields the board takes milliseconds to write, and it goes out once a second at most.
void Topics::offer_board() {
  publisher_.offer_late("board", [this] {
    const std::string body = write_board_();
    return Publisher::Written{body, without_time(body)};
  });
}

}  // namespace gley::daemon
