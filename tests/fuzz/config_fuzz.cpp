#include <unistd.h>

#include <cstdint>
#include <fstream>

#include "daemon/farm/config_reader.hpp"
#include "tests/fuzz/must.hpp"

using namespace gley::daemon;
using namespace gley::tests;

namespace {

/// In memory, where there is such a place; removed when the fuzzer ends well.
struct File {
  std::filesystem::path path;
  File() {
    const std::filesystem::path memory = "/dev/shm";
    const auto base =
        std::filesystem::exists(memory) ? memory : std::filesystem::temp_directory_path();
    path = base / ("gley-fuzz-" + std::to_string(::getpid()));
    std::filesystem::create_directory(path);
    path /= "gley.toml";
  }
  ~File() { std::filesystem::remove_all(path.parent_path()); }
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const File file;
  std::ofstream(file.path, std::ios::binary)
      .write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
  const ConfigResult result = read_config(file.path);
  must(result.farm.has_value() == result.problems.empty(), "a farm or a problem, and not both");
  for (const ConfigProblem& problem : result.problems) must_be_a_line(problem.to_line());
  return 0;
}
