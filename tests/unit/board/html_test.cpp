#include "daemon/board/pages/html.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/pages/board_page.hpp"
#include "daemon/board/pages/field_page.hpp"
#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

// U+FFFD in UTF-8.
const std::string broken = "\xEF\xBF\xBD";

TEST_CASE("text between tags cannot open a tag or an entity") {
  CHECK(html_text("<b>&\"'") == "&lt;b&gt;&amp;\"'");
}

TEST_CASE("an attribute's text cannot close its quotes") {
  CHECK(html_attribute("\" onload='x' &<") == "&quot; onload=&#39;x&#39; &amp;&lt;");
}

TEST_CASE("a part of a link keeps nothing but unreserved characters") {
  CHECK(url_part("a/b?c#d e%\"é.-_~") == "a%2Fb%3Fc%23d%20e%25%22%C3%A9.-_~");
}

TEST_CASE("controls, reordering marks and broken bytes become the replacement character") {
  CHECK(html_text("a\x1b[0m") == "a" + broken + "[0m");
  CHECK(html_text("a\xffz") == "a" + broken + "z");
  CHECK(html_text("\xC0\xAF") == broken + broken);               // an overlong slash
  CHECK(html_text("\xED\xA0\x80") == broken + broken + broken);  // a surrogate
  CHECK(html_text("\xE2\x80\xAE") == broken);                    // right-to-left override
  CHECK(html_text("Bräuhaus 水") == "Bräuhaus 水");
}

TEST_CASE("hostile names reach no page as markup") {
  BoardSnapshot board = example_board();
  FieldView& field = board.fields.front();
  board.farm_name = board.service.broker_message = hostile_name;
  board.service.broker_connected = false;
  board.service.complaints = {hostile_name};
  board.stations.front().id = hostile_name;
  field.id = field.name = field.crop = field.soil = field.station = hostile_name;
  field.flags = field.reasons = {hostile_name};
  field.machines.front().name = field.machines.front().verdict = hostile_name;
  field.spreading.front().name = hostile_name;
  AlertView& alert = board.alerts.front();
  alert.headline = alert.instruction = alert.description = hostile_name;
  alert.fields = alert.field_names = {hostile_name};
  for (const std::string& page : {board_page(board), field_page(field, board)}) {
    CHECK(page.find("<script>") == std::string::npos);
    CHECK(page.find('\x1b') == std::string::npos);
    CHECK(page.find('\xff') == std::string::npos);
    CHECK(page.find("&lt;script&gt;") != std::string::npos);
  }
}

}  // namespace
}  // namespace gley::daemon
