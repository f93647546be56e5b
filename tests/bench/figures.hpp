#pragma once
#include <algorithm>
#include <cstdio>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace gley::bench {

/// A row for tests/bench/run.
inline void row(const std::string& name, double value, const char* unit) {
  std::printf(value < 1000.0 ? "%s: %.4g %s\n" : "%s: %.0f %s\n", name.c_str(), value, unit);
  std::fflush(stdout);
}

[[nodiscard]] inline double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// Of a process, "self" or its number, MiB, by a line of /proc: VmRSS now, VmHWM at most so far.
[[nodiscard]] inline double memory_mib(const std::string& process, const std::string& line) {
  std::ifstream status("/proc/" + process + "/status");
  for (std::string text; std::getline(status, text);)
    if (text.starts_with(line + ":")) return std::stod(text.substr(line.size() + 1)) / 1024.0;
  throw std::runtime_error("no " + line + " in /proc");
}

}  // namespace gley::bench
