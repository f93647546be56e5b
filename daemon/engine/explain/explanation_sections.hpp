#pragma once
#include <initializer_list>
#include <string_view>

#include "daemon/engine/explain/explanation_day.hpp"
#include "daemon/farm/reference_tables.hpp"

/// The parts of an explanation, in the order of the model.
namespace gley::daemon {

/// The text with each {} replaced by a number to five digits, a negative one in brackets.
[[nodiscard]] std::string worked(std::string_view pattern, std::initializer_list<double> numbers);

inline constexpr const char* swiss_rule =
    "Swiss suction rule: federal guidance for soil protection on building sites, SN 640 581";

/// The station that the field trusts most.
[[nodiscard]] const StationConfig& first_station(const ExplainedDay& day);

/// Where soil, crop and their numbers come from: the configuration, or the reference table's row.
[[nodiscard]] std::string soil_source(const FieldConfig& config);
[[nodiscard]] std::string crop_source(const ExplainedDay& day);
/// The same for one number of the crop: the row's, unless another is used.
[[nodiscard]] std::string crop_number_source(const ExplainedDay& day, double CropRow::*member,
                                             double used);

/// Rain that runs off at once: the step does not keep it apart from what finds no room.
[[nodiscard]] double storm_runoff_mm(const ExplainedDay& day);

[[nodiscard]] ExplanationSection weather_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection readings_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection sky_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection reference_et_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection snow_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection stand_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection surface_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection root_zone_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection runoff_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection layers_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection balance_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection wetness_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection ground_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection gate_section(const ExplainedDay& day);
[[nodiscard]] ExplanationSection machine_section(const ExplainedDay& day,
                                                 const MachineConfig& machine);
[[nodiscard]] ExplanationSection spreading_section(const ExplainedDay& day);

}  // namespace gley::daemon
