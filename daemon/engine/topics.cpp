#include "daemon/engine/topics.hpp"

#include <cmath>

#include "daemon/board/topic_json.hpp"

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

std::string base_of(const FieldView& field) {
  return "field/" + field.id + "/";
}

}  // namespace

bool looks_the_same(const FieldView& a, const FieldView& b) {
  return a.id == b.id && a.name == b.name && a.known == b.known && a.date == b.date &&
         a.wetness == b.wetness && a.drains_running == b.drains_running && a.flags == b.flags &&
         a.sign == b.sign && a.reasons == b.reasons && same_mm(a.depletion_mm, b.depletion_mm) &&
         same_mm(a.topsoil_deficit_mm, b.topsoil_deficit_mm) &&
         same_mm(a.surplus_mm, b.surplus_mm) && same_mm(a.rain_today_mm, b.rain_today_mm) &&
         same_mm(a.et0_mm, b.et0_mm) && same_layers(a.layers, b.layers) &&
         same_machines(a.machines, b.machines) && same_spreading(a.spreading, b.spreading);
}

void Topics::offer_field(const FieldView& field, Instant now) {
  const std::string base = base_of(field);
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

void Topics::keep_field(const FieldView& field) {
  const std::string base = base_of(field);
  publisher_.keep(base + "water");
  for (const MachineView& machine : field.machines) publisher_.keep(base + "machine/" + machine.id);
  for (const SpreadingView& material : field.spreading)
    publisher_.keep(base + "spreading/" + material.id);
  publisher_.keep(base + "sign");
}

void Topics::offer(const BoardSnapshot& board) {
  bool all_kept = offered_.size() == board.fields.size();
  for (std::size_t i = 0; i < board.fields.size(); ++i) {
    const FieldView& field = board.fields[i];
    if (i < offered_.size() && looks_the_same(offered_[i], field)) {
      keep_field(field);
    } else {
      offer_field(field, board.time);
      all_kept = false;
    }
  }
  if (!all_kept) offered_ = board.fields;
  const std::string body = board_json(board);
  publisher_.offer("board", body, without_time(body), board.time);
  for (const AlertView& alert : board.alerts) {
    const std::string json = alert_json(alert);
    publisher_.offer("alert/" + alert.id, json, json, board.time);
  }
  publisher_.withdraw_others(board.time);
}

}  // namespace gley::daemon
