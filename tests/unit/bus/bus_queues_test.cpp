#include <catch2/catch.hpp>

#include "daemon/bus/backlog.hpp"
#include "daemon/bus/outbox.hpp"

using namespace gley::daemon;
using namespace std::chrono_literals;

namespace {

const Backlog::Moment start{1000s};

std::vector<std::string> drained(Outbox& outbox) {
  std::vector<std::string> messages;
  while (const auto message = outbox.take()) {
    messages.push_back(message->topic + "=" + message->payload);
  }
  return messages;
}

}  // namespace

TEST_CASE("a_newer_message_takes_the_place_of_one_that_waits") {
  Outbox outbox;
  outbox.put({"a", "1", true});
  outbox.put({"b", "1", true});
  outbox.put({"a", "2", true});
  CHECK(outbox.size() == 2);
  CHECK(drained(outbox) == std::vector<std::string>{"b=1", "a=2"});
}

TEST_CASE("a_message_put_first_goes_ahead_and_replaces_an_older_one_of_its_topic") {
  Outbox outbox;
  outbox.put({"a", "1", true});
  outbox.put({"mark", "old", false});
  outbox.put_first({"mark", "new", false});
  CHECK(drained(outbox) == std::vector<std::string>{"mark=new", "a=1"});
}

TEST_CASE("a_message_put_back_is_first_unless_a_newer_one_waits") {
  Outbox outbox;
  outbox.put({"a", "1", true});
  outbox.put({"b", "1", true});
  outbox.put_back(outbox.take().value());
  outbox.put_back({"b", "0", true});
  CHECK(drained(outbox) == std::vector<std::string>{"a=1", "b=1"});
}

TEST_CASE("a_message_that_is_removed_is_not_sent_and_its_topic_is_free_again") {
  Outbox outbox;
  outbox.put({"a", "1", true});
  outbox.put({"b", "1", true});
  outbox.remove("a");
  outbox.remove("never there");
  CHECK(outbox.size() == 1);
  outbox.put({"a", "2", true});
  CHECK(drained(outbox) == std::vector<std::string>{"b=1", "a=2"});
}

TEST_CASE("messages_may_have_waited_until_the_mark_comes_back") {
  Backlog backlog;
  CHECK_FALSE(backlog.message_came(start));
  backlog.connected(start);
  const std::string old_mark = backlog.mark();
  CHECK(backlog.message_came(start));
  backlog.mark_came("else");
  CHECK(backlog.message_came(start));
  backlog.mark_came(old_mark);
  CHECK_FALSE(backlog.message_came(start));

  backlog.connected(start + 1s);
  CHECK(backlog.mark() != old_mark);
  backlog.mark_came(old_mark);
  CHECK(backlog.message_came(start + 1s));
  backlog.nothing_waited();
  CHECK_FALSE(backlog.message_came(start + 1s));
}

TEST_CASE("a_mark_that_never_comes_is_given_up_at_the_first_pause_after_a_minute") {
  Backlog backlog;
  backlog.connected(start);
  CHECK(backlog.message_came(start + 30s));
  CHECK(backlog.message_came(start + 59s + 500ms));
  CHECK(backlog.message_came(start + 60s + 300ms));
  CHECK(backlog.message_came(start + 61s));
  CHECK_FALSE(backlog.message_came(start + 63s));
}
