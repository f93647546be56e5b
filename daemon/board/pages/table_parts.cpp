#include "daemon/board/pages/table_parts.hpp"

namespace gley::daemon {

Html table_head(const std::vector<std::string>& names) {
  Html out;
  out.markup("<thead><tr>");
  for (const std::string& name : names) {
    out.markup("<th scope=\"col\">").text(name).markup("</th>");
  }
  return out.markup("</tr></thead>\n");
}

Html table_cell(const std::string& text) {
  Html out;
  return out.markup("<td>").text(text).markup("</td>");
}

Html scroll_box(const std::string& label, const Html& table) {
  Html out;
  out.markup("<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"").attribute(label);
  return out.markup("\">\n").part(table).markup("</div>\n");
}

}  // namespace gley::daemon
