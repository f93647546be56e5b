#include "daemon/board/words/terminal_text.hpp"

#include <algorithm>
#include <array>

#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

struct Block {
  char32_t first;
  char32_t last;
};

constexpr std::array<Block, 24> on_the_one_before{
    {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x0610, 0x061A},  {0x064B, 0x065F},
     {0x06D6, 0x06DC}, {0x0900, 0x0902}, {0x093C, 0x093C}, {0x0941, 0x0948},  {0x094D, 0x094D},
     {0x0981, 0x0981}, {0x09CD, 0x09CD}, {0x0E31, 0x0E31}, {0x0E34, 0x0E3A},  {0x0E47, 0x0E4E},
     {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x2060, 0x2064},  {0x20D0, 0x20FF},
     {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}, {0xE0100, 0xE01EF}}};

constexpr std::array<Block, 12> wide{{{0x1100, 0x115F},
                                      {0x2E80, 0x303E},
                                      {0x3041, 0x4DBF},
                                      {0x4E00, 0xA4CF},
                                      {0xA960, 0xA97F},
                                      {0xAC00, 0xD7A3},
                                      {0xF900, 0xFAFF},
                                      {0xFE30, 0xFE6F},
                                      {0xFF00, 0xFF60},
                                      {0xFFE0, 0xFFE6},
                                      {0x1F300, 0x1FAFF},
                                      {0x20000, 0x3FFFD}}};

template <std::size_t N>
bool in(const std::array<Block, N>& blocks, char32_t point) {
  return std::any_of(blocks.begin(), blocks.end(), [point](const Block& block) {
    return block.first <= point && point <= block.last;
  });
}

}  // namespace

std::size_t columns_of(char32_t point) {
  if (point < 0x300) return 1;
  if (in(on_the_one_before, point)) return 0;
  return in(wide, point) ? 2 : 1;
}

std::size_t columns_of(std::string_view text) {
  std::size_t columns = 0;
  while (!text.empty()) columns += columns_of(take_code_point(text));
  return columns;
}

std::string plain(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const char32_t point = take_code_point(text);
    append_code_point(out, point == replacement_point || is_control(point) ? U'?' : point);
  }
  return out;
}

std::string first_columns(std::string_view text, std::size_t width) {
  std::string out;
  std::size_t used = 0;
  while (!text.empty()) {
    const char32_t point = take_code_point(text);
    used += columns_of(point);
    if (used > width) break;
    append_code_point(out, point);
  }
  return out;
}

std::string cell(std::string_view text, std::size_t width) {
  std::string safe = plain(text);
  if (columns_of(safe) > width) safe = first_columns(safe, width - 2) + "..";
  return safe + std::string(width - columns_of(safe), ' ');
}

std::string right_cell(const std::string& text, std::size_t width) {
  return text.size() >= width ? text : std::string(width - text.size(), ' ') + text;
}

void Paragraphs::line(const std::string& text) {
  std::string own = first_columns(text, width_);
  own.resize(own.find_last_not_of(' ') + 1);
  out_ += own + '\n';
}

void Paragraphs::wrap(std::string_view lead, std::string_view text, std::size_t indent) {
  std::string line(lead);
  bool fresh = true;
  const std::string safe = plain(text);
  for (std::string_view rest = safe; !rest.empty();) {
    const std::size_t end = rest.find(' ');
    add_word(line, rest.substr(0, end), indent, fresh);
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  }
  if (!line.empty()) out_ += line + '\n';
}

void Paragraphs::add_word(std::string& line, std::string_view word, std::size_t indent,
                          bool& fresh) {
  const std::size_t space = fresh ? 0 : 1;
  if (!fresh && columns_of(line) + space + columns_of(word) > width_) {
    out_ += line + '\n';
    line.assign(indent, ' ');
    fresh = true;
  }
  if (!fresh) line += ' ';
  line += word;
  fresh = false;
  while (columns_of(line) > width_) {
    const std::string head = first_columns(line, width_);
    out_ += head + '\n';
    line = std::string(indent, ' ') + line.substr(head.size());
  }
}

}  // namespace gley::daemon
