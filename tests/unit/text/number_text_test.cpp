#include "daemon/text/number_text.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

TEST_CASE("a number is the shortest text that reads back to the same double") {
  CHECK(number_text(0.1) == "0.1");
  CHECK(number_text(12.0) == "12");
  CHECK(number_text(0.1 + 0.2) == "0.30000000000000004");
  for (const double value : {1.0 / 3.0, 5e-324, 1.7976931348623157e308, -0.0, 123456789.123456789})
    CHECK(number_from(number_text(value)) == value);
}

TEST_CASE("a number is a finite one and nothing else") {
  CHECK(number_from("+1.5") == 1.5);
  CHECK(number_from("-2e3") == -2000.0);
  for (const char* text :
       {"", "1,5", " 1", "1 ", "1.5mm", "nan", "inf", "-inf", "1e999", "++1", "0x10", "."}) {
    INFO(text);
    CHECK_FALSE(number_from(text));
  }
}

TEST_CASE("a plus before a minus is no number") {
  CHECK_FALSE(number_from("+-1"));
}

}  // namespace
}  // namespace gley::daemon
