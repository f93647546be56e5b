#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/board/pages/html.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/words/local_time.hpp"

/// What every page has around it and the parts that pages share.
namespace gley::daemon {

struct PageFrame {
  std::string title;
  std::string root;  ///< relative way to the board: "" or "../", so that any proxy prefix works
  std::uint64_t revision = 0;  ///< of the state it shows; the script asks again when it changes
  std::string_view page = {};  ///< its kind, for the script: "board"
  std::vector<std::string_view> styles = {};   ///< assets it loads beside the board's
  std::vector<std::string_view> scripts = {};  ///< run after the page is read, in this order
};

/// The whole document around its live part: what the script replaces when the state changes.
/// lasting: what follows it and stays.
[[nodiscard]] std::string framed(const PageFrame& frame, const Html& live,
                                 const Html& lasting = {});

/// A page that only says something: not found, not allowed.
struct PlainMessage {
  std::string title;
  std::string sentence;
  std::string root;
};
[[nodiscard]] std::string message_page(const PlainMessage& message);

/// When the board was made, where the script looks for it. shown: as the page words it.
[[nodiscard]] Html asof_time(const BoardSnapshot& board, const FarmClock& clock,
                             const std::string& shown);

/// The head of a page about the whole farm.
[[nodiscard]] Html farm_header(const BoardSnapshot& board, const FarmClock& clock, Markup about);

/// "06:40 (2 min ago)" marked up so that the script can keep its age, by the daemon's clock.
[[nodiscard]] Html time_with_age(Instant instant, Instant now, const FarmClock& clock);

/// Troubles of the daemon itself, then alerts; empty when there are none. `alerts` in the order
/// they are to stand.
[[nodiscard]] Html notices(const BoardSnapshot& board, const std::vector<AlertView>& alerts,
                           const FarmClock& clock);

}  // namespace gley::daemon
