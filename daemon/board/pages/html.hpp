#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace gley::daemon {

/// One escaper for each place a stranger's text may stand in a page. Broken UTF-8 and control
/// characters become U+FFFD, in a link their bytes in hexadecimal.
[[nodiscard]] std::string html_text(std::string_view text);       ///< between tags
[[nodiscard]] std::string html_attribute(std::string_view text);  ///< inside "..." of an attribute
[[nodiscard]] std::string url_part(std::string_view text);  ///< one segment or value of a link

/// Markup that stands in our source. Only a literal makes one, so no name, reason or payload can
/// reach a page unescaped.
class Markup {
 public:
  template <std::size_t N>
  consteval Markup(const char (&literal)[N]) : text_(literal, N - 1) {}  // NOLINT(*-explicit-*)
  [[nodiscard]] std::string_view text() const { return text_; }

 private:
  std::string_view text_;
};

/// A page, or a part of one, as it is put together.
class Html {
 public:
  Html& markup(Markup markup);
  Html& text(std::string_view text);
  Html& attribute(std::string_view text);
  Html& url(std::string_view part);
  /// A coordinate of a drawing, at most one decimal.
  Html& coordinate(double value);
  Html& part(const Html& other);

  [[nodiscard]] bool empty() const { return out_.empty(); }
  [[nodiscard]] const std::string& str() const { return out_; }

 private:
  std::string out_;
};

}  // namespace gley::daemon
