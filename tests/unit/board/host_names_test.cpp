#include "daemon/board/http/host_names.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {

TEST_CASE("a public name that is not ours is not answered to") {
  const std::vector<std::string> names{"board.example.org"};
  for (const char* host : {"evil.example", "evil.example:8080", "board.example.org.evil.example",
                           "127.0.0.1.evil.example", "local.example", "xboard.example.org"}) {
    INFO(host);
    CHECK_FALSE(answers_to(host, names));
  }
}

TEST_CASE("addresses in numbers, private names and listed ones are ours") {
  const std::vector<std::string> names{"Board.example.org"};
  for (const char* host :
       {"", "127.0.0.1", "192.0.2.7:8080", "[::1]", "[2001:db8::7]:8080", "localhost:8080", "yard",
        "yard:8080", "yard.local", "YARD.Local.:8080", "yard.home.arpa", "yard.internal",
        "board.example.org", "BOARD.example.org:443", "board.example.org."}) {
    INFO(host);
    CHECK(answers_to(host, names));
  }
}

TEST_CASE("a host that is none does no harm") {
  for (const char* host : {"[", "[]", "[.a", ":", "..", ":8080", "a.b:c:d", "\xff.\xfe"}) {
    INFO(host);
    (void)answers_to(host, {});
  }
  CHECK_FALSE(answers_to("..", {}));
  CHECK_FALSE(answers_to("[evil.example]", {}));
}

}  // namespace gley::daemon
