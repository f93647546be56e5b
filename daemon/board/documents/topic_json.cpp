#include "daemon/board/documents/topic_json.hpp"

#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/local_time.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {
namespace {

using Json = nlohmann::ordered_json;

Json number_or_null(const std::optional<double>& value, double step) {
  return value ? Json(round_to(*value, step)) : Json(nullptr);
}

Json mm_if(bool known, double value_mm) {
  return known ? Json(round_to(value_mm, 0.1)) : Json(nullptr);
}

Json text_or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json word_if(bool known, const std::string& word) {
  return known ? text_or_null(word) : Json(nullptr);
}

Json time_or_null(const std::optional<Instant>& time) {
  return time ? Json(rfc3339(*time)) : Json(nullptr);
}

Json window_or_null(const std::optional<WindowView>& window) {
  if (!window) return nullptr;
  return {{"from", rfc3339(window->from)},
          {"to", rfc3339(window->to)},
          {"probability", round_to(window->probability, 0.01)}};
}

Json theta(const FieldView& field) {
  if (!field.known) return Json::array();
  return json_list(field.layers,
                   [](const LayerView& layer) { return round_to(layer.theta, 0.001); });
}

Json water(const FieldView& field, Instant time) {
  const bool known = field.known;
  return {{"time", rfc3339(time)},
          {"date", word_if(known, field.date)},
          {"wetness", word_if(known, field.wetness)},
          {"depletion_mm", mm_if(known, field.depletion_mm)},
          {"topsoil_deficit_mm", mm_if(known, field.topsoil_deficit_mm)},
          {"surplus_mm", mm_if(known, field.surplus_mm)},
          {"theta", theta(field)},
          {"rain_today_mm", mm_if(known, field.rain_today_mm)},
          {"et0_mm", mm_if(known, field.et0_mm)},
          {"drains", word_if(known, field.drains_running ? "running" : "dry")},
          {"uncertainty_mm", known ? number_or_null(field.uncertainty_mm, 0.1) : Json(nullptr)},
          {"flags", field.flags}};
}

Json machine_object(const MachineView& machine, Instant time) {
  return {{"time", rfc3339(time)},
          {"verdict", machine.verdict},
          {"margin", number_or_null(machine.margin, 0.01)},
          {"reasons", machine.reasons},
          {"until", time_or_null(machine.until)},
          {"next_window", window_or_null(machine.next_window)}};
}

Json spreading_object(const SpreadingView& spreading, Instant time) {
  return {{"time", rfc3339(time)},
          {"advice", spreading.advice},
          {"reasons", spreading.reasons},
          {"next_window", window_or_null(spreading.next_window)},
          {"n_at_risk_kg_ha", number_or_null(spreading.n_at_risk_kg_ha, 0.1)},
          {"caution", spreading_caution}};
}

Json alert_object(const AlertView& alert) {
  return {{"id", alert.id},
          {"fields", alert.fields},
          {"event", alert.event},
          {"severity", alert.severity},
          {"urgency", alert.urgency},
          {"certainty", alert.certainty},
          {"onset", rfc3339(alert.onset)},
          {"headline", alert.headline},
          {"description", alert.description},
          {"instruction", alert.instruction},
          {"seen_by", text_or_null(alert.seen_by)},
          {"seen", time_or_null(alert.seen)}};
}

Json dressings(const FieldView& field) {
  return json_list(field.dressings, [](const DressingView& dressing) {
    return Json{{"material", dressing.material},
                {"rate", dressing.rate},
                {"unit", dressing.unit},
                {"time", rfc3339(dressing.time)},
                {"by", text_or_null(dressing.by)}};
  });
}

Json check_or_null(const std::optional<ReportCheck>& check) {
  if (!check) return nullptr;
  return {{"machine", text_or_null(check->machine)},
          {"as", check->said},
          {"since", check->since},
          {"days_before", check->days_before},
          {"or_earlier", check->or_earlier}};
}

Json reports(const FieldView& field) {
  return json_list(field.reports, [](const ReportView& report) {
    return Json{{"report", report.report},
                {"machine", text_or_null(report.machine)},
                {"time", rfc3339(report.time)},
                {"by", text_or_null(report.by)},
                {"judged", check_or_null(report.check)}};
  });
}

Json board_row(const FieldView& field) {
  Json machines = Json::object();
  for (const MachineView& machine : field.machines) machines[machine.id] = machine.verdict;
  Json spreading = Json::object();
  for (const SpreadingView& material : field.spreading) spreading[material.id] = material.advice;
  return {{"id", field.id},
          {"name", field.name},
          {"wetness", word_if(field.known, field.wetness)},
          {"topsoil_deficit_mm", mm_if(field.known, field.topsoil_deficit_mm)},
          {"surplus_mm", mm_if(field.known, field.surplus_mm)},
          {"machines", machines},
          {"spreading", spreading}};
}

/// What is doubted and not used, by station.
Json doubts_array(const std::vector<StationView>& stations) {
  Json out = Json::array();
  for (const StationView& station : stations)
    for (const DoubtView& doubt : station.doubts)
      out.push_back({{"station", station.id},
                     {"quantity", doubt.quantity},
                     {"reason", doubt.reason},
                     {"from", doubt.since},
                     {"to", doubt.last},
                     {"used", doubt.accepted},
                     {"instruction", doubt.what_to_do}});
  return out;
}

}  // namespace

