#include "daemon/engine/fields/checkpoint.hpp"

#include <cstring>
#include <type_traits>

#include "daemon/engine/weather/checksum.hpp"

namespace gley::daemon {

namespace {

// Written as they lie in memory: read back by nothing but the build that wrote them.
static_assert(std::is_trivially_copyable_v<DatedRecord>);
static_assert(std::is_trivially_copyable_v<FieldHistory::Mark>);

std::uint64_t checksum_of(std::string_view bytes) {
  Checksum sum;
  sum.add(bytes);
  return sum.value();
}

class Writer {
 public:
  template <class T>
  void put(const T& value) {
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof(T));
  }

  template <class T>
  void put_lists(const std::vector<std::vector<T>>& lists) {
    put(lists.size());
    for (const std::vector<T>& list : lists) {
      put(list.size());
      bytes_.append(reinterpret_cast<const char*>(list.data()), list.size() * sizeof(T));
    }
  }

  [[nodiscard]] std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

class Reader {
 public:
  explicit Reader(std::string_view bytes) : bytes_(bytes) {}

  template <class T>
  [[nodiscard]] bool get(T& value) {
    if (bytes_.size() < sizeof(T)) return false;
    std::memcpy(&value, bytes_.data(), sizeof(T));
    bytes_.remove_prefix(sizeof(T));
    return true;
  }

  template <class T>
  [[nodiscard]] bool get_lists(std::vector<std::vector<T>>& lists) {
    std::size_t count = 0;
    if (!get(count) || count > bytes_.size()) return false;
    lists.resize(count);
    for (std::vector<T>& list : lists)
      if (!get_list(list)) return false;
    return true;
  }

  [[nodiscard]] bool at_end() const { return bytes_.empty(); }

 private:
  template <class T>
  [[nodiscard]] bool get_list(std::vector<T>& list) {
    std::size_t count = 0;
    if (!get(count) || count > bytes_.size() / sizeof(T)) return false;
    list.resize(count);
    for (T& one : list)
      if (!get(one)) return false;
    return true;
  }

  std::string_view bytes_;
};

}  // namespace

std::string bytes_of(const Checkpoint& checkpoint) {
  Writer body;
  body.put(checkpoint.seen_id);
  body.put(checkpoint.given);
  body.put(checkpoint.book.closed);
  body.put_lists(checkpoint.book.records);
  body.put_lists(checkpoint.book.marks);
  const std::string text = body.take();
  Writer whole;
  whole.put(checksum_of(text));
  return whole.take() + text;
}

std::optional<Checkpoint> checkpoint_from(std::string_view bytes) {
  Reader in(bytes);
  std::uint64_t sum = 0;
  if (!in.get(sum) || sum != checksum_of(bytes.substr(sizeof(sum)))) return {};
  Checkpoint checkpoint;
  const bool whole = in.get(checkpoint.seen_id) && in.get(checkpoint.given) &&
                     in.get(checkpoint.book.closed) && in.get_lists(checkpoint.book.records) &&
                     in.get_lists(checkpoint.book.marks) && in.at_end();
  if (!whole) return {};
  return checkpoint;
}

}  // namespace gley::daemon
