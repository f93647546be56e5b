#pragma once
#include <deque>
#include <string>
#include <string_view>
#include <utility>

#include "daemon/board/http/http_message.hpp"

namespace gley::daemon {

/// The text as a gzip file (RFC 1952), of the same bytes for the same text.
[[nodiscard]] std::string gzip(std::string_view text);

/// Sends text short to those that can take it so. Remembers the last few, by entity tag: all
/// displays ask for the same page at once.
class Shortener {
 public:
  /// To be called on a finished response: one with its ETag.
  void shorten(const Request& request, Response& response);

 private:
  const std::string& shortened(const std::string& tag, std::string_view body);

  std::deque<std::pair<std::string, std::string>> kept_;  ///< tag and body; the latest first
};

}  // namespace gley::daemon
