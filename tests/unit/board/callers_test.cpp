#include "daemon/board/http/callers.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {

using namespace std::chrono_literals;

namespace {

constexpr Callers::Time start{1h};
const std::string phone = "192.0.2.7";
const std::string display = "192.0.2.8";
const std::string here = "127.0.0.1";

}  // namespace

TEST_CASE("one address holds so many connections and leaves room for others") {
  Callers callers({.connections = 2});
  callers.connected(phone, start);
  CHECK(callers.may_connect(phone));
  callers.connected(phone, start);
  CHECK_FALSE(callers.may_connect(phone));
  CHECK(callers.may_connect(display));
  callers.left(phone);
  CHECK(callers.may_connect(phone));
}

TEST_CASE("an address that kept the server busy rests, the longer the more it took") {
  Callers callers({.work_at_once = 2s, .work_share = 0.25});
  callers.worked(phone, 2s, start);
  CHECK(callers.rest(phone, start) == 0s);
  callers.worked(phone, 1s, start);
  CHECK(callers.rest(phone, start) == 4s);  // by hand: 1 s too much, at a quarter a second
  CHECK(callers.rest(phone, start + 4s) == 0s);
  CHECK(callers.rest(display, start) == 0s);
  callers.worked(phone, 1s, start + 4s);
  CHECK(callers.rest(phone, start + 4s) == 4s);
}

TEST_CASE("programs of this machine may connect and ask at will") {
  Callers callers({.connections = 1, .work_at_once = 1s});
  for (int i = 0; i < 3; ++i) callers.connected(here, start);
  callers.worked(here, 100s, start);
  CHECK(callers.may_connect(here));
  CHECK(callers.rest(here, start) == 0s);
}

TEST_CASE("after so many wrong tokens none of an address is looked at for a minute") {
  Callers callers({.wrong_tokens = 3});
  for (const std::string& address : {phone, here}) {
    CHECK_FALSE(callers.brought_wrong_token(address, start));
    CHECK_FALSE(callers.brought_wrong_token(address, start + 10s));
    CHECK(callers.token_rest(address, start + 10s) == 0s);
    CHECK(callers.brought_wrong_token(address, start + 20s));
    CHECK(callers.token_rest(address, start + 20s) == 40s);
    CHECK(callers.token_rest(address, start + 60s) == 0s);
  }
  CHECK(callers.token_rest(display, start + 20s) == 0s);
  CHECK_FALSE(callers.brought_wrong_token(phone, start + 61s));
  CHECK(callers.token_rest(phone, start + 61s) == 0s);
}

TEST_CASE("an address is named in the log once a minute") {
  Callers callers;
  CHECK(callers.worth_naming(phone, start));
  CHECK_FALSE(callers.worth_naming(phone, start + 59s));
  CHECK(callers.worth_naming(display, start + 59s));
  CHECK(callers.worth_naming(phone, start + 60s));
}

TEST_CASE("however many addresses come, memory stays as it is and their tries are counted") {
  Callers callers({.wrong_tokens = 3, .addresses = 4});
  for (int i = 0; i < 100; ++i)
    (void)callers.brought_wrong_token("2001:db8:0:" + std::to_string(i) + "::", start);
  CHECK(callers.remembered() == 5);  // four, and the others as one
  CHECK(callers.token_rest("2001:db8:0:ffff::", start) == 60s);
  CHECK_FALSE(callers.brought_wrong_token(phone, start + 61s));
  CHECK(callers.remembered() == 1);
  CHECK(callers.token_rest(phone, start + 61s) == 0s);
}

TEST_CASE("a connection of many others that leaves is not counted any more") {
  Callers callers({.connections = 2, .addresses = 1});
  callers.connected(phone, start);
  callers.connected("192.0.2.20", start);
  callers.connected("192.0.2.21", start);
  CHECK_FALSE(callers.may_connect("192.0.2.22"));
  callers.left("192.0.2.20");
  CHECK(callers.may_connect("192.0.2.22"));
}

TEST_CASE("an address that came as one of many others and is remembered since leaves none behind") {
  Callers callers({.connections = 1, .addresses = 2});
  for (const std::string& address : {phone, here}) (void)callers.worth_naming(address, start);
  callers.connected(display, start);         // one of the others: both places are taken
  callers.connected(display, start + 100s);  // has one of its own, as those two are forgotten
  callers.left(display);
  callers.left(display);
  CHECK(callers.may_connect("192.0.2.20"));
}

TEST_CASE("an address of IPv6 counts with its whole /64, a mapped one as IPv4") {
  CHECK(caller_address("2001:db8:1:2:3:4:5:6") == "2001:db8:1:2::");
  CHECK(caller_address("2001:db8:1:2::9") == "2001:db8:1:2::");
  CHECK(caller_address("::ffff:192.0.2.7") == "192.0.2.7");
  CHECK(caller_address("192.0.2.7") == "192.0.2.7");
  CHECK(caller_address("::1") == "::1");
  CHECK(caller_address("unknown") == "unknown");
}

}  // namespace gley::daemon
