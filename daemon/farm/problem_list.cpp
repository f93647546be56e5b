#include "daemon/farm/problem_list.hpp"

#include <algorithm>

#include "daemon/text/utf8.hpp"

namespace gley::daemon {

std::string ConfigProblem::to_line() const {
  // Names from the file stand in it, and it goes to terminals.
  return printable(place_text(place) + ": " + message);
}

std::vector<ConfigProblem> ProblemList::sorted(const std::vector<std::string>& files) const {
  const auto order = [&files](const ConfigProblem& problem) {
    const auto file = std::find(files.begin(), files.end(), problem.place.file);
    return std::pair(file - files.begin(), problem.place.line);
  };
  std::vector<ConfigProblem> result = problems_;
  std::stable_sort(result.begin(), result.end(),
                   [&](const auto& a, const auto& b) { return order(a) < order(b); });
  return result;
}

}  // namespace gley::daemon
