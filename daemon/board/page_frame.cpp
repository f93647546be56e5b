#include "daemon/board/page_frame.hpp"

#include "daemon/board/board_assets.hpp"
#include "daemon/board/plain_words.hpp"
#include "daemon/board/signs.hpp"

namespace gley::daemon {
namespace {

Html trouble_section(const std::vector<std::string>& troubles) {
  Html out;
  out.markup("<section class=\"trouble\" aria-label=\"Trouble\">\n");
  for (const std::string& trouble : troubles) out.markup("<p>").text(trouble).markup("</p>\n");
  return out.markup("</section>\n");
}

bool is_grave(const AlertView& alert) {
  return alert.severity == "Extreme" || alert.severity == "Severe";
}

Html alert_item(const AlertView& alert, Instant now, const FarmClock& clock) {
  Html out;
  out.markup(is_grave(alert) ? Markup("<li class=\"alert grave\"><h3>")
                             : Markup("<li class=\"alert\"><h3>"));
  out.text(alert.headline).markup("</h3>\n<p>");
  if (!alert.instruction.empty()) {
    out.markup("<strong>").text(alert.instruction).markup("</strong> ");
  }
  if (!alert.description.empty()) out.text(alert.description).markup(" ");
  out.markup("<span class=\"aside\">");
  if (const std::string fields = alert_fields(alert); !fields.empty()) {
    out.text(fields).markup("; ");
  }
  out.markup("since ").part(time_with_age(alert.onset, now, clock)).markup("</span></p></li>\n");
  return out;
}

Html own_assets(const PageFrame& frame) {
  Html out;
  for (const std::string_view style : frame.styles) {
    out.markup("<link rel=\"stylesheet\" href=\"").attribute(frame.root);
    out.attribute(asset_address(style)).markup("\">\n");
  }
  for (const std::string_view script : frame.scripts) {
    out.markup("<script src=\"").attribute(frame.root).attribute(asset_address(script));
    out.markup("\" defer></script>\n");
  }
  return out;
}

}  // namespace

std::string framed(const PageFrame& frame, const Html& live, const Html& lasting) {
  Html out;
  out.markup("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
  out.markup("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
  out.markup("<meta name=\"color-scheme\" content=\"light dark\">\n<title>").text(frame.title);
  out.markup("</title>\n<link rel=\"icon\" type=\"image/svg+xml\" href=\"").attribute(frame.root);
  out.markup("favicon.ico\">\n<link rel=\"stylesheet\" href=\"").attribute(frame.root);
  out.markup("board.css\">\n<script src=\"")
      .attribute(frame.root)
      .markup("board.js\" defer></script>");
  out.markup("\n")
      .part(own_assets(frame))
      .markup("<noscript><meta http-equiv=\"refresh\" content=\"60\"></noscript>\n</head>\n");
  out.markup("<body data-root=\"").attribute(frame.root);
  out.markup("\">\n<p id=\"notice\" role=\"status\" hidden></p>\n");
  out.part(sign_shapes()).markup("<div id=\"live\" data-revision=\"");
  out.text(std::to_string(frame.revision))
      .markup("\">\n")
      .part(live)
      .markup("</div>\n")
      .part(lasting)
      .markup("</body>\n</html>\n");
  return out.str();
}

std::string message_page(const PlainMessage& message) {
  Html out;
  out.markup("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
  out.markup("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
  out.text(message.title).markup("</title>\n<link rel=\"stylesheet\" href=\"");
  out.attribute(message.root).markup("board.css\">\n</head>\n<body>\n<main>\n<h1>");
  out.text(message.title).markup("</h1>\n<p>").text(message.sentence);
  out.markup("</p>\n<p><a href=\"").attribute(message.root.empty() ? "./" : message.root);
  out.markup("\">All fields</a></p>\n</main>\n</body>\n</html>\n");
  return out.str();
}

Html time_with_age(Instant instant, Instant now, const FarmClock& clock) {
  Html out;
  out.markup("<time data-age datetime=\"").attribute(rfc3339(instant)).markup("\">");
  return out.text(clock.as_seen(instant, now)).markup("</time>");
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
  for (const AlertView& alert : alerts) out.part(alert_item(alert, board.time, clock));
  return out.markup("</ul>\n</section>\n");
}

Html machine_item(const MachineView& machine) {
  Html out;
  out.markup("<li>").part(wheel(machine.verdict)).markup("<span class=\"name\">");
  out.text(machine.name).markup("</span> <b>").text(machine.verdict).markup("</b></li>");
  return out;
}

Html spreading_item(const SpreadingView& spreading) {
  Html out;
  out.markup("<li>").part(grains(spreading.advice)).markup("<span class=\"name\">");
  out.text(spreading.name).markup("</span> <b>").text(spreading.advice).markup("</b></li>");
  return out;
}

}  // namespace gley::daemon
