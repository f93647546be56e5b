#pragma once
#include "daemon/board/pages/html.hpp"
#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/board/words/local_time.hpp"

/// The parts of a field's page that reach beyond this moment.
namespace gley::daemon {

/// What a page beside a field's own is about, and what stands after its links.
struct PageHeading {
  Markup about;
  std::string more = {};
};
[[nodiscard]] Html field_header(const FieldView& field, const BoardSnapshot& board,
                                const PageHeading& heading);

/// The coming days in words and numbers, and when machines and materials are clear. `now`: of the
/// page.
[[nodiscard]] Html coming_section(const std::optional<FieldAheadView>& ahead, Instant now,
                                  const FarmClock& clock);

/// What would make a verdict better.
[[nodiscard]] Html change_section(const std::vector<MachineChange>& changes);

/// The last days as a table; each date leads to its explanation.
[[nodiscard]] Html recent_section(const FieldRecord& record, const std::string& field_id);

/// A chart for the script to draw; its table comes with it.
struct ChartFrame {
  std::string kind;    ///< what field.js knows it by
  std::string source;  ///< address of its numbers, relative to the page
  std::string heading;
  std::string reading;  ///< how to read it
};
[[nodiscard]] Html chart_figure(const ChartFrame& frame);

}  // namespace gley::daemon
