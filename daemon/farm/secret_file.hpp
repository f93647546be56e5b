#pragma once
#include <filesystem>
#include <string>

namespace gley::daemon {

/// The first line of a file that holds a password or token, without blanks at its end. `what` is
/// its word for messages. Throws if there is none; logs a warning if everybody on the machine may
/// read it.
[[nodiscard]] std::string secret_of(const std::filesystem::path& file, const std::string& what);

}  // namespace gley::daemon
