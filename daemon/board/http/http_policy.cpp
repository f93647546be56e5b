#include "daemon/board/http/http_policy.hpp"

#include <array>
#include <charconv>
#include <cstdint>

#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/text/trimmed.hpp"

namespace gley::daemon {
namespace {

constexpr std::string_view weak = "W/";

/// RFC 9110, section 13.1.2: a list, compared weakly, or "*" for any.
bool names_tag(std::string_view if_none_match, std::string_view tag) {
  while (!if_none_match.empty()) {
    const std::size_t end = if_none_match.find(',');
    std::string_view one = trimmed(if_none_match.substr(0, end));
    if (one.starts_with(weak)) one.remove_prefix(weak.size());
    if (one == tag.substr(weak.size()) || one == "*") return true;
    if_none_match = end == std::string_view::npos ? "" : if_none_match.substr(end + 1);
  }
  return false;
}

}  // namespace

const std::vector<std::pair<std::string, std::string>>& policy_headers() {
  static const std::vector<std::pair<std::string, std::string>> headers{
      {"Content-Security-Policy",
       "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src "
       "'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      // Kept by the browser, but never shown without asking: old ground looks like new ground.
      {"Cache-Control", "no-cache"},
  };
  return headers;
}

std::string entity_tag(std::string_view body) {
  // FNV-1a, 64 bits (Fowler, Noll and Vo): two texts of one tag are not to be feared here.
  std::uint64_t hash = 14695981039346656037u;
  for (const char byte : body) {
    hash ^= static_cast<unsigned char>(byte);
    hash *= 1099511628211u;
  }
  std::array<char, 16> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), hash, 16);
  return std::string(weak) + '"' + std::string(digits.data(), end.ptr) + '"';
}

double quality_of(std::string_view accepted, std::string_view name) {
  double best = 0.0;
  while (!accepted.empty()) {
    const std::size_t end = accepted.find(',');
    const std::string_view range = accepted.substr(0, end);
    accepted = end == std::string_view::npos ? "" : accepted.substr(end + 1);
    if (range.find(name) == std::string_view::npos) continue;
    const std::size_t q = range.find("q=");
    const double value = q == std::string_view::npos ? 1.0 : number_or(range.substr(q + 2), 0.0);
    best = value > best ? value : best;
  }
  return best;
}

void finish(const Request& request, Response& response) {
  for (const auto& [name, value] : policy_headers())
    if (header(response, name).empty()) response.headers.emplace_back(name, value);
  if (response.status != 200 || response.event_stream || is_write(request)) return;
  const std::string tag = entity_tag(response.body);
  response.headers.emplace_back("ETag", tag);
  if (!names_tag(request.if_none_match, tag)) return;
  response.status = 304;
  response.body.clear();
}

}  // namespace gley::daemon
