#pragma once
#include <string>

/// What a service tells systemd that started it, by the protocol of sd_notify(3). Started by anyone
/// else, these do nothing.
namespace gley::daemon {

/// status: one line for `systemctl status`.
void tell_ready(const std::string& status);
void tell_reloading();
void tell_stopping();

/// Puts off the watchdog, which ends a service that has not called this for WatchdogSec.
void tell_alive();

}  // namespace gley::daemon
