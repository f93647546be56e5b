#include <array>

#include "daemon/farm/settings.hpp"
#include "daemon/farm/word.hpp"

namespace gley::daemon {
namespace {

using enum ValueType;

constexpr NumberRange depth_range_mm{50, 3000};
constexpr auto hydrologic_groups = std::to_array<std::string_view>({"A", "B", "C", "D"});

constexpr std::array field{
    Setting("id", id, "short name, such as \"top\"", {.required = true}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("station", text_or_list, "the station's id, or several in order of trust",
            {.required = true}),
    Setting(
        "soil", several_forms,
        "a texture class, such as \"clay loam\"; or { sand_pct, clay_pct, organic_pct }; or { "
        "field_capacity, wilting_point, saturation }; or { class, and what of it is known better }",
        {.required = true}),
    Setting("drainage", word, "how readily the soil passes the water it cannot hold",
            {.default_text = "\"moderate\"", .words = words_for<DrainageClass>}),
    Setting(
        "crop", several_forms,
        "a crop, such as \"grass\"; or { kcb, cover, height_m, root_depth_mm, depletion_fraction "
        "}; or { name, and what of it is known better }; or [[field.crop]] once a sowing",
        {.required = true}),
    Setting("cuts", days,
            "days on which the grass is cut for hay or silage; default: grazed or mown, the same "
            "all year"),
    Setting("irrigation", several_forms,
            "a method, such as \"sprinkler\"; or { method, wetted_fraction }; default: water wets "
            "all the ground"),
    Setting("textbook", truth,
            "plain FAO-56: uniform soil, unlimited drainage, no runoff, snow or frost",
            {.default_text = "false"}),
    Setting("rew_mm", number, "readily evaporable water of the surface; default: by the soil",
            {.unit = "mm", .range = NumberRange{0, 40}}),
    Setting("tew_mm", number, "all evaporable water of the surface; default: by the soil",
            {.unit = "mm", .range = above(0, 100)}),
    Setting("area_ha", number, "for show; default: the boundary's",
            {.unit = "ha", .range = above(0, 100000)}),
    Setting("slope_pct", number, "steepest part that matters; more slope, more runoff",
            {.unit = "%", .default_text = "2", .range = NumberRange{0, 100}}),
    Setting("soil_depth_mm", number, "to rock or to what roots cannot enter",
            {.unit = "mm", .default_text = "1300", .range = NumberRange{100, 3000}}),
    Setting("slow_layer_depth_mm", number,
            "depth of the layer that holds water up; default: by drainage",
            {.unit = "mm", .range = NumberRange{50, 3000}}),
    Setting("root_depth_mm", number, "deepest roots; default: by the crop",
            {.unit = "mm", .range = depth_range_mm}),
    Setting("start_depletion_mm", number,
            "water missing to field capacity on the first day; default: none, and the field is "
            "marked as assumed",
            {.unit = "mm", .range = NumberRange{0, 1000}}),
    Setting("pipe_drains", truth, "pipe drains that work", {.default_text = "false"}),
    Setting("pipe_rate_mm_d", number, "what they carry off at most",
            {.unit = "mm/day", .default_text = "5", .range = above(0, 100)}),
    Setting("water_distance_m", number,
            "from the nearest edge to a ditch, stream or pond; default: not judged",
            {.unit = "m", .range = NumberRange{0, 10000}}),
    Setting("water_edge_m", number,
            "length of the edge along that water, to tell the area its buffer takes",
            {.unit = "m", .range = above(0, 100000)}),
    Setting("spring_distance_m", number,
            "from the nearest edge to a spring, well or borehole; default: not judged",
            {.unit = "m", .range = NumberRange{0, 10000}}),
    Setting("sign_machine", text,
            "id of the machine whose verdict the field's sign shows; default: the heaviest"),
    Setting("boundary", path, "file of the field's outline (GeoJSON, RFC 7946)"),
};

constexpr std::array field_soil{
    Setting("sand_pct", number, "of the mineral soil, by mass",
            {.unit = "%", .range = NumberRange{0, 100}}),
    Setting("clay_pct", number, "of the mineral soil, by mass",
            {.unit = "%", .range = NumberRange{0, 100}}),
    Setting("organic_pct", number,
            "organic matter by mass; with more, the equations do not hold: give field_capacity, "
            "wilting_point and saturation instead",
            {.unit = "%", .default_text = "3", .range = NumberRange{0, 8}}),
    Setting("field_capacity", number, "volume of water a drained soil holds",
            {.unit = "m3/m3", .range = above(0, 0.9)}),
    Setting("wilting_point", number, "volume of water no plant can take",
            {.unit = "m3/m3", .range = above(0, 0.9)}),
    Setting("saturation", number, "volume of all pores",
            {.unit = "m3/m3", .range = above(0, 0.95)}),
    Setting("class", text,
            "a texture class, such as \"clay loam\", of which something else is given here"),
    Setting("conductivity_mm_h", number,
            "saturated conductivity, all the way down; default: by the soil",
            {.unit = "mm/h", .range = above(0, 2000)}),
    Setting("retention_b", number, "exponent of the retention curve; default: by the soil",
            {.range = NumberRange{1, 25}}),
    Setting("hydrologic_group", word,
            "for runoff by curve number, A sheds least; default: by soil and drainage",
            {.words = hydrologic_groups}),
};

constexpr std::array field_irrigation{
    Setting("method", text, "of the reference table, such as \"sprinkler\", \"drip\" or \"basin\"",
            {.required = true}),
    Setting("wetted_fraction", number, "share of the ground that it wets; default: the method's",
            {.range = above(0, 1)}),
};

constexpr std::array machine{
    Setting("id", id, "short name, such as \"drill\"", {.required = true}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("class", text,
            "a typical machine of the reference table, such as \"slurry tanker, full\"; keys given "
            "here take the place of its own"),
    Setting("runs_on", word, "hooves for grazing stock: treading is judged by the topsoil alone",
            {.default_text = "\"wheels\"", .words = words_for<model::Tread>}),
    Setting("wheel_load_t", number,
            "the heaviest wheel, loaded as it works; of a track, its heaviest roller; of stock, "
            "one hoof; default: by class, or from mass_t, axle_share and axle_tyres",
            {.unit = "t", .range = above(0, 20)}),
    Setting("axle_share", number, "share of mass_t on the heaviest axle, instead of wheel_load_t",
            {.range = above(0, 1)}),
    Setting("axle_tyres", whole_number, "tyres that carry that axle: 2, or 4 with duals",
            {.range = NumberRange{1, 16}}),
    Setting("empty_wheel_load_t", number,
            "the same wheel with tank or hopper empty, to tell how full the machine may be; "
            "default: from empty_mass_t",
            {.unit = "t", .range = above(0, 20)}),
    Setting("empty_mass_t", number, "the whole outfit empty",
            {.unit = "t", .range = above(0, 200)}),
    Setting("tyre_pressure_bar", number,
            "inflation of that wheel; under a track or a hoof, the mean pressure on the ground; "
            "default: by class",
            {.unit = "bar", .range = above(0, 10)}),
    Setting("mass_t", number, "the whole outfit; default: none, and the screen by mass is skipped",
            {.unit = "t", .range = above(0, 200)}),
    Setting("cultivates", truth, "works the soil, so the topsoil has to crumble as well",
            {.default_text = "false"}),
};

constexpr std::array material{
    Setting("id", id, "short name, such as \"nitrogen\"", {.required = true}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("kind", word, "what it is", {.required = true, .words = words_for<MaterialKind>}),
    Setting("rate_kg_ha", number,
            "of product, at one dressing; with n_pct it tells the nitrogen at risk",
            {.unit = "kg/ha", .range = above(0, 200000)}),
    Setting(
        "n_pct", number,
        "nitrogen in the product, by mass: 34.5 in ammonium nitrate, about 0.3 in cattle slurry",
        {.unit = "%", .range = NumberRange{0, 100}}),
};

constexpr std::array all{SettingsTable{"field", field}, SettingsTable{"field.soil", field_soil},
                         SettingsTable{"field.irrigation", field_irrigation},
                         SettingsTable{"machine", machine}, SettingsTable{"material", material}};

}  // namespace

std::span<const SettingsTable> field_settings() {
  return all;
}

}  // namespace gley::daemon
