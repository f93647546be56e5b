#pragma once
#include <stdlib.h>

#include <cstdint>
#include <filesystem>
#include <stdexcept>
#include <string>

namespace gley::tests {

/// In memory where there is room: a test's store need not wait for a disk.
[[nodiscard]] inline std::filesystem::path quick_place() {
  const std::filesystem::path memory = "/dev/shm";
  std::error_code absent;
  const auto space = std::filesystem::space(memory, absent);
  constexpr std::uintmax_t enough_bytes = 512U << 20U;
  return !absent && space.available >= enough_bytes ? memory
                                                    : std::filesystem::temp_directory_path();
}

/// A directory of its own for one test, removed with all that is in it.
class ScratchDirectory {
 public:
  explicit ScratchDirectory(const std::filesystem::path& place = quick_place()) {
    std::string pattern = (place / "gley-test-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("cannot make " + pattern);
    path_ = pattern;
  }
  ~ScratchDirectory() {
    std::error_code ignored;  // a test's result does not hang on its litter
    std::filesystem::remove_all(path_, ignored);
  }
  ScratchDirectory(const ScratchDirectory&) = delete;
  ScratchDirectory& operator=(const ScratchDirectory&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::filesystem::path operator/(const std::filesystem::path& name) const {
    return path_ / name;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace gley::tests
