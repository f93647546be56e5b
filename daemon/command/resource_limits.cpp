#include "daemon/command/resource_limits.hpp"

#include <spdlog/spdlog.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <new>
#include <stdexcept>
#include <string>
#include <string_view>

namespace gley::daemon {

namespace {

/// Store, log, broker, signals and timers take 19 (/proc/PID/fd, 500 fields, no page open), a
/// backup or a checkpoint some more for a moment.
constexpr rlim_t beside_pages = 40;

[[noreturn]] void out_of_memory() {
  constexpr std::string_view words =
      "gleyd: out of memory: give it more (ulimit -v, MemoryMax= of its unit, or the machine); "
      "every reading acknowledged to the broker is in the store\n";
  // To leave by any other way would take memory.
  (void)!::write(STDERR_FILENO, words.data(), words.size());
  std::_Exit(EXIT_FAILURE);
}

}  // namespace

void see_to_open_files(std::size_t connections) {
  const rlim_t wanted = connections + beside_pages;
  rlimit files{};
  if (::getrlimit(RLIMIT_NOFILE, &files) != 0 || files.rlim_cur >= wanted) return;
  const rlimit more{.rlim_cur = std::min(wanted, files.rlim_max), .rlim_max = files.rlim_max};
  if (::setrlimit(RLIMIT_NOFILE, &more) == 0) files = more;
  if (files.rlim_cur >= wanted) return;
  const std::string allowed = "only " + std::to_string(files.rlim_cur) +
                              " files may be open at once (ulimit -n, LimitNOFILE= of the unit)";
  if (files.rlim_cur < beside_pages)
    throw std::runtime_error(allowed + ": at least " + std::to_string(beside_pages) +
                             " are needed, " + std::to_string(wanted) + " for all displays");
  spdlog::warn("{}: with {} and more displays and pages open, others are kept waiting", allowed,
               files.rlim_cur - beside_pages);
}

void end_when_out_of_memory() {
  std::set_new_handler(out_of_memory);
}

}  // namespace gley::daemon
