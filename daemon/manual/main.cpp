#include <fstream>
#include <iostream>

#include "daemon/manual/pages.hpp"

namespace {

bool write(const char* file, const std::string& page) {
  std::ofstream out(file);
  out << page;
  if (out.flush()) return true;
  std::cerr << "gley_manual: cannot write " << file << '\n';
  return false;
}

}  // namespace

/// Writes both manual pages.
int main(int argc, char** argv) {
  if (argc != 4) {
    std::cerr << "usage: gley_manual DATE FILE_OF_GLEYD FILE_OF_GLEY_TOML\n";
    return 2;
  }
  const bool written = write(argv[2], gley::daemon::program_page(argv[1])) &&
                       write(argv[3], gley::daemon::settings_page(argv[1]));
  return written ? 0 : 1;
}
