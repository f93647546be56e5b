#include "daemon/text/csv_rows.hpp"

#include "daemon/text/trimmed.hpp"

namespace gley::daemon {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Walks the text once, cell by cell.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  std::vector<CsvRow> rows() {
    std::vector<CsvRow> out;
    while (at_ < text_.size()) {
      CsvRow row = next_row();
      if (row.cells.size() > 1 || !row.cells.front().empty()) out.push_back(std::move(row));
    }
    return out;
  }

 private:
  CsvRow next_row() {
    CsvRow row;
    row.line = line_;
    do row.cells.push_back(next_cell());
    while (take(','));
    take('\r');
    if (take('\n')) ++line_;
    return row;
  }

  std::string next_cell() {
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
    if (take('"')) return quoted_cell();
    const std::size_t start = at_;
    while (at_ < text_.size() && text_[at_] != ',' && text_[at_] != '\n' && text_[at_] != '\r')
      ++at_;
    // A lone carriage return would stop every row here for ever.
    if (at_ < text_.size() && text_[at_] == '\r' &&
        !(at_ + 1 < text_.size() && text_[at_ + 1] == '\n'))
      ++at_;
    return std::string(trimmed(text_.substr(start, at_ - start), " \t"));
  }

  std::string quoted_cell() {
    std::string cell;
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == '"' && !take('"')) break;
      if (c == '\n') ++line_;
      cell += c;
    }
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
    return cell;
  }

  bool take(char wanted) {
    if (at_ >= text_.size() || text_[at_] != wanted) return false;
    ++at_;
    return true;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::uint32_t line_ = 1;
};

}  // namespace

std::vector<CsvRow> csv_rows(std::string_view text) {
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
    text.remove_prefix(byte_order_mark.size());
  return Reader(text).rows();
}

}  // namespace gley::daemon
