#include "daemon/board/http/host_names.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <boost/asio/ip/address.hpp>

#include "daemon/text/ascii_case.hpp"

namespace gley::daemon {

namespace {

/// Without its port and the dot that may end a full name.
std::string bare(std::string_view host) {
  if (host.starts_with('[')) return lower_case(host.substr(1, host.find(']') - 1));
  std::string name = lower_case(host.substr(0, host.find(':')));
  if (name.ends_with('.')) name.pop_back();
  return name;
}

bool is_in_numbers(const std::string& name) {
  boost::system::error_code error;
  (void)boost::asio::ip::make_address(name, error);
  return !error;
}

bool is_private(std::string_view name) {
  constexpr std::array<std::string_view, 4> endings{".localhost", ".local", ".home.arpa",
                                                    ".internal"};
  return name.find('.') == std::string_view::npos ||
         std::any_of(endings.begin(), endings.end(),
                     [&](std::string_view ending) { return name.ends_with(ending); });
}

}  // namespace

bool answers_to(std::string_view host, const std::vector<std::string>& names) {
  if (host.empty()) return true;
  const std::string name = bare(host);
  if (is_in_numbers(name) || is_private(name)) return true;
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& own) { return name == bare(own); });
}

std::string machine_name() {
  std::array<char, 256> name{};
  return ::gethostname(name.data(), name.size() - 1) == 0 ? name.data() : "";
}

}  // namespace gley::daemon
