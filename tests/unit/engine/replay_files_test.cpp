#include "daemon/engine/view/replay_files.hpp"

#include <fstream>

#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

const sys_days frosty = 2024y / 9 / 1;
const sys_days mild = frosty + days{1};

FarmConfig farm() {
  FarmConfig farm = yard_farm();
  MachineConfig& quad = farm.machines.emplace_back();
  quad.id = "quad";
  quad.wheel_load_t = 0.15;
  quad.tyre_pressure_bar = 0.3;
  return farm;
}

/// Two dry months, a day of frost and a mild one.
void put_weather(FieldBook& book) {
  const auto put = [&](sys_days date, double tmin_c, double tmax_c) {
    book.put("yard", date,
             {.weather = {.rain_mm = 0.0, .tmin_c = tmin_c, .tmax_c = tmax_c},
              .flags = {},
              .complete = true,
              .loaded = true});
  };
  for (sys_days date = frosty - days{60}; date < frosty; date += days{1}) put(date, 11.0, 23.0);
  put(frosty, -6.0, -2.0);
  put(mild, 8.0, 17.0);
  book.close(mild);
}

std::string line_of(const std::filesystem::path& file, const std::string& start) {
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);)
    if (line.starts_with(start)) return line;
  return {};
}

TEST_CASE("a replay that begins on the day of a thaw judges it as one that began before") {
  const ScratchDirectory directory;
  const FarmConfig config = farm();
  FieldBook book(config);
  put_weather(book);
  write_replay(book, config, {.days = {}, .fields = {0}}, directory / "all");
  write_replay(book, config, {.days = {.from = mild, .to = {}}, .fields = {0}}, directory / "one");
  const std::string row = line_of(directory / "all/machines.csv", "2024-09-02,top,quad,");
  CHECK(row.find("ground thawing") != std::string::npos);
  CHECK(line_of(directory / "one/machines.csv", "2024-09-02,top,quad,") == row);
  CHECK(line_of(directory / "one/machines.csv", "2024-09-01").empty());
}

}  // namespace
}  // namespace gley::daemon
