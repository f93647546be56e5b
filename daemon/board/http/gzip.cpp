#include "daemon/board/http/gzip.hpp"

#include <zlib.h>

#include <algorithm>
#include <stdexcept>

#include "daemon/board/http/http_policy.hpp"

namespace gley::daemon {

namespace {

// A full farm's page in a few milliseconds; higher levels cost several times that for some percent.
constexpr int level = 4;
constexpr int gzip_window_bits = 15 + 16;  // zlib.h: 16 more asks for gzip's own head and tail
constexpr int memory_level = 8;
constexpr std::size_t kept_bodies = 8;
constexpr std::size_t least_bytes = 1400;  // what is shorter fits one packet as it is

bool is_text(std::string_view content_type) {
  return content_type.starts_with("text/") || content_type.starts_with("application/json") ||
         content_type.starts_with("application/openmetrics-text") ||
         content_type.starts_with("image/svg+xml");
}

}  // namespace

std::string gzip(std::string_view text) {
  z_stream stream{};
  if (deflateInit2(&stream, level, Z_DEFLATED, gzip_window_bits, memory_level,
                   Z_DEFAULT_STRATEGY) != Z_OK)
    throw std::runtime_error("no memory to compress a page");
  std::string out(deflateBound(&stream, text.size()), '\0');
  // zlib's next_in is not const, but it writes nothing there (zlib.h).
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const int end = deflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  if (end != Z_STREAM_END) throw std::runtime_error("a page could not be compressed");
  return out;
}

const std::string& Shortener::shortened(const std::string& tag, std::string_view body) {
  const auto known =
      std::find_if(kept_.begin(), kept_.end(), [&](const auto& kept) { return kept.first == tag; });
  if (known != kept_.end()) return known->second;
  kept_.emplace_front(tag, gzip(body));
  if (kept_.size() > kept_bodies) kept_.pop_back();
  return kept_.front().second;
}

void Shortener::shorten(const Request& request, Response& response) {
  if (response.event_stream || !is_text(response.content_type)) return;
  response.headers.emplace_back("Vary", "Accept-Encoding");
  const std::string tag = header(response, "ETag");
  if (response.status != 200 || tag.empty() || response.body.size() < least_bytes) return;
  if (quality_of(request.accept_encoding, "gzip") <= 0.0) return;
  response.body = shortened(tag, response.body);
  response.headers.emplace_back("Content-Encoding", "gzip");
}

}  // namespace gley::daemon
