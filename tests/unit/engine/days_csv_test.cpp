#include "daemon/engine/fields/days_csv.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "daemon/engine/fields/field_history.hpp"
#include "tests/unit/engine/past_days.hpp"

namespace gley::daemon {
namespace {

TEST_CASE("the days file begins with the columns of the contract") {
  // Design, section 5.1.
  CHECK(days_csv_header(0) ==
        "date,field,rain_mm,irrigation_mm,et0_mm,kcb,ke,ks,evaporation_mm,transpiration_mm,"
        "runoff_mm,drainage_mm,pipe_drain_mm,depletion_mm,surface_depletion_mm,"
        "topsoil_deficit_mm,surplus_mm,pond_mm,snow_mm,suction_topsoil_kpa,suction_subsoil_kpa,"
        "wetness,flags\n");
  CHECK(days_csv_header(3).ends_with(",wetness,flags,theta_1,theta_2,theta_3\n"));
}

TEST_CASE("a row has a cell for each column, blank where the field has fewer layers") {
  FieldHistory history(clay_field());
  history.remake(past_days(3), first_past_day);
  const int own = history.field().parameters.soil.layers;
  const auto cells = [](const std::string& line) {
    return std::count(line.begin(), line.end(), ',');
  };
  const std::string row = days_csv_row("top", history.field(), *history.last(), own + 2);
  CHECK(row.starts_with("2023-02-22,top,13,0,"));
  CHECK(cells(row) == cells(days_csv_header(own + 2)));
  CHECK(row.ends_with(",,\n"));
  CHECK(days_csv_row("top", history.field(), *history.last(), own) + ",," ==
        row.substr(0, row.size() - 3) + "\n,,");
}

}  // namespace
}  // namespace gley::daemon