std::string board_json(const BoardSnapshot& board) {
  const auto forecast_time =
      board.forecast ? std::optional(board.forecast->received) : std::nullopt;
  return json_text(Json{{"time", rfc3339(board.time)},
                        {"farm", board.farm_id},
                        {"fields", json_list(board.fields, board_row)},
                        {"alerts", json_list(board.alerts, alert_object)},
                        {"doubts", doubts_array(board.stations)},
                        {"forecast_time", time_or_null(forecast_time)}});
}

bool same_on_board(const FieldView& a, const FieldView& b) {
  return board_row(a) == board_row(b);
}

std::string water_json(const FieldView& field, Instant time) {
  return json_text(water(field, time));
}

std::string machine_json(const MachineView& machine, Instant time) {
  return json_text(machine_object(machine, time));
}

std::string spreading_json(const SpreadingView& spreading, Instant time) {
  return json_text(spreading_object(spreading, time));
}

std::string alert_json(const AlertView& alert) {
  return json_text(alert_object(alert));
}

std::string field_json(const FieldView& field, Instant time) {
  Json machines = Json::object();
  for (const MachineView& machine : field.machines) {
    machines[machine.id] = machine_object(machine, time);
  }
  Json spreading = Json::object();
  for (const SpreadingView& material : field.spreading) {
    spreading[material.id] = spreading_object(material, time);
  }
  return json_text(Json{{"id", field.id},
                        {"name", field.name},
                        {"water", water(field, time)},
                        {"machines", machines},
                        {"spreading", spreading},
                        {"dressings", dressings(field)},
                        {"reports", reports(field)}});
}

std::string alerts_json(const BoardSnapshot& board) {
  Json alerts = Json::array();
  const auto add = [&](const AlertView& alert) {
    Json own = alert_object(alert);
    own["ended"] = time_or_null(alert.ended);
    alerts.push_back(std::move(own));
  };
  for (const AlertView& alert : board.alerts) add(alert);
  if (board.past_alerts)
    for (const AlertView& alert : *board.past_alerts) add(alert);
  return json_text(
      Json{{"time", rfc3339(board.time)}, {"farm", board.farm_id}, {"alerts", alerts}});
}

std::string event_json(const BoardSnapshot& board) {
  return json_text(Json{{"revision", board.revision}, {"time", rfc3339(board.time)}});
}

}  // namespace gley::daemon
