#pragma once
#include <cstddef>
#include <string>
#include <string_view>

/// Names come from configuration and payloads: bytes that may be anything.
namespace gley::daemon {

inline constexpr char32_t replacement_point = 0xFFFD;

/// Takes one code point off the front of `rest`, which must not be empty. Bytes that are no UTF-8
/// (overlong, surrogate, cut short) give `replacement_point`, one byte at a time.
[[nodiscard]] char32_t take_code_point(std::string_view& rest);

void append_code_point(std::string& out, char32_t point);

/// C0, DEL, C1, and the marks that reorder text around them (Unicode, "Bidi_Control"): what could
/// move a cursor or make a line read otherwise than it is.
[[nodiscard]] bool is_control(char32_t point);

/// The text with every broken byte and control made U+FFFD: safe on a page or a terminal.
[[nodiscard]] std::string printable(std::string_view text);

/// The same in ASCII, and no longer than so many bytes: for a line of a log about what anyone sent.
[[nodiscard]] std::string ascii_line(std::string_view text, std::size_t longest);

/// Code points in the text: columns on a terminal, for scripts without wide or combining marks.
[[nodiscard]] std::size_t code_points(std::string_view text);

}  // namespace gley::daemon
