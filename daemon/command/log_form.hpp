#pragma once
#include <string>

namespace gley::daemon {

/// The log goes to standard error. To a terminal or a file with time and level; to systemd's
/// journal, which keeps both itself, with the level as <N> before the line (sd-daemon(3)). A
/// message is one line, whatever names and payloads are in it.
void set_up_log(const std::string& level);

}  // namespace gley::daemon
