#include "daemon/board/pages/page_frame.hpp"

#include "daemon/board/pages/alert_parts.hpp"
#include "daemon/board/pages/board_assets.hpp"
#include "daemon/board/pages/signs.hpp"
#include "daemon/board/words/board_words.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

Html trouble_section(const std::vector<std::string>& troubles) {
  Html out;
  out.markup("<section class=\"trouble\" aria-label=\"Trouble\">\n");
  for (const std::string& trouble : troubles) out.markup("<p>").text(trouble).markup("</p>\n");
  return out.markup("</section>\n");
}

Html style_link(const std::string& root, std::string_view name) {
  Html out;
  out.markup("<link rel=\"stylesheet\" href=\"").attribute(root);
  return out.attribute(asset_address(name)).markup("\">\n");
}

Html script_link(const std::string& root, std::string_view name) {
  Html out;
  out.markup("<script src=\"").attribute(root).attribute(asset_address(name));
  return out.markup("\" defer></script>\n");
}

Html assets_of(const PageFrame& frame) {
  Html out;
  out.part(style_link(frame.root, "board.css")).part(script_link(frame.root, "board.js"));
  for (const std::string_view style : frame.styles) out.part(style_link(frame.root, style));
  for (const std::string_view script : frame.scripts) out.part(script_link(frame.root, script));
  return out;
}

Html document_head(const std::string& title) {
  Html out;
  out.markup("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
  out.markup("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
  return out.markup("<title>").text(title).markup("</title>\n");
}

/// Changes with the daemon: a page left open loads anew when it finds another.
Html version() {
  Html out;
  for (const char* name : {"board.css", "board.js", "near.js", "seen.js"})
    out.attribute(asset_address(name));
  return out;
}

}  // namespace

std::string framed(const PageFrame& frame, const Html& live, const Html& lasting) {
  Html out = document_head(frame.title);
  out.markup("<meta name=\"color-scheme\" content=\"light dark\">\n");
  out.markup("<link rel=\"icon\" type=\"image/svg+xml\" href=\"").attribute(frame.root);
  out.markup("favicon.ico\">\n").part(assets_of(frame));
  out.markup("<noscript><meta http-equiv=\"refresh\" content=\"60\"></noscript>\n</head>\n");
  out.markup("<body data-root=\"").attribute(frame.root);
  out.markup("\" data-version=\"").part(version());
  out.markup("\">\n<p id=\"notice\" role=\"status\" data-lost=\"").attribute(lost_text);
  out.markup("\" data-kept=\"").attribute(kept_text).markup("\" hidden></p>\n");
  out.part(sign_shapes()).markup("<div id=\"live\" data-page=\"").attribute(frame.page);
  out.markup("\" data-revision=\"");
  out.text(std::to_string(frame.revision))
      .markup("\">\n")
      .part(live)
      .markup("</div>\n")
      .part(lasting)
      .markup("</body>\n</html>\n");
  return out.str();
}

std::string message_page(const PlainMessage& message) {
  Html out = document_head(message.title);
  out.markup("<link rel=\"stylesheet\" href=\"")
      .attribute(message.root)
      .markup("board.css\">\n</head>\n<body>\n<main>\n<h1>");
  out.text(message.title).markup("</h1>\n<p>").text(message.sentence);
  out.markup("</p>\n<p><a href=\"").attribute(message.root.empty() ? "./" : message.root);
  out.markup("\">All fields</a></p>\n</main>\n</body>\n</html>\n");
  return out.str();
}

Html asof_time(const BoardSnapshot& board, const FarmClock& clock, const std::string& shown) {
  Html out;
  out.markup("<time id=\"asof\" datetime=\"").attribute(rfc3339(board.time));
  out.markup("\" data-day=\"").attribute(clock.day_and_clock(board.time)).markup("\">");
  return out.text(shown).markup("</time>");
}

Html farm_header(const BoardSnapshot& board, const FarmClock& clock, Markup about) {
  Html out;
  out.markup("<header>\n<h1>").text(board.farm_name).markup(": ").markup(about);
  out.markup("</h1>\n<p class=\"asof\"><a href=\"./\">All fields</a>, as of ");
  out.part(asof_time(board, clock, clock.day_and_clock(board.time)));
  return out.markup("</p>\n</header>\n");
}

Html time_with_age(Instant instant, Instant now, const FarmClock& clock) {
  Html out;
  const std::string shown = clock.as_seen(instant, now);
  out.markup("<time datetime=\"").attribute(rfc3339(instant)).markup("\"");
  const auto age = std::chrono::floor<std::chrono::seconds>(now - instant);
  if (age < age.zero()) return out.markup(">").text(shown).markup("</time>");
  out.markup(" data-age=\"").text(std::to_string(age.count())).markup("\" data-shown=\"");
  out.attribute(shown).markup("\">").text(shown).markup(" (").text(age_text(instant, now));
  return out.markup(")</time>");
}

Html notices(const BoardSnapshot& board, const std::vector<AlertView>& alerts,
             const FarmClock& clock) {
  Html out;
  const auto troubles = service_troubles(board.service);
  if (!troubles.empty()) out.part(trouble_section(troubles));
  if (alerts.empty()) return out;
  out.markup(
      "<section aria-labelledby=\"alerts\">\n<h2 id=\"alerts\" class=\"unseen\">Alerts</h2>\n");
  out.markup("<ul class=\"alerts\">\n");
  for (const AlertView& alert : alerts)
    out.part(alert_item(alert, board.time, clock, board.takes_writes));
  out.markup("</ul>\n");
  if (board.takes_writes)
    out.markup("<noscript><p class=\"aside\">")
        .text(seen_without_script_text)
        .markup("</p></noscript>\n");
  return out.markup("</section>\n");
}

}  // namespace gley::daemon
