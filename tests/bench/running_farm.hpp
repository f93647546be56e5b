#pragma once
#include <chrono>
#include <filesystem>
#include <memory>
#include <string>

#include "tests/bench/farm_scene.hpp"
#include "tests/system/process.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::bench {

/// A farm on disk in a directory of its own, and its daemon. One thread only.
class RunningFarm {
 public:
  /// Writes the configuration; starts nothing. A free port for the board is found.
  explicit RunningFarm(FarmScene scene);

  [[nodiscard]] const FarmScene& scene() const { return scene_; }
  [[nodiscard]] std::filesystem::path directory() const { return directory_.path(); }
  [[nodiscard]] std::filesystem::path store() const { return directory() / "farm.db"; }

  /// Starts the daemon; seconds until its page is there. Throws with its log if it is not.
  double start();
  void stop();

  /// Throws unless the answer is 200. `more`: header lines, each ended by CRLF.
  [[nodiscard]] tests::HttpAnswer get(const std::string& path, const std::string& more = {}) const;

  /// Waits until it has kept its state for the next start; throws if it does not.
  void wait_until_state_is_kept() const;

  [[nodiscard]] std::string pid() const { return std::to_string(process_->pid()); }

 private:
  [[nodiscard]] tests::HttpAnswer ask(const std::string& path, const std::string& more) const;

  tests::ScratchDirectory directory_{std::filesystem::temp_directory_path()};  ///< on a disk
  FarmScene scene_;
  std::unique_ptr<tests::Process> process_;
};

}  // namespace gley::bench
