#include "daemon/board/http/http_target.hpp"

#include <charconv>

#include "daemon/text/utf8.hpp"

namespace gley::daemon {
namespace {

std::optional<char> decode_byte(std::string_view hex) {
  unsigned value = 0;
  const auto [end, error] = std::from_chars(hex.data(), hex.data() + hex.size(), value, 16);
  if (error != std::errc{} || hex.size() != 2 || end != hex.data() + 2) return std::nullopt;
  return static_cast<char>(value);
}

bool is_clean(std::string_view text) {
  for (std::string_view rest = text; !rest.empty();) {
    const char32_t point = take_code_point(rest);
    if (point == replacement_point || is_control(point)) return false;
  }
  return true;
}

/// plus_is_space: true in a query, as forms send it.
std::optional<std::string> decode(std::string_view text, bool plus_is_space) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%') {
      const auto byte = decode_byte(text.substr(i + 1, 2));
      if (!byte) return std::nullopt;
      out += *byte;
      i += 2;
    } else {
      out += plus_is_space && text[i] == '+' ? ' ' : text[i];
    }
  }
  if (!is_clean(out)) return std::nullopt;
  return out;
}

std::optional<std::string> decode_segment(std::string_view raw) {
  auto segment = decode(raw, false);
  if (!segment || *segment == "." || *segment == "..") return std::nullopt;
  if (segment->find_first_of("/\\") != std::string::npos) return std::nullopt;
  return segment;
}

std::optional<std::string> decode_path(std::string_view raw) {
  std::string path;
  while (!raw.empty()) {
    raw.remove_prefix(1);  // the slash
    const std::size_t end = raw.find('/');
    const auto segment = decode_segment(raw.substr(0, end));
    if (!segment || (segment->empty() && end != std::string_view::npos)) return std::nullopt;
    path += '/' + *segment;
    raw = end == std::string_view::npos ? std::string_view{} : raw.substr(end);
  }
  return path;
}

bool read_pair(std::string_view raw, std::map<std::string, std::string>& query) {
  const std::size_t equals = raw.find('=');
  const auto key = decode(raw.substr(0, equals), true);
  const auto value = decode(equals == std::string_view::npos ? "" : raw.substr(equals + 1), true);
  return key && value && query.emplace(*key, *value).second;
}

}  // namespace

std::optional<HttpTarget> parse_target(std::string_view target) {
  if (!target.starts_with('/')) return std::nullopt;
  const std::size_t mark = target.find('?');
  const auto path = decode_path(target.substr(0, mark));
  if (!path) return std::nullopt;
  HttpTarget out{.path = *path, .query = {}};
  std::string_view rest = mark == std::string_view::npos ? "" : target.substr(mark + 1);
  while (!rest.empty()) {
    const std::size_t end = rest.find('&');
    if (!read_pair(rest.substr(0, end), out.query)) return std::nullopt;
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  }
  return out;
}

std::optional<std::string_view> match(std::string_view pattern, std::string_view path) {
  const std::size_t star = pattern.find('*');
  if (star == std::string_view::npos) {
    return pattern == path ? std::optional(std::string_view{}) : std::nullopt;
  }
  const std::string_view before = pattern.substr(0, star);
  const std::string_view after = pattern.substr(star + 1);
  const bool fits = path.size() > before.size() + after.size() && path.starts_with(before) &&
                    path.ends_with(after);
  if (!fits) return std::nullopt;
  const auto id = path.substr(star, path.size() - before.size() - after.size());
  return id.find('/') == std::string_view::npos ? std::optional(id) : std::nullopt;
}

}  // namespace gley::daemon
