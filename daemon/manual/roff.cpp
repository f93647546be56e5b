#include "daemon/manual/roff.hpp"

namespace gley::daemon {

std::string roff_text(std::string_view text) {
  std::string out;
  bool line_begins = true;
  for (const char c : text) {
    // At the start of a line these make a request of it.
    if (line_begins && (c == '.' || c == '\'')) out += "\\&";
    line_begins = c == '\n';
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if (c == '~')
      out += "\\(ti";
    else if (c == '^')
      out += "\\(ha";
    else
      out += c;
  }
  return out;
}

std::string sentence(std::string_view help) {
  std::string out(help);
  const bool is_lower = !out.empty() && out.front() >= 'a' && out.front() <= 'z';
  if (is_lower) out.front() = static_cast<char>(out.front() - 'a' + 'A');
  return out + '.';
}

namespace {

/// An argument of a macro, whole however many words it has.
std::string argument(std::string_view text) {
  std::string out = "\"";
  for (const char c : roff_text(text)) out += c == '"' ? std::string("\\(dq") : std::string(1, c);
  return out + '"';
}

/// Sentences on lines of their own: a formatter spaces them, and changes show line by line.
std::string sentences(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t end = text.find(". ");
    out += roff_text(text.substr(0, end == std::string_view::npos ? end : end + 1)) + '\n';
    text = end == std::string_view::npos ? "" : text.substr(end + 2);
  }
  return out;
}

/// Right below a heading a paragraph needs no request of its own.
bool ends_with_heading(std::string_view page) {
  const std::string_view line = page.substr(page.rfind('\n', page.size() - 2) + 1);
  return line.starts_with(".SH") || line.starts_with(".SS");
}

}  // namespace

ManualPage::ManualPage(const PageHead& head) {
  out_ = ".TH " + argument(head.title) + ' ' + argument(head.section) + ' ' +
         std::string(head.date) + " \"Gley " GLEY_VERSION "\" \"Gley manual\"\n.SH NAME\n" +
         roff_text(head.what) + '\n';
}

ManualPage& ManualPage::section(std::string_view title) {
  out_ += ".SH " + argument(title) + '\n';
  return *this;
}

ManualPage& ManualPage::subsection(std::string_view title) {
  out_ += ".SS " + argument(title) + '\n';
  return *this;
}

ManualPage& ManualPage::paragraph(std::string_view text) {
  if (!ends_with_heading(out_)) out_ += ".PP\n";
  out_ += sentences(text);
  return *this;
}

ManualPage& ManualPage::entry(std::string_view term, std::string_view after,
                              std::string_view text) {
  out_ += ".TP\n";
  out_ += after.empty() ? ".B " + argument(term)
                        : ".BR " + argument(term) + ' ' + argument(" " + std::string(after));
  out_ += '\n' + sentences(text);
  return *this;
}

ManualPage& ManualPage::example(std::string_view lines) {
  if (!ends_with_heading(out_)) out_ += ".PP\n";
  out_ += ".nf\n.RS 4\n" + roff_text(lines);
  if (!lines.ends_with('\n')) out_ += '\n';
  out_ += ".RE\n.fi\n";
  return *this;
}

}  // namespace gley::daemon
