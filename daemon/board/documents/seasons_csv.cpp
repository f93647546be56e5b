#include "daemon/board/documents/field_record_json.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

std::string header(const SeasonsView& view) {
  std::string text =
      "harvest_year,from,to,days,days_missing,rain_mm,irrigation_mm,et_mm,runoff_mm,drainage_mm,"
      "days_at_field_capacity,days_waterlogged,days_short_of_water,days_drains_ran";
  for (const NamedItem& machine : view.machines) text += ",days_carried_" + machine.id;
  return text + "\n";
}

std::string row(const SeasonView& season) {
  const SeasonSums& sums = season.whole;
  std::string text = std::to_string(season.harvest_year) + ',' + season.from + ',' + season.to +
                     ',' + std::to_string(sums.days) + ',' + std::to_string(season.days_missing);
  for (const double value :
       {sums.rain_mm, sums.irrigation_mm, sums.et_mm, sums.runoff_mm, sums.drainage_mm})
    text += ',' + number_text(round_to(value, 0.1));
  for (const int days : {sums.days_at_capacity, sums.days_waterlogged, sums.days_short_of_water,
                         sums.days_drains_ran})
    text += ',' + std::to_string(days);
  for (const int days : sums.days_carried) text += ',' + std::to_string(days);
  return text + "\n";
}

}  // namespace

std::string seasons_csv(const SeasonsView& view) {
  std::string text = header(view);
  for (const SeasonView& season : view.seasons) text += row(season);
  return text;
}

}  // namespace gley::daemon
