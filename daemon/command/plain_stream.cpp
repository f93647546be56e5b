#include "daemon/command/plain_stream.hpp"

#include "daemon/board/words/terminal_text.hpp"

namespace gley::daemon {

PlainStream::PlainStream(std::ostream& target) : std::ostream(nullptr), buffer_(target) {
  rdbuf(&buffer_);
}

PlainStream::~PlainStream() {
  buffer_.pass_on();
}

/// A line at a time, so that no character is cut in two.
PlainStream::Buffer::int_type PlainStream::Buffer::overflow(int_type next) {
  if (traits_type::eq_int_type(next, traits_type::eof())) return traits_type::not_eof(next);
  if (next == '\n') {
    pass_on();
    out_ << '\n';
  } else {
    text_ += traits_type::to_char_type(next);
  }
  return next;
}

int PlainStream::Buffer::sync() {
  pass_on();
  out_.flush();
  return out_ ? 0 : -1;
}

void PlainStream::Buffer::pass_on() {
  out_ << plain(text_);
  text_.clear();
}

}  // namespace gley::daemon
