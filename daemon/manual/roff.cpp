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

}  // namespace

ManualPage::ManualPage(const PageHead& head) {
  out_ = ".TH " + argument(head.title) + ' ' + argument(head.section) + ' ' + argument(head.date) +
         " \"Gley " GLEY_VERSION "\" \"Gley manual\"\n.SH NAME\n" + roff_text(head.what) + '\n';
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
  // Right below a heading a paragraph needs no request of its own.
  const std::size_t last = out_.rfind('\n', out_.size() - 2);
  const std::string_view line = std::string_view(out_).substr(last + 1);
  if (!line.starts_with(".SH") && !line.starts_with(".SS")) out_ += ".PP\n";
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
  out_ += ".PP\n.nf\n.RS 4\n" + roff_text(lines);
  if (!lines.ends_with('\n')) out_ += '\n';
  out_ += ".RE\n.fi\n";
  return *this;
}

}  // namespace gley::daemon
