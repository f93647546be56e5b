#pragma once
#include <string>
#include <string_view>

namespace gley::daemon {

struct PageHead {
  std::string_view title;    ///< "GLEYD"
  std::string_view section;  ///< "1"
  std::string_view date;     ///< "2026-11-25"
  std::string_view what;     ///< "gleyd - what it is, in a line"
};

/// Writes a manual page in the macros of man(7). Text is escaped, and nothing else is interpreted.
class ManualPage {
 public:
  explicit ManualPage(const PageHead& head);

  ManualPage& section(std::string_view title);
  ManualPage& subsection(std::string_view title);
  ManualPage& paragraph(std::string_view text);
  /// A term in bold, what follows it on its line as it is, and the text below, indented.
  ManualPage& entry(std::string_view term, std::string_view after, std::string_view text);
  /// Lines as they stand.
  ManualPage& example(std::string_view lines);

  [[nodiscard]] std::string text() && { return std::move(out_); }

 private:
  std::string out_;
};

/// A help text as a sentence of its own: "of the board's page" to "Of the board's page."
[[nodiscard]] std::string sentence(std::string_view help);

/// Text that roff prints as it stands, with hyphens that a terminal can search for and copy.
[[nodiscard]] std::string roff_text(std::string_view text);

}  // namespace gley::daemon
