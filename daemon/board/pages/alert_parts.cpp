#include "daemon/board/pages/alert_parts.hpp"

#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/words/board_words.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

bool is_grave(const AlertView& alert) {
  return alert.severity == "Extreme" || alert.severity == "Severe";
}

/// Only a script can send the token, so without one the button does not show.
Html seen_button(const AlertView& alert) {
  Html out;
  out.markup("<button type=\"button\" class=\"see\" id=\"see-").attribute(alert.id);
  out.markup("\" data-alert=\"").attribute(alert.id).markup("\">").text(seen_button_text);
  return out.markup("<span class=\"unseen\">: ").text(alert.headline).markup("</span></button>");
}

Html since(const AlertView& alert, Instant now, const FarmClock& clock) {
  Html out;
  out.markup("<span class=\"aside\">");
  const std::string fields = alert_fields_beside_headline(alert);
  if (!fields.empty()) out.text(fields).markup("; ");
  out.markup("since ").part(time_with_age(alert.onset, now, clock));
  const std::string seen = seen_text(alert, now, clock);
  if (!seen.empty()) out.markup("; <span class=\"seen\">").text(seen).markup("</span>");
  return out.markup("</span>");
}

Html token_question() {
  Html out;
  out.markup("<div class=\"token\">\n<label for=\"seen-token\">").text(token_question_text);
  out.markup("</label>\n<input id=\"seen-token\" name=\"token\" type=\"password\" required ");
  out.markup("autocomplete=\"off\" aria-describedby=\"seen-hint\">\n");
  out.markup("<p id=\"seen-hint\" class=\"aside\">").text(token_hint_text);
  return out.markup("</p>\n</div>\n");
}

}  // namespace

Html alert_item(const AlertView& alert, Instant now, const FarmClock& clock, bool can_be_seen) {
  Html out;
  out.markup(is_grave(alert) ? Markup("<li class=\"alert grave\">")
                             : Markup("<li class=\"alert\">"));
  if (can_be_seen && alert.seen_by.empty()) out.part(seen_button(alert));
  out.markup("<h3 tabindex=\"-1\" id=\"alert-").attribute(alert.id).markup("\">");
  out.text(short_headline(alert)).markup("</h3>\n<p>");
  if (!alert.instruction.empty()) {
    out.markup("<strong>").text(alert.instruction).markup("</strong> ");
  }
  if (!alert.description.empty()) {
    out.markup("<span class=\"why\">").text(alert.description).markup("</span> ");
  }
  return out.part(since(alert, now, clock)).markup("</p></li>\n");
}

Html seen_form(const BoardSnapshot& board) {
  Html out;
  if (!board.takes_writes) return out;
  out.markup("<dialog id=\"seen-form\" aria-labelledby=\"seen-head\" data-wrong=\"");
  out.attribute(wrong_token_text).markup("\" data-lost=\"").attribute(not_told_text);
  out.markup("\" data-refused=\"").attribute(not_taken_text);
  out.markup("\">\n<form method=\"dialog\">\n<h2 id=\"seen-head\">").text(who_has_seen_text);
  out.markup("</h2>\n<p id=\"seen-what\"></p>\n<label for=\"seen-by\">Your name</label>\n");
  out.markup("<input id=\"seen-by\" name=\"by\" type=\"text\" required maxlength=\"60\" ");
  out.markup("autocomplete=\"name\">\n").part(token_question());
  out.markup("<p id=\"seen-told\" role=\"alert\"></p>\n<p class=\"choices\">");
  out.markup("<button type=\"submit\">Seen</button>\n<button type=\"button\" id=\"seen-back\">");
  out.markup("Back</button>\n<button type=\"button\" id=\"seen-forget\">Forget name and token");
  return out.markup("</button></p>\n</form>\n</dialog>\n");
}

}  // namespace gley::daemon
