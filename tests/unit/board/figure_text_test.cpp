#include "daemon/board/words/figure_text.hpp"

#include <catch2/catch.hpp>
#include <limits>

namespace gley::daemon {
namespace {

TEST_CASE("millimetres are whole from ten up and have one decimal below") {
  CHECK(mm_text(14.4) == "14 mm");
  CHECK(mm_text(3.44) == "3.4 mm");
  CHECK(mm_text(9.94) == "9.9 mm");
  CHECK(mm_text(9.96) == "10 mm");
  CHECK(mm_text(0.04) == "0 mm");
  CHECK(mm_text(-0.04) == "0 mm");
  CHECK(mm_text(-3.21) == "-3.2 mm");
}

TEST_CASE("a number that is none is said to be not known") {
  CHECK(mm_text(std::numeric_limits<double>::quiet_NaN()) == "not known");
  CHECK(percent_text(std::numeric_limits<double>::infinity()) == "not known");
}

TEST_CASE("rounding gives the double nearest to the decimal and no negative zero") {
  CHECK(round_to(0.35, 0.1) == 0.4);
  CHECK(round_to(12.06, 0.1) == 12.1);
  CHECK(round_to(0.35449, 0.001) == 0.354);
  CHECK(decimal_text(round_to(-0.01, 0.1)) == "0");
}

TEST_CASE("a fraction is shown in whole percent") {
  CHECK(percent_text(0.384) == "38 %");
}

}  // namespace
}  // namespace gley::daemon
