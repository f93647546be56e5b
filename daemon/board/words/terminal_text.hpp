#pragma once
#include <cstddef>
#include <string>
#include <string_view>

/// Plain text for a terminal: names may be of any length and script, and may try to command it.
namespace gley::daemon {

/// Columns a code point takes: none if it sits on the one before, two for the wide ones of East
/// Asia and pictures. Source: Unicode Standard Annex #11 and the general categories Mn, Me and Cf,
/// the blocks in use.
[[nodiscard]] std::size_t columns_of(char32_t point);
[[nodiscard]] std::size_t columns_of(std::string_view text);

/// What may go to a terminal: controls and broken bytes become '?', as U+FFFD may not be in its
/// font.
[[nodiscard]] std::string plain(std::string_view text);

/// As many whole code points, with what sits on them, as fit into `width` columns.
[[nodiscard]] std::string first_columns(std::string_view text, std::size_t width);

/// Cut or filled to exactly `width` columns, 3 at least; what was cut ends in "..".
[[nodiscard]] std::string cell(std::string_view text, std::size_t width);

/// Filled from the left; longer text stays whole.
[[nodiscard]] std::string right_cell(const std::string& text, std::size_t width);

/// Collects lines no longer than the width, breaking at spaces and, if need be, inside words.
class Paragraphs {
 public:
  explicit Paragraphs(std::size_t width) : width_(width) {}

  void line(const std::string& text);

  /// The first line begins with `lead`, the others are indented by `indent` spaces.
  void wrap(std::string_view lead, std::string_view text, std::size_t indent);

  [[nodiscard]] std::string text() && { return std::move(out_); }

 private:
  void add_word(std::string& line, std::string_view word, std::size_t indent, bool& fresh);

  std::size_t width_;
  std::string out_;
};

}  // namespace gley::daemon
