#include <array>

#include "daemon/farm/settings.hpp"

namespace gley::daemon {
namespace {

using enum ValueType;

constexpr NumberRange buffer_range_m{0, 1000};

constexpr std::array watercourse{
    Setting("id", id, "short name, such as \"beck\"", {.required = true}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("course", several_forms,
            "its line: [[longitude, latitude], ...], or a file (GeoJSON, RFC 7946)",
            {.required = true}),
    Setting("buffer_m", number,
            "strip to either side that is kept free, shown on the plan; the default is our choice, "
            "local codes decide",
            {.unit = "m", .default_text = "10", .range = buffer_range_m}),
};

constexpr std::array spring{
    Setting("id", id, "short name of a spring, well or borehole", {.required = true}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("latitude", number, "north positive",
            {.required = true, .unit = "degrees", .range = NumberRange{-90, 90}}),
    Setting("longitude", number, "east positive",
            {.required = true, .unit = "degrees", .range = NumberRange{-180, 180}}),
    Setting("buffer_m", number,
            "ground around it that is kept free, shown on the plan; the default is our choice, "
            "local codes decide",
            {.unit = "m", .default_text = "50", .range = buffer_range_m}),
};

constexpr std::array all{SettingsTable{"watercourse", watercourse},
                         SettingsTable{"spring", spring}};

}  // namespace

std::span<const SettingsTable> land_settings() {
  return all;
}

}  // namespace gley::daemon
