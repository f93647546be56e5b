#include "daemon/engine/checkpoint.hpp"

#include <cstring>
#include <type_traits>

#include "daemon/engine/checksum.hpp"

namespace gley::daemon {

namespace {

// Written as they lie in memory: read back by nothing but the build that wrote them.
template <class T>
concept Plain = std::is_trivially_copyable_v<T>;

std::uint64_t checksum_of(std::string_view bytes) {
  Checksum sum;
  sum.add(bytes);
  return sum.value();
}

class Writer {
 public:
  template <Plain T>
  void put(const T& value) {
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof(T));
  }

  void put(const std::string& text) {
    put(text.size());
    bytes_ += text;
  }

  void put(const Doubt& doubt) {
    put(doubt.quantity);
    put(doubt.kind);
    put(doubt.source);
    put(doubt.readings);
    put(doubt.accepted);
  }

  void put(const DatedRecord& day) {
    put(day.date);
    put(day.record.weather);
    put(day.record.flags);
    put(day.record.complete);
    put(day.record.loaded);
    put(day.record.doubts);
  }

  template <class T>
  void put(const std::vector<T>& list) {
    put(list.size());
    for (const T& one : list) put(one);
  }

  [[nodiscard]] std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

class Reader {
 public:
  explicit Reader(std::string_view bytes) : bytes_(bytes) {}

  template <Plain T>
  [[nodiscard]] bool get(T& value) {
    if (bytes_.size() < sizeof(T)) return false;
    std::memcpy(&value, bytes_.data(), sizeof(T));
    bytes_.remove_prefix(sizeof(T));
    return true;
  }

  [[nodiscard]] bool get(std::string& text) {
    std::size_t size = 0;
    if (!get(size) || size > bytes_.size()) return false;
    text = bytes_.substr(0, size);
    bytes_.remove_prefix(size);
    return true;
  }

  [[nodiscard]] bool get(Doubt& doubt) {
    return get(doubt.quantity) && get(doubt.kind) && get(doubt.source) && get(doubt.readings) &&
           get(doubt.accepted);
  }

  [[nodiscard]] bool get(DatedRecord& day) {
    return get(day.date) && get(day.record.weather) && get(day.record.flags) &&
           get(day.record.complete) && get(day.record.loaded) && get(day.record.doubts);
  }

  template <class T>
  [[nodiscard]] bool get(std::vector<T>& list) {
    std::size_t count = 0;
    // Nothing takes less than a byte: a count beyond that is not ours, and not worth its memory.
    if (!get(count) || count > bytes_.size()) return false;
    list.resize(count);
    for (T& one : list)
      if (!get(one)) return false;
    return true;
  }

  [[nodiscard]] bool at_end() const { return bytes_.empty(); }

 private:
  std::string_view bytes_;
};

}  // namespace

std::string bytes_of(const Checkpoint& checkpoint) {
  Writer body;
  body.put(checkpoint.seen_id);
  body.put(checkpoint.loaded_days);
  body.put(checkpoint.book.closed);
  body.put(checkpoint.book.records);
  body.put(checkpoint.book.marks);
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
  const bool whole = in.get(checkpoint.seen_id) && in.get(checkpoint.loaded_days) &&
                     in.get(checkpoint.book.closed) && in.get(checkpoint.book.records) &&
                     in.get(checkpoint.book.marks) && in.at_end();
  if (!whole) return {};
  return checkpoint;
}

}  // namespace gley::daemon
