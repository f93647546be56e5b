#include "daemon/board/pages/html.hpp"

#include "daemon/board/words/figure_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {
namespace {

std::string_view entity(char character, bool in_attribute) {
  switch (character) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return in_attribute ? "&quot;" : "";
    case '\'':
      return in_attribute ? "&#39;" : "";
    default:
      return "";
  }
}

std::string escape(std::string_view text, bool in_attribute) {
  std::string out;
  for (const char character : printable(text)) {
    const std::string_view replaced = entity(character, in_attribute);
    if (replaced.empty()) {
      out += character;
    } else {
      out += replaced;
    }
  }
  return out;
}

/// RFC 3986, section 2.3.
bool is_unreserved(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
         c == '.' || c == '_' || c == '~';
}

}  // namespace

std::string html_text(std::string_view text) {
  return escape(text, false);
}

std::string html_attribute(std::string_view text) {
  return escape(text, true);
}

std::string url_part(std::string_view text) {
  static constexpr std::string_view digits = "0123456789ABCDEF";
  std::string out;
  for (const char character : text) {
    if (is_unreserved(character)) {
      out += character;
      continue;
    }
    const auto byte = static_cast<unsigned char>(character);
    out += '%';
    out += digits[byte >> 4];
    out += digits[byte & 0x0F];
  }
  return out;
}

Html& Html::markup(Markup markup) {
  out_ += markup.text();
  return *this;
}

Html& Html::text(std::string_view text) {
  out_ += html_text(text);
  return *this;
}

Html& Html::attribute(std::string_view text) {
  out_ += html_attribute(text);
  return *this;
}

Html& Html::url(std::string_view part) {
  out_ += url_part(part);
  return *this;
}

Html& Html::coordinate(double value) {
  out_ += decimal_text(round_to(value, 0.1));
  return *this;
}

Html& Html::part(const Html& other) {
  out_ += other.out_;
  return *this;
}

}  // namespace gley::daemon
