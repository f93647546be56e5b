#pragma once
#include <catch2/catch.hpp>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "daemon/farm/config_reader.hpp"
#include "tests/scratch_directory.hpp"

namespace gley::test {

/// A directory of configuration files, gone at the end of the test.
class ConfigDirectory {
 public:
  void write(const std::string& name, const std::string& text) const {
    const std::filesystem::path file = path() / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
  }
  [[nodiscard]] const std::filesystem::path& path() const { return directory_.path(); }

  [[nodiscard]] daemon::ConfigResult read(const std::string& name = "farm.toml") const {
    return daemon::read_config(path() / name);
  }

  /// Every problem as "file:line: message", the directory cut off.
  [[nodiscard]] std::vector<std::string> problems(const std::string& name = "farm.toml") const {
    std::vector<std::string> lines;
    for (const daemon::ConfigProblem& problem : read(name).problems) {
      std::string line = problem.to_line();
      const std::string before = path().string() + "/";
      for (auto at = line.find(before); at != std::string::npos; at = line.find(before)) {
        line.erase(at, before.size());
      }
      lines.push_back(line);
    }
    return lines;
  }

 private:
  tests::ScratchDirectory directory_;
};

/// The problems of one file of this text.
inline std::vector<std::string> problems_of(const std::string& text) {
  const ConfigDirectory directory;
  directory.write("farm.toml", text);
  return directory.problems();
}

/// The one problem of a text.
inline std::string problem_of(const std::string& text) {
  const std::vector<std::string> lines = problems_of(text);
  for (const std::string& line : lines) UNSCOPED_INFO(line);
  REQUIRE(lines.size() == 1);
  return lines.front();
}

/// The farm of a text without a problem.
inline daemon::FarmConfig farm_of(const std::string& text) {
  const ConfigDirectory directory;
  directory.write("farm.toml", text);
  const daemon::ConfigResult result = directory.read();
  for (const daemon::ConfigProblem& problem : result.problems) UNSCOPED_INFO(problem.to_line());
  REQUIRE(result.farm.has_value());
  return *result.farm;
}

/// The least farm, 18 lines, on which a test builds.
inline std::string least_farm() {
  return R"([farm]
id = "alder"
latitude = 53.9
longitude = -1.3
elevation_m = 57
time_zone = "Europe/London"

[[station]]
id = "yard"

[[field]]
id = "top"
station = "yard"
soil = "clay loam"
crop = "grass"

# end of the least farm
# line 18
)";
}

/// The text with one place changed; the place has to be there.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::logic_error("not in the text: " + from);
  return text.replace(at, from.size(), to);
}

}  // namespace gley::test
