#include "daemon/farm/reference_tables.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace gley::daemon;

namespace {

template <class Row>
bool names_repeat(const std::vector<Row>& rows) {
  std::set<std::string> names;
  for (const Row& row : rows) {
    if (!names.insert(row.name).second) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("every row of every reference table names its source, and no name stands twice") {
  const ReferenceTables& tables = reference_tables();
  CHECK_FALSE(names_repeat(tables.soils));
  CHECK_FALSE(names_repeat(tables.crops));
  CHECK_FALSE(names_repeat(tables.runoff_covers));
  CHECK_FALSE(names_repeat(tables.irrigation_methods));
  CHECK_FALSE(names_repeat(tables.machines));
  for (const auto& row : tables.soils) CHECK_FALSE(row.source.empty());
  for (const auto& row : tables.crops) CHECK_FALSE(row.source.empty());
  for (const auto& row : tables.runoff_covers) CHECK_FALSE(row.source.empty());
  for (const auto& row : tables.irrigation_methods) CHECK_FALSE(row.source.empty());
  for (const auto& row : tables.machines) CHECK_FALSE(row.source.empty());
}

TEST_CASE("every soil holds more at saturation than at field capacity than at wilting point") {
  REQUIRE(reference_tables().soils.size() == 11);
  for (const SoilRow& soil : reference_tables().soils) {
    INFO(soil.name);
    CHECK(soil.wilting_point < soil.field_capacity);
    CHECK(soil.field_capacity < soil.saturation);
    CHECK(soil.field_capacity - soil.wilting_point == Approx(soil.available_water).margin(1e-9));
    CHECK(soil.sand_pct + soil.silt_pct + soil.clay_pct == Approx(100.0));
    CHECK(soil.hydrologic_group_free <= soil.hydrologic_group_slow);
  }
}

TEST_CASE("every crop can be grown from its row alone") {
  for (const CropRow& crop : reference_tables().crops) {
    INFO(crop.name);
    CHECK(reference_tables().runoff_cover(crop.runoff_cover) != nullptr);
    CHECK(crop.height_m > 0.0);
    CHECK(crop.root_depth_min_mm > 0.0);
    CHECK(crop.root_depth_min_mm <= crop.root_depth_mm);
    CHECK(crop.depletion_fraction > 0.0);
    const bool grows = crop.kind == CropKind::annual || crop.kind == CropKind::cover;
    CHECK(crop.stages.has_value() == grows);
    CHECK(crop.sown.has_value() == grows);
    CHECK(crop.harvested.has_value() == grows);
    CHECK(crop.cover.has_value() != grows);
    if (crop.kind == CropKind::grass) CHECK(crop.kcb_ini == crop.kcb_mid);
  }
}

TEST_CASE("every sward can be cut, and stands lower after it") {
  for (const CropRow& crop : reference_tables().crops) {
    INFO(crop.name);
    CHECK(crop.cut_kcb.has_value() == (crop.kind == CropKind::grass));
    if (crop.kind != CropKind::grass) continue;
    CHECK(*crop.cut_kcb < crop.kcb_mid);
    CHECK(crop.uncut_kcb.value_or(crop.kcb_mid) >= crop.kcb_mid);
    CHECK(crop.cut_height_m.value() < crop.height_m);
    CHECK(crop.cut_cover.value() < crop.cover.value());
    CHECK(crop.recovery_days.value() > 0);
  }
}

TEST_CASE("every way to irrigate wets a share of the ground within FAO-56 Table 20 (p. 149)") {
  struct Printed {
    const char* name;
    double low;
    double high;
  };
  for (const Printed& printed :
       {Printed{"sprinkler", 1.0, 1.0}, Printed{"basin", 1.0, 1.0}, Printed{"border", 1.0, 1.0},
        Printed{"furrow", 0.6, 1.0}, Printed{"wide furrow", 0.4, 0.6},
        Printed{"alternate furrow", 0.3, 0.5}, Printed{"drip", 0.3, 0.4}}) {
    INFO(printed.name);
    const IrrigationRow* row = find_row(reference_tables().irrigation_methods, printed.name);
    REQUIRE(row != nullptr);
    CHECK(row->wetted_fraction >= printed.low);
    CHECK(row->wetted_fraction <= printed.high);
  }
}

TEST_CASE("the stages of a crop end within a week of its usual harvest") {
  using namespace std::chrono;
  for (const CropRow& crop : reference_tables().crops) {
    if (!crop.stages) continue;
    INFO(crop.name);
    const sys_days sown = year{2025} / *crop.sown;
    sys_days harvested = year{2025} / *crop.harvested;
    if (harvested < sown) harvested = year{2026} / *crop.harvested;
    CHECK(std::abs((harvested - sown).count() - crop.stages->total()) <= 7);
  }
}

TEST_CASE("a wetter hydrologic group never runs off less") {
  for (const CurveNumberRow& row : reference_tables().runoff_covers) {
    INFO(row.name);
    CHECK(row.a < row.b);
    CHECK(row.b < row.c);
    CHECK(row.c < row.d);
    CHECK(row.of_group('C') == row.c);
    CHECK_THROWS_AS(row.of_group('E'), std::logic_error);
  }
}

TEST_CASE("an unknown name finds no row") {
  CHECK(reference_tables().soil("peat") == nullptr);
  CHECK(reference_tables().crop("Grass") == nullptr);
  CHECK(reference_tables().soil("clay loam")->name == "clay loam");
}
