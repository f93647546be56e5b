#include "tests/system/foreign_judge.hpp"

#include <fstream>

namespace gley::tests {
namespace {

const std::string top = GLEY_SOURCE_DIR;

/// `judge`: a program of tests/schema and what it takes before the name of the text's file.
std::string faults_by(std::vector<std::string> judge, const std::string& text) {
  const ScratchDirectory directory;
  const auto file = directory / "text";
  const auto said = directory / "said";
  std::ofstream(file, std::ios::binary) << text;
  judge.front() = top + "/tests/schema/" + judge.front();
  judge.insert(judge.begin(), "/usr/bin/python3");
  judge.push_back(file.string());
  const int code = run(std::move(judge), {.out = said, .err = said});
  return code == 0 ? "" : "exit " + std::to_string(code) + ": " + read_file(said);
}

}  // namespace

std::string schema_faults(const std::string& schema, const std::string& json) {
  return faults_by({"validate.py", top + "/config/schema/" + schema + ".schema.json"}, json);
}

std::string metrics_faults(const std::string& form, const std::string& metrics) {
  return faults_by({"metrics.py", form}, metrics);
}

}  // namespace gley::tests
