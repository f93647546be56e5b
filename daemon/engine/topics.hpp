#pragma once
#include <vector>

#include "daemon/board/snapshot.hpp"
#include "daemon/engine/publisher.hpp"

namespace gley::daemon {

/// Offers the board to the publisher, topic by topic; fields that look as they did before are only
/// kept. Owned by one thread.
class Topics {
 public:
  explicit Topics(Publisher& publisher) : publisher_(publisher) {}

  void offer(const BoardSnapshot& board);

  /// Everything is to be offered anew, whether it looks the same or not.
  void forget() { offered_.clear(); }

 private:
  void offer_field(const FieldView& field, Instant now);
  void keep_field(const FieldView& field);

  Publisher& publisher_;
  std::vector<FieldView> offered_;
};

/// Whether two views of a field are the same to anyone who reads them: in words, and in numbers to
/// 0.1 mm and 0.001 of water content.
[[nodiscard]] bool looks_the_same(const FieldView& a, const FieldView& b);

}  // namespace gley::daemon
