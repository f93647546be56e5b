#include "model/outlook/field_outlook.hpp"

#include <algorithm>

#include "model/ground/ground_margin.hpp"
#include "model/outlook/chance.hpp"

namespace gley::model {

namespace {

constexpr std::size_t days_of_capacity_alert = 2;  // today and tomorrow: evenings within 48 h
constexpr std::size_t days_of_leaching = 7;
constexpr double full_at_depletion_mm = 1.0;  // as the wetness 'at field capacity'

/// How often each thing holds on each day.
class Tally {
 public:
  Tally(std::size_t things, std::size_t days) : days_(days), counts_(things * days) {}
  void note(std::size_t thing, std::size_t day, bool holds) {
    counts_[thing * days_ + day] += holds ? 1 : 0;
  }
  [[nodiscard]] std::vector<double> chances(std::size_t thing, std::size_t members) const {
    std::vector<double> out;
    for (std::size_t d = 0; d < days_; ++d)
      out.push_back(chance_of({.happened = counts_[thing * days_ + d], .members = members}));
    return out;
  }

 private:
  std::size_t days_;
  std::vector<std::size_t> counts_;
};

/// One day of one member, as far as spreading asks.
struct DayAhead {
  SpreadingField spreading;
  double drainage_mm = 0.0;
  double runoff_mm = 0.0;
};

double leaving_mm(const FieldDay& day) {
  return day.fluxes.drainage_mm + day.fluxes.pipe_drain_mm;
}

/// The kinds asked for, each once: materials of one kind have one answer.
std::vector<MaterialKind> kinds_of(const std::vector<MaterialKind>& materials) {
  std::vector<MaterialKind> kinds;
  for (const MaterialKind kind : materials)
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
  return kinds;
}

class Outlook {
 public:
  Outlook(const FieldAhead& field, const WeatherAhead& weather, const OutlookQuestion& question)
      : field_(field),
        weather_(weather),
        question_(question),
        kinds_(kinds_of(question.materials)),
        carried_(question.machines.size(), weather.days()),
        clear_(kinds_.size(), spreading_days()),
        spreads_(weather.days()) {}

  [[nodiscard]] FieldOutlook look() {
    for (std::size_t m = 0; m < weather_.members.size(); ++m) step_member(m, begins(m));
    return answer();
  }

 private:
  [[nodiscard]] std::size_t spreading_days() const {
    return weather_.days() > 0 ? weather_.days() - 1 : 0;
  }

  [[nodiscard]] const FieldState& begins(std::size_t member) const {
    return field_.if_wetter != nullptr && member % 2 == 1 ? *field_.if_wetter : field_.evening;
  }

  void step_member(std::size_t member, FieldState state) {
    const std::vector<StationDay>& days = weather_.members[member];
    bool frozen_before = field_.frozen_before;
    bool fills = false;
    ahead_.clear();
    for (std::size_t d = 0; d < days.size(); ++d) {
      const FieldDay day = step_field(field_.field, days[d], state);
      const GroundState<double> ground =
          ground_state(field_.field, day, {.frozen = frozen_before, .rain_24h_mm = {}});
      frozen_before = day.ground.frozen;
      judge_machines(ground, d);
      if (!kinds_.empty()) ahead_.push_back(day_ahead(day, ground));
      fills = fills || (d < days_of_capacity_alert && day.depletion_mm <= full_at_depletion_mm);
      add_water(day, d);
      spreads_.note(d, day);
    }
    filled_ += fills ? 1 : 0;
    for (std::size_t d = 0; d < spreading_days() && !kinds_.empty(); ++d)
      judge_spreading(d, weather_.heavy_rain[d][member]);
  }

  void judge_machines(const GroundState<double>& ground, std::size_t day) {
    const GroundLimits& limits = question_.rules.ground;
    const GroundStrength<double> strength = ground_strength(ground, limits);
    for (std::size_t i = 0; i < question_.machines.size(); ++i) {
      const double margin = machine_margin(question_.machines[i], strength, limits);
      carried_.note(i, day, verdict_of(margin, limits) == Verdict::carries);
    }
  }

  [[nodiscard]] DayAhead day_ahead(const FieldDay& day, const GroundState<double>& ground) const {
    DayAhead out;
    out.spreading = spreading_field(field_.field, day, ground, field_.place);
    out.drainage_mm = leaving_mm(day);
    out.runoff_mm = day.fluxes.runoff_mm;
    return out;
  }

  void judge_spreading(std::size_t d, bool heavy_rain) {
    SpreadingOutlook next;
    next.drainage_48h_mm = ahead_[d].drainage_mm + ahead_[d + 1].drainage_mm;
    next.runoff_48h_mm = ahead_[d].runoff_mm + ahead_[d + 1].runoff_mm;
    next.chance_heavy_rain_48h = heavy_rain ? 1.0 : 0.0;
    for (std::size_t e = d; e < std::min(ahead_.size(), d + days_of_leaching); ++e)
      next.drainage_7d_mm += ahead_[e].drainage_mm;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      const SpreadingAdvice advice = advise(kinds_[k], ahead_[d].spreading, next, question_.rules);
      clear_.note(k, d, advice.advice == Advice::clear);
    }
  }

  /// Today's water still to leave by the share of today that is left; the last day of the span by
  /// the rest.
  void add_water(const FieldDay& day, std::size_t d) {
    const double left = weather_.share_of_today_left;
    const double share_48h = d == 0 ? left : d == 1 ? 1.0 : d == 2 ? 1.0 - left : 0.0;
    const double share_7d = d == 0                  ? left
                            : d < days_of_leaching  ? 1.0
                            : d == days_of_leaching ? 1.0 - left
                                                    : 0.0;
    water_.drainage_48h_mm += share_48h * leaving_mm(day);
    water_.runoff_48h_mm += share_48h * day.fluxes.runoff_mm;
    water_.drainage_7d_mm += share_7d * leaving_mm(day);
  }

  [[nodiscard]] FieldOutlook answer() const {
    const std::size_t members = weather_.members.size();
    FieldOutlook out;
    if (members == 0) return out;
    out.water = water_;
    out.water.drainage_48h_mm /= static_cast<double>(members);
    out.water.runoff_48h_mm /= static_cast<double>(members);
    out.water.drainage_7d_mm /= static_cast<double>(members);
    out.days = spreads_.answer();
    out.chance_at_capacity_48h = chance_of({.happened = filled_, .members = members});
    for (std::size_t i = 0; i < question_.machines.size(); ++i) {
      out.machine_chance.push_back(carried_.chances(i, members));
      out.machines.push_back(windows(out.machine_chance.back(), question_.least_chance));
    }
    for (const MaterialKind kind : question_.materials) {
      const auto at = std::find(kinds_.begin(), kinds_.end(), kind) - kinds_.begin();
      out.materials.push_back(
          windows(clear_.chances(static_cast<std::size_t>(at), members), question_.least_chance));
    }
    return out;
  }

  const FieldAhead& field_;
  const WeatherAhead& weather_;
  const OutlookQuestion& question_;
  std::vector<MaterialKind> kinds_;
  Tally carried_;
  Tally clear_;
  DaySpreads spreads_;
  std::vector<DayAhead> ahead_;
  SpreadingOutlook water_;
  std::size_t filled_ = 0;
};

}  // namespace

FieldOutlook field_outlook(const FieldAhead& field, const WeatherAhead& weather,
                           const OutlookQuestion& question) {
  return Outlook(field, weather, question).look();
}

}  // namespace gley::model
