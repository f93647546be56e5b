#include "daemon/farm/config_hash.hpp"

#include <cstdint>

#include "daemon/farm/embedded_tables.hpp"

namespace gley::daemon {
namespace {

class Fnv1a {
 public:
  /// The length goes in too, so that a line moved from one file to the next is a change.
  void add(std::string_view text) {
    for (std::uint64_t length = text.size(), i = 0; i < 8; ++i) add_byte(length >> (8 * i) & 0xffU);
    for (const char c : text) add_byte(static_cast<unsigned char>(c));
  }

  [[nodiscard]] std::string hex() const {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (int shift = 60; shift >= 0; shift -= 4) text += digits[state_ >> shift & 0xfU];
    return text;
  }

 private:
  void add_byte(std::uint64_t byte) { state_ = (state_ ^ byte) * 1099511628211U; }

  std::uint64_t state_ = 14695981039346656037U;
};

}  // namespace

std::string hash_of(const std::vector<ConfigFile>& files) {
  Fnv1a hash;
  for (const ConfigFile& file : files) hash.add(file.text);
  for (const char* table : {"crops.toml", "soils.toml", "irrigation.toml", "machines.toml"})
    hash.add(embedded_table(table));
  return hash.hex();
}

}  // namespace gley::daemon
