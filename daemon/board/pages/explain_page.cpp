#include "daemon/board/pages/explain_page.hpp"

#include "daemon/board/pages/field_parts.hpp"
#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/words/figure_text.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

/// ", Wed 25 Nov 2026"
std::string after_links(const std::string& date) {
  return date.empty() ? date : ", " + short_date(date) + ' ' + date.substr(0, 4);
}

Html day_link(std::chrono::sys_days day, Markup words) {
  Html out;
  out.markup("<a href=\"explain?date=").url(date_text(day)).markup("\">").markup(words);
  return out.markup("</a> ");
}

/// Works without script: a form that asks for another day.
Html day_choice(const std::string& date) {
  Html out;
  out.markup("<form class=\"choice\" action=\"explain\"><label>Day <input type=\"date\" ");
  out.markup("name=\"date\" required value=\"").attribute(date).markup("\"></label> ");
  out.markup("<button type=\"submit\">Show</button> ");
  if (const auto day = date_from(date)) {
    out.part(day_link(*day - std::chrono::days{1}, "the day before"));
    out.part(day_link(*day + std::chrono::days{1}, "the day after"));
  }
  return out.markup("</form>\n");
}

/// To four figures, as a person reads it; the whole number stands in the JSON.
std::string short_value(const ExplanationLine& line) {
  const auto* number = std::get_if<double>(&line.value);
  const std::string text = number != nullptr ? decimal_text(round_to(*number, 0.001))
                                             : std::get<std::string>(line.value);
  return line.unit.empty() ? text : text + ' ' + line.unit;
}

Html paragraph(const std::string& text) {
  Html out;
  if (!text.empty()) out.markup("<p>").text(text).markup("</p>");
  return out;
}

Html line_item(const ExplanationLine& line) {
  Html out;
  out.markup("<dt id=\"").attribute(line.key).markup("\">");
  out.text(line.name).markup("</dt><dd><b>").text(short_value(line));
  out.markup("</b>").part(paragraph(line.equation));
  if (!line.source.empty()) out.markup("<p class=\"aside\">").text(line.source).markup("</p>");
  return out.part(paragraph(line.note)).markup("</dd>\n");
}

Html sections(const Explanation& explanation) {
  Html out;
  for (const std::string& sentence : explanation.intro)
    out.markup("<p>").text(sentence).markup("</p>\n");
  for (const ExplanationSection& section : explanation.sections) {
    out.markup("<section><h2>").text(section.title);
    out.markup("</h2>\n<dl class=\"explained\">\n");
    for (const ExplanationLine& line : section.lines) out.part(line_item(line));
    out.markup("</dl></section>\n");
  }
  return out;
}

}  // namespace

std::string explain_page(const FieldView& field, const BoardSnapshot& board,
                         const tl::expected<Explanation, std::string>& explained) {
  const std::string date = explained ? explained->date : std::string();
  Html live;
  live.part(field_header(field, board,
                         {.about = "how its numbers came about", .more = after_links(date)}))
      .markup("<main class=\"one\">\n");
  live.part(day_choice(date.empty() ? field.date : date));
  if (explained)
    live.part(sections(*explained));
  else
    live.markup("<p class=\"lead\">").text(explained.error()).markup("</p>\n");
  live.markup("</main>\n<footer>\n<ul class=\"sources\">");
  if (!date.empty()) {
    live.markup("<li><a href=\"../../api/field/").url(field.id).markup("/explain?date=").url(date);
    live.markup("\">The same as JSON, with all digits</a></li>");
  }
  live.markup("<li><a href=\"../").url(field.id).markup("\">Back to ").text(field.name);
  live.markup("</a></li></ul>\n</footer>\n");
  return framed({.title = field.name + ": how its numbers came about, " + board.farm_name,
                 .root = "../../",
                 .revision = board.revision,
                 .styles = {"field.css"},
                 .scripts = {}},
                live);
}

}  // namespace gley::daemon
