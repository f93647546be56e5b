#pragma once
#include <cstdint>
#include <cstring>
#include <string_view>

namespace gley::daemon {

/// Tells damaged or other data from the same data, with no claim against ill will. FNV-1a (Fowler,
/// Noll, Vo), eight bytes at a time, its bits mixed downwards between.
class Checksum {
 public:
  void add(std::uint64_t number) {
    state_ = (state_ ^ number) * 1099511628211U;
    state_ ^= state_ >> 32;
  }

  void add(std::string_view bytes) {
    add(bytes.size());
    for (; bytes.size() >= sizeof(std::uint64_t); bytes.remove_prefix(sizeof(std::uint64_t)))
      add(number_of(bytes.substr(0, sizeof(std::uint64_t))));
    if (!bytes.empty()) add(number_of(bytes));
  }

  [[nodiscard]] std::uint64_t value() const { return state_; }

 private:
  static std::uint64_t number_of(std::string_view bytes) {
    std::uint64_t number = 0;
    std::memcpy(&number, bytes.data(), bytes.size());
    return number;
  }

  std::uint64_t state_ = 14695981039346656037U;
};

}  // namespace gley::daemon
