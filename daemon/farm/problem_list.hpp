#pragma once
#include <string>
#include <utility>
#include <vector>

#include "daemon/farm/config_reader.hpp"

namespace gley::daemon {

/// "file:line"
[[nodiscard]] inline std::string place_text(const FilePlace& place) {
  return place.file + ":" + std::to_string(place.line);
}

/// What is wrong, gathered while the files are read.
class ProblemList {
 public:
  void add(FilePlace place, std::string message) {
    problems_.push_back({.place = std::move(place), .message = std::move(message)});
  }
  [[nodiscard]] bool empty() const { return problems_.empty(); }

  /// By file, in the order the files were read, then by line.
  [[nodiscard]] std::vector<ConfigProblem> sorted(const std::vector<std::string>& files) const;

 private:
  std::vector<ConfigProblem> problems_;
};

}  // namespace gley::daemon
