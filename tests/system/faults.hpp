#pragma once
#include <filesystem>

#include "tests/faults/fault_page.hpp"
#include "tests/system/gleyd.hpp"

namespace gley::tests {

/// Faults of the disk, the clock and the way to the broker for one daemon: see
/// tests/faults/disk_and_clock.cpp.
class Faults {
 public:
  /// Every start of the daemon from now on is under these faults. Lives as long as the daemon.
  explicit Faults(Gleyd& gleyd);
  ~Faults();
  Faults(const Faults&) = delete;
  Faults& operator=(const Faults&) = delete;

  void disk_full(bool full) { page_->disk_full = full ? 1 : 0; }
  void clock_ahead(std::chrono::seconds by) { page_->clock_ahead_s = by.count(); }

  /// So many messages to the broker, counted from the start, cannot be written.
  void fail_publishes(int count) { page_->failed_publishes = count; }

  /// Kills the daemon and leaves of its store what was synced, and nothing else.
  void cut_power();

 private:
  Gleyd& gleyd_;
  std::filesystem::path directory_;
  volatile FaultPage* page_ = nullptr;
};

}  // namespace gley::tests
