#include "daemon/command/explanation_text.hpp"

#include "daemon/engine/fields/days_csv.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

constexpr std::size_t terminal_columns = 80;
constexpr std::size_t name_columns = 34;
constexpr std::size_t detail_indent = 6;

/// Lines no longer than the terminal is wide, broken at spaces and, if need be, inside words.
class Paragraph {
 public:
  /// The first line begins with `lead`, the others with `indent` spaces.
  Paragraph(std::string lead, std::size_t indent) : line_(std::move(lead)), indent_(indent) {}

  void add(std::string_view text) {
    while (!text.empty()) {
      const std::size_t end = std::min(text.find(' '), text.size());
      if (end > 0) add_word(text.substr(0, end));
      text.remove_prefix(std::min(end + 1, text.size()));
    }
  }

  [[nodiscard]] std::string finish() { return out_ + line_ + '\n'; }

 private:
  void add_word(std::string_view word) {
    const bool begins = line_.empty() || line_.back() == ' ';
    if (!begins && code_points(line_) + 1 + code_points(word) > terminal_columns) next_line();
    if (!line_.empty() && line_.back() != ' ') line_ += ' ';
    while (!word.empty()) {
      if (code_points(line_) == terminal_columns) next_line();
      append_code_point(line_, take_code_point(word));
    }
  }

  void next_line() {
    out_ += line_ + '\n';
    line_ = std::string(indent_, ' ');
  }

  std::string out_;
  std::string line_;
  std::size_t indent_;
};

std::string wrapped(const std::string& lead, std::size_t indent, const std::string& text) {
  Paragraph paragraph(lead, indent);
  paragraph.add(printable(text));
  return paragraph.finish();
}

/// The column of days.csv that has the same number, in brackets.
std::string column_text(const std::string& key) {
  std::string columns = days_csv_header(model::max_layers);
  columns.back() = ',';
  return (',' + columns).find(',' + key + ',') == std::string::npos ? "" : " [" + key + "]";
}

std::string value_text(const ExplanationLine& line) {
  if (const auto* number = std::get_if<double>(&line.value))
    return number_text(*number) + (line.unit.empty() ? "" : " " + line.unit) +
           column_text(line.key);
  const std::string& word = std::get<std::string>(line.value);
  return (word.empty() ? "none" : word) + column_text(line.key);
}

std::string name_cell(const std::string& name) {
  const std::string safe = printable(name);
  const std::size_t width = code_points(safe);
  const std::size_t gap = width < name_columns ? name_columns - width : 0;
  return "  " + safe + std::string(gap, ' ') + " = ";
}

std::string line_text(const ExplanationLine& line) {
  constexpr std::size_t value_indent = 2 + name_columns + 3;
  std::string out;
  std::string lead = name_cell(line.name);
  if (code_points(lead) > value_indent) {  // a name of the farm's own, as long as it likes
    out = wrapped("  ", 4, line.name);
    lead = std::string(value_indent - 2, ' ') + "= ";
  }
  out += wrapped(lead, value_indent, value_text(line));
  const std::string indent(detail_indent, ' ');
  if (!line.equation.empty()) out += wrapped(indent + "= ", detail_indent + 2, line.equation);
  if (!line.source.empty()) out += wrapped(indent, detail_indent, "(" + line.source + ")");
  if (!line.note.empty()) out += wrapped(indent, detail_indent, line.note);
  return out;
}

}  // namespace

std::string explanation_text(const Explanation& explanation) {
  std::string out =
      wrapped("", 0,
              explanation.farm_name + ": " + explanation.field_name + " (" + explanation.field_id +
                  ") on " + explanation.date + (explanation.so_far ? ", so far" : ""));
  for (const std::string& sentence : explanation.intro) out += wrapped("", 0, sentence);
  for (const ExplanationSection& section : explanation.sections) {
    out += '\n' + wrapped("", 0, section.title);
    for (const ExplanationLine& line : section.lines) out += line_text(line);
  }
  return out;
}

}  // namespace gley::daemon
