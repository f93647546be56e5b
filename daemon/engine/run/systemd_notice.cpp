#include "daemon/engine/run/systemd_notice.hpp"

#include <systemd/sd-daemon.h>

#include <chrono>

#include "daemon/text/utf8.hpp"

namespace gley::daemon {

void tell_ready(const std::string& status) {
  // Each line of a notice is an assignment of its own, so the status must be one line.
  sd_notify(0, ("READY=1\nSTATUS=" + printable(status)).c_str());
}

void tell_reloading() {
  // The time lets systemd 253 and later tell this reload from an earlier one.
  const auto monotonic = std::chrono::steady_clock::now().time_since_epoch();
  const auto us = std::chrono::duration_cast<std::chrono::microseconds>(monotonic).count();
  sd_notify(0, ("RELOADING=1\nMONOTONIC_USEC=" + std::to_string(us)).c_str());
}

void tell_stopping() {
  sd_notify(0, "STOPPING=1");
}

void tell_alive() {
  sd_notify(0, "WATCHDOG=1");
}

}  // namespace gley::daemon
