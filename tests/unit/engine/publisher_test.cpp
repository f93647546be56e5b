#include "daemon/engine/run/publisher.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;
const Instant start = sys_days(2024y / 11 / 3);

/// A publisher whose messages stand in a list.
struct Wire {
  using Messages = std::vector<std::pair<std::string, std::string>>;
  Messages sent;
  Publisher publisher{[this](const std::string& topic, const std::string& body) {
    sent.emplace_back(topic, body);
  }};
  void offer(const std::string& body, milliseconds after, const std::string& topic = "a") {
    publisher.offer(topic, body, start + after);
  }
  Messages take() { return std::exchange(sent, {}); }
};

using Messages = Wire::Messages;

TEST_CASE("the first change of a topic goes at once, the next a second later") {
  Wire wire;
  wire.offer("1", 0ms);
  CHECK(wire.take() == Messages{{"a", "1"}});
  wire.offer("2", 100ms);
  wire.offer("3", 200ms);
  wire.publisher.flush(start + 999ms);
  CHECK(wire.take() == Messages{});
  CHECK(wire.publisher.next_due() == start + 1s);
  wire.publisher.flush(start + 1s);
  CHECK(wire.take() == Messages{{"a", "3"}});
  wire.offer("4", 5000ms);
  CHECK(wire.take() == Messages{{"a", "4"}});
}

TEST_CASE("what waits tells when the first of it may go") {
  Wire wire;
  wire.offer("1", 0ms, "a");
  wire.offer("1", 300ms, "b");
  CHECK(wire.publisher.next_due() == std::nullopt);
  wire.offer("2", 400ms, "b");
  CHECK(wire.publisher.next_due() == start + 1300ms);
  wire.offer("2", 500ms, "a");
  CHECK(wire.publisher.next_due() == start + 1s);
  wire.publisher.flush(start + 1s);
  CHECK(wire.publisher.next_due() == start + 1300ms);
}

TEST_CASE("topics wait for themselves, not for each other") {
  Wire wire;
  wire.offer("1", 0ms, "a");
  wire.offer("1", 10ms, "b");
  CHECK(wire.take().size() == 2);
}

TEST_CASE("a body that differs in nothing that matters is not sent") {
  Wire wire;
  wire.publisher.offer("a", R"({"time":"10:00","x":1})", start);
  (void)wire.take();
  wire.publisher.offer("a", R"({"time":"10:05","x":1})", start + 5min);
  wire.publisher.flush(start + 10min);
  CHECK(wire.take() == Messages{});
}

TEST_CASE("a topic no longer offered is withdrawn, one that is offered again stays") {
  Wire wire;
  wire.offer("1", 0ms, "a");
  wire.offer("1", 0ms, "b");
  wire.publisher.withdraw_others(start);
  (void)wire.take();
  wire.offer("1", 2s, "a");
  wire.publisher.withdraw_others(start + 2s);
  CHECK(wire.take() == Messages{{"b", ""}});
  wire.offer("1", 4s, "a");
  wire.publisher.withdraw_others(start + 4s);
  CHECK(wire.take() == Messages{});
}

TEST_CASE("what an earlier run left out is withdrawn unless it is offered again") {
  Wire wire;
  wire.publisher.remember("a");
  wire.publisher.remember("b");
  wire.publisher.begin_round();
  wire.offer("1", 0ms, "a");
  wire.publisher.withdraw_others(start);
  CHECK(wire.take() == Messages{{"a", "1"}, {"b", ""}});
  wire.publisher.flush(start);
  CHECK(wire.publisher.topics_out() == std::vector<std::string>{"a"});
}

TEST_CASE("the revision of what is out rises with its topics, not with what they say") {
  Wire wire;
  wire.offer("1", 0ms, "a");
  const auto first = wire.publisher.revision();
  wire.offer("2", 2s, "a");
  wire.publisher.flush(start + 3s);
  CHECK(wire.publisher.revision() == first);
  wire.offer("1", 4s, "b");
  const auto second = wire.publisher.revision();
  CHECK(second > first);
  wire.publisher.withdraw("b", start + 6s);
  wire.publisher.flush(start + 6s);
  CHECK(wire.publisher.revision() > second);
  CHECK(wire.publisher.topics_out() == std::vector<std::string>{"a"});
}

TEST_CASE("a withdrawal within the second waits, and an offer after it goes out again") {
  Wire wire;
  wire.offer("1", 0ms);
  (void)wire.take();
  wire.publisher.withdraw("a", start + 100ms);
  CHECK(wire.take() == Messages{});
  wire.publisher.flush(start + 1s);
  CHECK(wire.take() == Messages{{"a", ""}});
  wire.offer("1", 3000ms);
  CHECK(wire.take() == Messages{{"a", "1"}});
}

TEST_CASE("after a reconnect everything goes out again at once") {
  Wire wire;
  wire.offer("1", 0ms, "a");
  wire.offer("2", 0ms, "b");
  (void)wire.take();
  wire.publisher.send_all_again(start + 10ms);
  CHECK(wire.take() == Messages{{"a", "1"}, {"b", "2"}});
}

/// A wire whose topic "a" is written late, and what was written of it.
struct LateWire : Wire {
  int written = 0;
  std::string now = "1";
  void offer_late() {
    publisher.offer_late("a", [this] {
      ++written;
      return now;
    });
  }
};

TEST_CASE("what is offered late is written once, as it stands when it may go") {
  LateWire wire;
  wire.offer_late();
  CHECK(wire.written == 0);
  wire.publisher.flush(start);
  CHECK(wire.take() == Messages{{"a", "1"}});
  for (const char* body : {"2", "3", "4"}) {
    wire.now = body;
    wire.offer_late();
    wire.publisher.flush(start + 500ms);
  }
  CHECK(wire.written == 1);
  CHECK(wire.publisher.next_due() == start + 1s);
  wire.publisher.flush(start + 1s);
  CHECK(wire.take() == Messages{{"a", "4"}});
  CHECK(wire.written == 2);
}

TEST_CASE("what is offered late and says nothing new is not sent, but after a reconnect it is") {
  LateWire wire;
  wire.offer_late();
  wire.publisher.flush(start);
  (void)wire.take();
  wire.offer_late();
  wire.publisher.flush(start + 2s);
  CHECK(wire.take() == Messages{});
  CHECK(wire.publisher.next_due() == std::nullopt);
  wire.offer_late();
  wire.publisher.send_all_again(start + 4s);
  CHECK(wire.take() == Messages{{"a", "1"}});
  wire.publisher.send_all_again(start + 6s);
  CHECK(wire.take() == Messages{{"a", "1"}});
}

TEST_CASE("what is offered late can be withdrawn, and comes again") {
  LateWire wire;
  wire.offer_late();
  wire.publisher.flush(start);
  (void)wire.take();
  wire.offer_late();
  wire.publisher.withdraw("a", start + 2s);
  CHECK(wire.take() == Messages{{"a", ""}});
  wire.offer_late();
  wire.publisher.flush(start + 4s);
  CHECK(wire.take() == Messages{{"a", "1"}});
}

TEST_CASE("a clock that steps back silences no topic") {
  Wire wire;
  wire.offer("1", 0ms);
  (void)wire.take();
  wire.publisher.offer("a", "2", start - 1h);
  CHECK(wire.take() == Messages{{"a", "2"}});
}

}  // namespace
}  // namespace gley::daemon
