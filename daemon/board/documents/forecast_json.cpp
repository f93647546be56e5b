#include "daemon/board/documents/forecast_json.hpp"

#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/local_time.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

constexpr double fine = 0.001;

Json score_object(const ForecastScoreView& score) {
  Json out{{"lead_days", score.lead_days}, {"pairs", score.pairs}};
  if (score.pairs < pairs_for_a_score) {
    out["remark"] = "not enough history";
    return out;
  }
  out["rain_yes_no_right"] = score.right;
  const model::BrierScore& brier = score.brier;
  out["brier"] = round_to(brier.score, fine);
  out["brier_reliability"] = round_to(brier.reliability, fine);
  out["brier_resolution"] = round_to(brier.resolution, fine);
  out["brier_uncertainty"] = round_to(brier.uncertainty, fine);
  out["brier_skill"] = brier.skill ? Json(round_to(*brier.skill, fine)) : Json(nullptr);
  out["crps_rain_mm"] = round_to(score.crps_mm, fine);
  return out;
}

}  // namespace

std::string forecast_json(const BoardSnapshot& board) {
  if (!board.forecast) return "null";
  const ForecastView& forecast = *board.forecast;
  return json_text(
      Json{{"time", rfc3339(board.time)},
           {"forecast_time", rfc3339(forecast.received)},
           {"members_sent", forecast.members_sent},
           {"members_in_use", forecast.members},
           {"days", forecast.days},
           {"problem", forecast.problem.empty() ? Json(nullptr) : Json(forecast.problem)},
           {"not_used", forecast.unused},
           {"rain_day_from_mm", 1.0},
           {"scores", json_list(forecast.scores, score_object)}});
}

}  // namespace gley::daemon
