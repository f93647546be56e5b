#pragma once
#include <sys/types.h>

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "tests/scratch_directory.hpp"

namespace gley::tests {

/// Where a child's output goes; absent: to the test's own.
struct Output {
  std::optional<std::filesystem::path> out = {};
  std::optional<std::filesystem::path> err = {};  ///< may be the same file as `out`
  std::vector<std::string> environment = {};      ///< "NAME=value", added to the test's own
};

/// A child process, started without a shell. Killed and reaped when destroyed, and killed when the
/// thread that started it ends. One thread only.
class Process {
 public:
  /// argv[0] is looked for in PATH, /usr/sbin and /sbin. Throws if it cannot be started.
  explicit Process(std::vector<std::string> argv, Output output = {});
  ~Process();
  Process(const Process&) = delete;
  Process& operator=(const Process&) = delete;

  [[nodiscard]] pid_t pid() const { return pid_; }
  [[nodiscard]] bool running();
  void kill(int signal);
  /// The exit code, or 128 + the signal it died of, as a shell says it; empty if still running at
  /// the end of the time.
  std::optional<int> wait(std::chrono::milliseconds timeout = std::chrono::seconds(20));

 private:
  void reap(bool block);

  pid_t pid_ = -1;
  std::optional<int> exit_code_;
};

/// Runs to the end; throws if that takes longer than the time.
int run(std::vector<std::string> argv, Output output = {},
        std::chrono::milliseconds timeout = std::chrono::seconds(60));

/// A TCP port of loopback that was free a moment ago.
[[nodiscard]] std::uint16_t free_port();

/// True if something accepts connections on the port of 127.0.0.1.
[[nodiscard]] bool port_open(std::uint16_t port);

/// How long a test asks before it gives up: an instrumented build on a busy machine is slow.
inline constexpr std::chrono::seconds patience{60};

/// Asks every 10 ms until the answer is yes or the time is up; says which.
[[nodiscard]] bool eventually(std::chrono::milliseconds timeout, const std::function<bool()>& yes);
[[nodiscard]] inline bool eventually(const std::function<bool()>& yes) {
  return eventually(patience, yes);
}

/// The whole file, empty if there is none.
[[nodiscard]] std::string read_file(const std::filesystem::path& file);

}  // namespace gley::tests
