#include "daemon/text/utf8.hpp"

namespace gley::daemon {
namespace {

/// Bytes of a sequence by its first byte; 0 for a byte that begins none.
std::size_t sequence_length(unsigned char first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first < 0xE0) return 2;
  if (first >= 0xE0 && first < 0xF0) return 3;
  if (first >= 0xF0 && first < 0xF5) return 4;
  return 0;
}

bool is_scalar(char32_t point, std::size_t length) {
  if (length == 3) return point >= 0x800 && (point < 0xD800 || point > 0xDFFF);
  if (length == 4) return point >= 0x10000 && point <= 0x10FFFF;
  return true;
}

}  // namespace

char32_t take_code_point(std::string_view& rest) {
  const auto first = static_cast<unsigned char>(rest.front());
  const std::size_t length = sequence_length(first);
  char32_t point = length == 1 ? first : first & (0x7Fu >> length);
  bool whole = length != 0 && length <= rest.size();
  for (std::size_t i = 1; whole && i < length; ++i) {
    const auto next = static_cast<unsigned char>(rest[i]);
    whole = (next & 0xC0u) == 0x80u;
    point = (point << 6) | (next & 0x3Fu);
  }
  whole = whole && is_scalar(point, length);
  rest.remove_prefix(whole ? length : 1);
  return whole ? point : replacement_point;
}

void append_code_point(std::string& out, char32_t point) {
  const auto tail = [&](int shift) {
    out += static_cast<char>(0x80u | ((point >> shift) & 0x3Fu));
  };
  if (point < 0x80) {
    out += static_cast<char>(point);
  } else if (point < 0x800) {
    out += static_cast<char>(0xC0u | (point >> 6));
    tail(0);
  } else if (point < 0x10000) {
    out += static_cast<char>(0xE0u | (point >> 12));
    tail(6);
    tail(0);
  } else {
    out += static_cast<char>(0xF0u | (point >> 18));
    tail(12);
    tail(6);
    tail(0);
  }
}

bool is_control(char32_t point) {
  if (point < 0x20 || (point >= 0x7F && point < 0xA0)) return true;
  return point == 0x061C || point == 0x200E || point == 0x200F ||
         (point >= 0x2028 && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const char32_t point = take_code_point(text);
    append_code_point(out, is_control(point) ? replacement_point : point);
  }
  return out;
}

std::string ascii_line(std::string_view text, std::size_t longest) {
  std::string line;
  for (const char c : text.substr(0, longest)) line += c >= ' ' && c <= '~' ? c : '?';
  if (text.size() > longest) line += "...";
  return line;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for (; !text.empty(); ++count) (void)take_code_point(text);
  return count;
}

}  // namespace gley::daemon
