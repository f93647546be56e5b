#pragma once
#include <chrono>
#include <optional>

#include "model/crop/calendar.hpp"
#include "model/water/field_step.hpp"
#include "model/water/snow_and_frost.hpp"
#include "model/water/wetness.hpp"
#include "model/weather/station_day.hpp"

/// A field through its days: the field step with weather before it and words after it.
namespace gley::model {

struct Field {
  FieldParameters parameters;
  CropCalendar crops;
  bool textbook = false;                          ///< knows neither snow nor frost
  double irrigation_wetted_fraction = 1.0;        ///< fw of FAO-56 Table 20
  bool drip_lines = false;                        ///< wet the ground under the crop (p. 149)
  std::optional<double> start_depletion_mm = {};  ///< absent: field capacity is assumed
};

/// Whether a field's water still rests on the start it was given without knowledge.
struct StartDoubt {
  bool assumed = false;
  bool has_dried = false;  ///< Dr has been above 0 since
  int days = 0;

  friend bool operator==(const StartDoubt&, const StartDoubt&) = default;
};

/// All that a field carries from one day to the next.
struct FieldState {
  FieldWater<double> water;
  SnowPack snow;
  StartDoubt start;
  SeasonHeat heat;

  friend bool operator==(const FieldState&, const FieldState&) = default;
};

/// The state on the evening before the first day: field capacity, assumed, or the depletion that
/// was given, spread over the rooted layers by their available water and, as far as it holds it,
/// over the surface.
[[nodiscard]] FieldState start_of(const Field& field, const StationDay& first_day);

/// One day of a field, all that is worth writing down.
struct FieldDay {
  std::chrono::sys_days date;
  double rain_mm = 0.0;
  double irrigation_mm = 0.0;
  double et0_mm = 0.0;
  StandDay stand;
  GroundWeather ground;
  DayForcing<double> forcing;
  DayFluxes<double> fluxes;  ///< evaporation_mm counts the snow's too
  FieldState evening;
  double depletion_mm = 0.0;
  double topsoil_deficit_mm = 0.0;
  double surplus_mm = 0.0;
  double suction_topsoil_kpa = 0.0;
  double suction_subsoil_kpa = 0.0;
  Wetness wetness = Wetness::moist;
  DayFlags flags;
};

/// Steps a field's state by one day. Deterministic: the same state and day give the same bytes.
FieldDay step_field(const Field& field, const StationDay& day, FieldState& state);

/// The same step where nobody asks what the day was like: the state alone.
void pass_day(const Field& field, const StationDay& day, FieldState& state);

/// Water content of a layer, m3/m3.
[[nodiscard]] double theta_of(const SoilProfile& soil, const FieldWater<double>& water, int layer);

/// Layers of one kind of soil, taken as one body.
struct LayerRange {
  int first = 0;
  int last = 0;
};
inline constexpr LayerRange topsoil_range{.first = 0, .last = topsoil_layers - 1};

/// The subsoil that the suction at 350 mm stands for, 300 to 700 mm; where the soil ends with its
/// topsoil, that.
[[nodiscard]] LayerRange subsoil_of(const SoilProfile& soil);

/// Mean water content of a body of soil, m3/m3.
[[nodiscard]] double theta_of(const SoilProfile& soil, const FieldWater<double>& water,
                              const LayerRange& layers);

/// All water that a field holds above wilting point, and on and above the ground, mm.
[[nodiscard]] double stored_mm(const FieldParameters& field, const FieldState& state);

}  // namespace gley::model
