#include "daemon/bus/backlog.hpp"

#include <random>

namespace gley::daemon {
namespace {

using namespace std::chrono_literals;

constexpr auto patience = 60s;
constexpr auto pause = 1s;  // a queue comes without pauses

std::string nonce() {
  constexpr std::string_view digits = "0123456789abcdef";
  std::random_device random;
  std::string text;
  for (int i = 0; i < 32; ++i) text += digits[random() % digits.size()];
  return text;
}

}  // namespace

void Backlog::connected(Moment now) {
  waiting_ = true;
  mark_ = nonce();
  connected_ = now;
  last_message_ = now;
}

void Backlog::mark_came(std::string_view mark) {
  if (mark == mark_) waiting_ = false;
}

bool Backlog::message_came(Moment now) {
  if (waiting_ && now - connected_ > patience && now - last_message_ > pause) waiting_ = false;
  last_message_ = now;
  return waiting_;
}

}  // namespace gley::daemon
