#include "daemon/text/date_text.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;

TEST_CASE("a date is written and read as year, month and day") {
  CHECK(date_text(sys_days(2024y / 2 / 29)) == "2024-02-29");
  CHECK(date_text(sys_days(1969y / 12 / 1)) == "1969-12-01");
  CHECK(date_from("2024-02-29") == sys_days(2024y / 2 / 29));
}

TEST_CASE("what is not a date that exists is none") {
  for (const char* text : {"2023-02-29", "2024-13-01", "2024-00-10", "2024-01-00", "2024-1-1",
                           "24-01-01", "2024/01/01", "2024-01-01 ", "2024-01-1x", "", "1799-12-31",
                           "2201-01-01", "-024-01-01", "+024-01-01"}) {
    INFO(text);
    CHECK_FALSE(date_from(text));
  }
}

}  // namespace
}  // namespace gley::daemon
