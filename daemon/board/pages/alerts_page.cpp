#include "daemon/board/pages/alerts_page.hpp"

#include "daemon/board/pages/alert_parts.hpp"
#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/pages/table_parts.hpp"
#include "daemon/board/words/board_words.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

Html cell(Markup name, const std::string& text) {
  Html out;
  out.markup("<td data-name=\"").markup(name).markup("\">");
  return out.text(text).markup("</td>");
}

Html past_row(const AlertView& alert, const BoardSnapshot& board, const FarmClock& clock) {
  Html out;
  out.markup("<tr><th scope=\"row\">").text(short_headline(alert)).markup("</th>");
  const std::string fields = alert_fields(alert);
  out.part(cell("Fields", fields.empty() ? "the whole farm" : fields));
  out.part(cell("Began", clock.as_seen(alert.onset, board.time)));
  out.part(cell("Seen", alert.seen_by.empty() ? "by nobody" : seen_by_text(alert, clock)));
  out.part(cell("Ended", alert.ended ? clock.as_seen(*alert.ended, board.time) : ""));
  return out.part(cell("To do", alert.instruction)).markup("</tr>\n");
}

Html past_section(const BoardSnapshot& board, const FarmClock& clock) {
  Html out;
  out.markup("<section aria-labelledby=\"past\">\n<h2 id=\"past\">Ended</h2>\n");
  if (!board.past_alerts || board.past_alerts->empty())
    return out.markup("<p>").text(no_past_alerts_text).markup("</p>\n</section>\n");
  out.markup("<table class=\"plain stack\">\n<caption>").text(past_alerts_text);
  out.markup("</caption>\n");
  out.part(table_head({"Alert", "Fields", "Began", "Seen", "Ended", "To do"}));
  out.markup("<tbody>\n");
  for (const AlertView& alert : *board.past_alerts) out.part(past_row(alert, board, clock));
  return out.markup("</tbody>\n</table>\n</section>\n");
}

}  // namespace

std::string alerts_page(const BoardSnapshot& board) {
  const FarmClock clock(board.time_zone);
  Html live;
  live.part(farm_header(board, clock, "alerts")).markup("<main class=\"one\">\n");
  live.part(notices(board, by_severity(board.alerts), clock));
  if (board.alerts.empty()) live.markup("<p class=\"lead\">").text(no_alerts_text).markup("</p>\n");
  if (!board.takes_writes)
    live.markup("<p class=\"aside\">").text(cannot_be_seen_text).markup("</p>\n");
  live.part(past_section(board, clock)).markup("</main>\n<footer>\n<ul class=\"sources\">");
  live.markup("<li><a href=\"api/alerts\">The same as JSON</a></li></ul>\n</footer>\n");
  return framed({.title = board.farm_name + ": alerts",
                 .root = "",
                 .revision = board.revision,
                 .page = "alerts",
                 .styles = {"field.css"},
                 .scripts = {"seen.js"}},
                live, seen_form(board));
}

}  // namespace gley::daemon
