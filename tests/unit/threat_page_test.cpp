// The tests that DEVELOPERS.md names as proof of what stops an attacker exist.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string all_tests() {
  std::string text;
  for (const auto& file : std::filesystem::recursive_directory_iterator(GLEY_SOURCE_DIR "/tests"))
    if (file.path().extension() == ".cpp") text += text_of(file.path());
  return text;
}

/// What stands in back-ticks in a row's last cell.
std::vector<std::string> proofs() {
  const std::string all = text_of(GLEY_SOURCE_DIR "/DEVELOPERS.md");
  const auto begin = all.find("## Who could do what");
  REQUIRE(begin != std::string::npos);
  std::istringstream lines(all.substr(begin, all.find("\n## ", begin) - begin));
  std::vector<std::string> names;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("| ") || !line.ends_with(" |")) continue;
    std::istringstream cell(line.substr(line.rfind('|', line.size() - 2)));
    std::string part;
    for (int i = 0; std::getline(cell, part, '`'); ++i)
      if (i % 2 == 1) names.push_back(part);
  }
  return names;
}

}  // namespace

TEST_CASE("every proof that the page of threats names is a test") {
  const std::string tests = all_tests();
  const auto names = proofs();
  CHECK(names.size() > 10);
  for (const std::string& name : names) {
    INFO(name);
    CHECK(tests.find("TEST_CASE(\"" + name + "\"") != std::string::npos);
  }
}
