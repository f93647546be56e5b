#include <array>

#include "daemon/farm/settings.hpp"

namespace gley::daemon {
namespace {

using enum ValueType;

constexpr NumberRange buffer_range_m{0, 1000};

constexpr std::array settings{
    Setting{.table = "watercourse",
            .key = "id",
            .type = id,
            .required = true,
            .help = "short name, such as \"beck\""},
    Setting{.table = "watercourse",
            .key = "name",
            .type = text,
            .help = "the name people use; default: the id"},
    Setting{.table = "watercourse",
            .key = "course",
            .type = several_forms,
            .required = true,
            .help = "its line: [[longitude, latitude], ...], or a file (GeoJSON, RFC 7946)"},
    Setting{.table = "watercourse",
            .key = "buffer_m",
            .type = number,
            .unit = "m",
            .default_text = "10",
            .range = buffer_range_m,
            .help = "strip to either side that is kept free, shown on the plan; the default is our "
                    "choice, local codes decide"},

    Setting{.table = "spring",
            .key = "id",
            .type = id,
            .required = true,
            .help = "short name of a spring, well or borehole"},
    Setting{.table = "spring",
            .key = "name",
            .type = text,
            .help = "the name people use; default: the id"},
    Setting{.table = "spring",
            .key = "latitude",
            .type = number,
            .required = true,
            .unit = "degrees",
            .range = NumberRange{-90, 90},
            .help = "north positive"},
    Setting{.table = "spring",
            .key = "longitude",
            .type = number,
            .required = true,
            .unit = "degrees",
            .range = NumberRange{-180, 180},
            .help = "east positive"},
    Setting{.table = "spring",
            .key = "buffer_m",
            .type = number,
            .unit = "m",
            .default_text = "50",
            .range = buffer_range_m,
            .help = "ground around it that is kept free, shown on the plan; the default is our "
                    "choice, local codes decide"},
};

}  // namespace

std::span<const Setting> land_settings() {
  return settings;
}

}  // namespace gley::daemon
