#pragma once
#include <cstdint>
#include <string>

namespace gley::daemon {

/// Where in the files a thing was written, for messages.
struct FilePlace {
  std::string file;
  std::uint32_t line = 0;
};

}  // namespace gley::daemon
