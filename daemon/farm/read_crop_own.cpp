#include <algorithm>
#include <array>

#include "daemon/farm/crop_reader.hpp"

namespace gley::daemon {
namespace {

constexpr std::array stage_keys{"stage_days", "stage_dates", "stages_day_degrees"};
constexpr std::array after_cut_keys{"cut_kcb", "cut_height_m", "cut_cover", "recovery_days"};

void read_stage_days(const TableReader& table, CropOwn& own) {
  if (!table.is_good("stage_days")) return;
  const std::vector<int> days = table.whole_numbers("stage_days");
  const bool good = days.size() == 4 && std::all_of(days.begin(), days.end(),
                                                    [](int day) { return day >= 0 && day <= 400; });
  if (!good) {
    table.problem("stage_days",
                  "must be four lengths in days, each 0 to 400, such as [160, 75, "
                  "75, 25]");
    return;
  }
  own.stages = StageDays{.ini = days[0], .dev = days[1], .mid = days[2], .late = days[3]};
}

void read_stage_dates(const TableReader& table, CropOwn& own) {
  if (!table.is_good("stage_dates")) return;
  own.stage_dates = table.days("stage_dates");
  if (own.stage_dates.size() == 3) return;
  table.problem("stage_dates",
                "must be three days, the first of development, of mid-season and of the late "
                "season, such as [\"03-01\", \"05-10\", \"07-20\"]");
  own.stage_dates.clear();
}

void read_day_degrees(const TableReader& table, CropOwn& own) {
  const auto heat = table.child("stages_day_degrees");
  if (!heat) return;
  StageDayDegrees stages;
  heat->assign(stages.base_c, heat->number("base_c"));
  heat->assign(stages.ini, heat->number("ini"));
  heat->assign(stages.dev, heat->number("dev"));
  heat->assign(stages.mid, heat->number("mid"));
  heat->assign(stages.late, heat->number("late"));
  own.stages_day_degrees = stages;
}

void check_stage_keys(const TableReader& table, const CropRow* row) {
  const char* first = nullptr;
  for (const char* key : stage_keys) {
    if (!table.has(key)) continue;
    if (row != nullptr && !row->stages)
      table.problem(key, "stands at " + row->name + ", which has no stages; remove it");
    if (first != nullptr)
      table.problem(key, "stands beside " + std::string(first) + "; give one of them");
    first = key;
  }
}

void check_kind(const TableReader& table, const CropRow& row) {
  if (!row.stages) {
    for (const char* key : {"kcb_ini", "kcb_end"}) {
      if (table.has(key))
        table.problem(key,
                      "stands at " + row.name + ", which has one Kcb all year; give it as kcb_mid");
    }
  } else if (table.has("cover")) {
    table.problem("cover", "stands at " + row.name +
                               ", whose cover follows from its Kcb and height; remove it");
  }
}

void check_runoff_cover(const TableReader& table, const CropOwn& own) {
  if (own.runoff_cover)
    (void)known_row(table, "runoff_cover", *own.runoff_cover, reference_tables().runoff_covers,
                    "cover");
}

}  // namespace

void check_cuts(const TableReader& table, const CropRow& row) {
  if (row.kind == CropKind::grass) return;
  table.problem("cuts", "stands at " + row.name + ", which is no sward; remove it");
}

CropOwn read_own(const TableReader& table, const CropRow* row) {
  CropOwn own;
  own.kcb_ini = table.number("kcb_ini");
  own.kcb_mid = table.number("kcb_mid");
  own.kcb_end = table.number("kcb_end");
  own.height_m = table.number("height_m");
  own.root_depth_mm = table.number("root_depth_mm");
  own.root_depth_min_mm = table.number("root_depth_min_mm");
  own.depletion_fraction = table.number("depletion_fraction");
  own.cover = table.number("cover");
  own.residue_cover = table.number("residue_cover");
  own.runoff_cover = table.text("runoff_cover");
  own.cuts = table.days("cuts");
  own.cut_kcb = table.number("cut_kcb");
  own.cut_height_m = table.number("cut_height_m");
  own.cut_cover = table.number("cut_cover");
  own.recovery_days = table.whole_number("recovery_days");
  read_stage_days(table, own);
  read_stage_dates(table, own);
  read_day_degrees(table, own);
  check_stage_keys(table, row);
  check_runoff_cover(table, own);
  for (const char* key : after_cut_keys) {
    if (table.has(key) && !table.has("cuts"))
      table.problem(key, "stands without cuts; give the days of the cuts, or remove it");
  }
  if (row == nullptr) return own;
  check_kind(table, *row);
  if (table.has("cuts")) check_cuts(table, *row);
  return own;
}

}  // namespace gley::daemon
