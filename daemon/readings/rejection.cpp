#include "daemon/readings/reading.hpp"

namespace gley::daemon {

std::string_view to_word(Rejection rejection) {
  switch (rejection) {
    case Rejection::not_a_number:
      return "not_a_number";
    case Rejection::malformed:
      return "malformed";
    case Rejection::unmapped:
      return "unmapped";
    case Rejection::wrong_unit:
      return "wrong_unit";
    case Rejection::out_of_range:
      return "out_of_range";
    case Rejection::too_old:
      return "too_old";
    case Rejection::in_the_future:
      return "in_the_future";
    case Rejection::bad_time:
      return "bad_time";
    case Rejection::too_large:
      return "too_large";
  }
  return "unknown";
}

}  // namespace gley::daemon
