#include <array>

#include "daemon/farm/settings.hpp"

namespace gley::daemon {
namespace {

using enum ValueType;

constexpr NumberRange depth_range_mm{50, 3000};
constexpr NumberRange kcb_range{0, 1.5};
constexpr NumberRange fraction_range{0.05, 0.95};
constexpr NumberRange share_range{0, 1};

constexpr std::array field_crop{
    Setting("name", text, "a crop of the reference table, of which something else is given here"),
    Setting("crop", text, "a crop of the reference table, such as \"winter wheat\", that is sown"),
    Setting("kcb", number, "basal crop coefficient, the same all year; only of a crop by numbers",
            {.range = kcb_range}),
    Setting("cover", number, "share of the ground under leaves, of a closed sward",
            {.range = share_range}),
    Setting("height_m", number, "height of the crop, grown",
            {.unit = "m", .range = NumberRange{0, 10}}),
    Setting("root_depth_mm", number, "deepest roots", {.unit = "mm", .range = depth_range_mm}),
    Setting("root_depth_min_mm", number,
            "roots at sowing; default: the crop's, the topsoil of most",
            {.unit = "mm", .range = depth_range_mm}),
    Setting("depletion_fraction", number,
            "share of available water taken before the crop is short of it, at 5 mm/day",
            {.range = fraction_range}),
    Setting("residue_cover", number, "share of the ground under dead residue",
            {.range = share_range}),
    Setting("runoff_cover", text,
            "row of the curve numbers that the ground sheds storms by, such as \"row crop, poor\""),
    Setting("sown", day,
            "day of sowing; a single crop without a year is sown every year, on its usual day "
            "unless given"),
    Setting("harvested", day,
            "first day without the crop; default: the crop's usual day after sowing"),
    Setting("kcb_ini", number, "basal crop coefficient at the start; default: the crop's",
            {.range = kcb_range}),
    Setting("kcb_mid", number, "in mid-season, of grass all year; default: the crop's",
            {.range = kcb_range}),
    Setting("kcb_end", number, "at harvest; default: the crop's", {.range = kcb_range}),
    Setting("stage_days", numbers,
            "lengths of the stages initial, development, mid-season and late, such as [160, 75, "
            "75, 25]; default: the crop's, stretched to the days from sowing to harvest",
            {.unit = "days"}),
    Setting("stage_dates", days,
            "first days of development, mid-season and late season, in place of stage_days"),
    Setting("stages_day_degrees", table,
            "lengths of the stages in warmth since sowing, in place of stage_days"),
    Setting("cuts", days, "days on which a sward is cut for hay or silage, as for a field"),
    Setting("cut_kcb", number, "basal crop coefficient right after a cut; default: the crop's",
            {.range = kcb_range}),
    Setting("cut_height_m", number, "height right after a cut; default: the crop's",
            {.unit = "m", .range = NumberRange{0, 2}}),
    Setting("cut_cover", number,
            "share of the ground under leaves right after a cut; default: the crop's",
            {.range = share_range}),
    Setting("recovery_days", whole_number, "from a cut to the full sward; default: the crop's",
            {.unit = "days", .range = NumberRange{1, 200}}),
};

constexpr std::array stages_day_degrees{
    Setting("base_c", number, "temperature over which warmth counts",
            {.required = true, .unit = "Cel", .range = NumberRange{-5, 20}}),
    Setting("ini", number, "length of the initial stage, degree-days over base_c",
            {.required = true, .unit = "Cel d", .range = NumberRange{0, 5000}}),
    Setting("dev", number, "length of the development, degree-days over base_c",
            {.required = true, .unit = "Cel d", .range = NumberRange{0, 5000}}),
    Setting("mid", number, "length of the mid-season, degree-days over base_c",
            {.required = true, .unit = "Cel d", .range = NumberRange{0, 5000}}),
    Setting("late", number, "length of the late season, degree-days over base_c",
            {.required = true, .unit = "Cel d", .range = NumberRange{0, 5000}}),
};

constexpr std::array all{SettingsTable{"field.crop", field_crop},
                         SettingsTable{"field.crop.stages_day_degrees", stages_day_degrees}};

}  // namespace

std::span<const SettingsTable> crop_settings() {
  return all;
}

}  // namespace gley::daemon
