#include "daemon/farm/toml_slip.hpp"

#include <algorithm>
#include <array>

#include "daemon/text/trimmed.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {
namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_utf8(std::string_view text) {
  constexpr std::string_view replacement = "\xef\xbf\xbd";
  while (!text.empty()) {
    const bool is_itself = text.starts_with(replacement);
    if (take_code_point(text) == replacement_point && !is_itself) return false;
  }
  return true;
}

constexpr std::string_view list_slip =
    "in a list a comma stands between one thing and the next, and each bracket is closed";
constexpr std::string_view date_slip = "a date is written year-month-day, such as 2026-03-20";

/// As word processors put them in the place of " and '.
bool has_curved_quotes(std::string_view text) {
  constexpr std::array<std::string_view, 5> quotes{"\xe2\x80\x98", "\xe2\x80\x99", "\xe2\x80\x9c",
                                                   "\xe2\x80\x9d", "\xe2\x80\x9e"};
  return std::any_of(quotes.begin(), quotes.end(), [text](std::string_view quote) {
    return text.find(quote) != std::string_view::npos;
  });
}

/// 04-10-2025, 4/10/2025 or 4.10.2025: a date, but not as TOML has it.
bool looks_like_date(std::string_view value) {
  const auto parts = value.substr(0, value.find_first_not_of("0123456789-/."));
  return is_digit(parts.empty() ? ' ' : parts.front()) &&
         std::count_if(parts.begin(), parts.end(), [](char c) { return !is_digit(c); }) == 2;
}

/// One within a list or a table, outside quotation marks, where nothing else has a slash or two
/// points.
bool holds_date(std::string_view list) {
  bool in_text = false;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i] == '"') in_text = !in_text;
    const bool begins = !in_text && is_digit(list[i]) && (i == 0 || !is_digit(list[i - 1]));
    const std::string_view value = list.substr(i);
    if (begins && looks_like_date(value) && value.find_first_of("/.") < value.find_first_of(" ,}]"))
      return true;
  }
  return false;
}

std::optional<std::string> slip_in_text(std::string_view value) {
  if (std::count(value.begin(), value.end(), '"') % 2 != 0) return "a quotation mark is missing";
  const std::string_view rest = trimmed(value.substr(value.find('"', 1) + 1));
  if (rest.empty() || rest.front() == '#') return std::nullopt;
  return "after the closing quotation mark nothing may follow but a remark, which begins with #";
}

std::optional<std::string> slip_in_value(std::string_view value) {
  if (value.empty() || value.front() == '#') return "the value is missing";
  if (value.front() == '"') return slip_in_text(value);
  if (value.front() == '[' || value.front() == '{')
    return std::string(holds_date(value) ? date_slip : list_slip);
  if (is_letter(value.front())) {
    return "a text stands in quotation marks, such as \"clay loam\"; true and false stand without "
           "them, in small letters";
  }
  if (looks_like_date(value)) return std::string(date_slip);
  if (is_digit(value.front()) || std::string_view("+-.").find(value.front()) != std::string::npos) {
    return "a number stands alone, without its unit, and has a point and no comma, such as 2.5";
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> slip_in(std::string_view line) {
  if (!is_utf8(line)) return "save the file as plain text in UTF-8";
  const std::string_view text = trimmed(line);
  if (text.empty()) return std::nullopt;
  if (has_curved_quotes(text)) return "quotation marks must be straight ones, \"";
  if (text.front() == '[') {
    return "a heading stands alone on its line and once in the file, such as [mqtt]; what there "
           "can be several of has double brackets, such as [[field]]";
  }
  const auto sign = text.find('=');
  if (sign == std::string_view::npos) {
    // A list may go on over several lines.
    if (std::string_view("\"]},").find(text.front()) != std::string_view::npos)
      return std::string(list_slip);
    return "a line is a heading, such as [mqtt], or key = value, or a remark, which begins with #";
  }
  const std::string_view key = trimmed(text.substr(0, sign));
  if (key.find(' ') != std::string_view::npos && key.find('"') == std::string_view::npos)
    return "a key has no blanks, such as tyre_pressure_bar";
  return slip_in_value(trimmed(text.substr(sign + 1)));
}

}  // namespace gley::daemon
