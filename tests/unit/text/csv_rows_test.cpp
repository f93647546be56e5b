#include "daemon/text/csv_rows.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using Cells = std::vector<std::string>;

TEST_CASE("a quoted cell may hold commas, doubled quotes and line ends (RFC 4180)") {
  const auto rows = csv_rows("a,\"b,\"\"c\"\"\r\nd\",e\r\nf,\"\",\r\n");
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].cells == Cells{"a", "b,\"c\"\r\nd", "e"});
  CHECK(rows[0].line == 1);
  CHECK(rows[1].cells == Cells{"f", "", ""});
  CHECK(rows[1].line == 3);
}

TEST_CASE("spaces around an unquoted cell are dropped, those in quotes stay") {
  CHECK(csv_rows(" a b ,\t\" c \" \n")[0].cells == Cells{"a b", " c "});
}

TEST_CASE("text that breaks off anywhere ends the last row") {
  CHECK(csv_rows("").empty());
  CHECK(csv_rows("\n\r\n").empty());
  CHECK(csv_rows("a,\"b")[0].cells == Cells{"a", "b"});
  CHECK(csv_rows("a,")[0].cells == Cells{"a", ""});
  CHECK(csv_rows("a\r").size() == 1);
}

}  // namespace
}  // namespace gley::daemon
