#include "daemon/readings/rfc3339.hpp"

#include <catch2/catch.hpp>

using gley::daemon::from_unix_seconds;
using gley::daemon::Instant;
using gley::daemon::parse_rfc3339;

namespace {

Instant at(std::int64_t milliseconds) {
  return Instant(std::chrono::milliseconds(milliseconds));
}

}  // namespace

TEST_CASE("examples_of_rfc_3339_are_read") {
  // RFC 3339 Section 5.8; the instants by date(1).
  CHECK(parse_rfc3339("1985-04-12T23:20:50.52Z") == at(482196050520));
  CHECK(parse_rfc3339("1996-12-19T16:39:57-08:00") == at(851042397000));
  CHECK(parse_rfc3339("1996-12-20T00:39:57Z") == at(851042397000));
  CHECK(parse_rfc3339("1990-12-31T23:59:60Z") == at(662688000000));
  CHECK(parse_rfc3339("1990-12-31T15:59:60-08:00") == at(662688000000));
  CHECK(parse_rfc3339("1937-01-01T12:00:27.87+00:20") == at(-1041337172130));
}

TEST_CASE("a_space_small_letters_and_long_fractions_are_read") {
  CHECK(parse_rfc3339("1996-12-20 00:39:57z") == at(851042397000));
  CHECK(parse_rfc3339("1996-12-20t00:39:57.1239999999999Z") == at(851042397123));
}

TEST_CASE("what_names_no_instant_is_not_read") {
  for (const char* text :
       {"", "1996-12-20", "1996-12-20T00:39:57", "1996-12-20T00:39Z", "1996-02-30T00:00:00Z",
        "1996-13-01T00:00:00Z", "1996-12-20T24:00:00Z", "1996-12-20T00:60:00Z",
        "1996-12-20T00:00:61Z", "1996-12-20T00:00:00+24:00", "1996-12-20T00:00:00+01",
        "1996-12-20T00:00:00.Z", "1996-12-20T00:00:00Z ", "96-12-20T00:00:00Z",
        "1996-12-20T00:00:00,5Z", "-996-12-20T00:00:00Z"}) {
    INFO(text);
    CHECK_FALSE(parse_rfc3339(text).has_value());
  }
}

TEST_CASE("unix_seconds_are_rounded_to_the_millisecond_and_bounded") {
  CHECK(from_unix_seconds(1276020076.305) == at(1276020076305));
  CHECK_FALSE(from_unix_seconds(1e15).has_value());
  CHECK_FALSE(from_unix_seconds(-1e15).has_value());
}
