#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/run/publisher.hpp"
#include "daemon/engine/view/field_views.hpp"

namespace gley::daemon {

/// Offers the board to the publisher, topic by topic; of the fields those that were made anew.
/// Owned by one thread.
class Topics {
 public:
  /// write_board: the board as it stands when it is called.
  Topics(Publisher& publisher, std::function<std::string()> write_board)
      : publisher_(publisher), write_board_(std::move(write_board)) {}

  /// anew: the fields that were made anew since the last call. True if the board itself says
  /// anything new; it goes out with the publisher's next flush.
  bool offer(const BoardSnapshot& board, const std::vector<ShownAnew>& anew);

  /// Another configuration: everything is to be offered anew, whether it looks the same or not, and
  /// what is offered no longer to be withdrawn.
  void forget() { all_ = true; }

 private:
  void offer_field(const FieldView& field, Instant now);

  Publisher& publisher_;
  std::function<std::string()> write_board_;
  bool all_ = true;
  std::string frame_;  ///< the board offered last, without its fields and its time
};

}  // namespace gley::daemon
