// From a reading's publication to what it changes on MQTT: 500 fields under 100 stations, 100
// readings a second, each a rain that changes the fields of its station. A topic is sent at most
// once a second, so each station rains every 1.1 s, and the time is taken at the field's own topic,
// `field/<id>/water`; the board's topic as a whole, which changes with every reading, would show
// that second and nothing else. Publisher, broker and daemon share the machine.
#include <mqtt/async_client.h>

#include <algorithm>
#include <cstdio>
#include <map>
#include <mutex>
#include <thread>
#include <vector>

#include "tests/bench/running_farm.hpp"
#include "tests/system/broker.hpp"

namespace gley::bench {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int stations = 110;
constexpr double readings_a_second = 100.0;
constexpr int rounds = 40;  // each a reading from every station

/// When each station's reading went out, and how long until its field said so.
class Echoes {
 public:
  void sent(int station) {
    const std::lock_guard lock(mutex_);
    sent_[station] = Clock::now();
  }
  void heard(int station) {
    const std::lock_guard lock(mutex_);
    const auto at = sent_.find(station);
    if (at == sent_.end()) return;  // the field's state from before
    seconds_.push_back(std::chrono::duration<double>(Clock::now() - at->second).count());
    sent_.erase(at);
  }
  [[nodiscard]] std::size_t unanswered() const {
    const std::lock_guard lock(mutex_);
    return sent_.size();
  }
  [[nodiscard]] std::vector<double> sorted_seconds() const {
    const std::lock_guard lock(mutex_);
    std::vector<double> out = seconds_;
    std::sort(out.begin(), out.end());
    return out;
  }
  void forget() {
    const std::lock_guard lock(mutex_);
    seconds_.clear();
  }

 private:
  mutable std::mutex mutex_;
  std::map<int, Clock::time_point> sent_;
  std::vector<double> seconds_;
};

std::string rain_now(int round) {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  char text[96];
  std::snprintf(text, sizeof(text), R"([{"n":"rain","u":"mm","t":%.3f,"v":%.1f}])",
                std::chrono::duration<double>(now).count(), 0.2 + 0.2 * (round % 2));
  return text;
}

/// "gley/alder/field/f17/water" -> 17
int number_in(const std::string& topic) {
  const auto at = topic.find("/f");
  const auto field = topic.find("/f", at + 1);
  return std::stoi(topic.substr(field + 2));
}

class Bystander {
 public:
  Bystander(std::uint16_t port, Echoes& echoes)
      : client_("mqtt://127.0.0.1:" + std::to_string(port), "bystander") {
    client_.set_message_callback([&echoes](const mqtt::const_message_ptr& message) {
      // The station's first field tells for all of them.
      const int field = number_in(message->get_topic());
      if (field < stations) echoes.heard(field);
    });
    client_.connect()->wait();
    client_.subscribe("gley/alder/field/+/water", 1)->wait();
  }
  ~Bystander() { client_.disconnect()->wait(); }
  Bystander(const Bystander&) = delete;
  Bystander& operator=(const Bystander&) = delete;

  void publish(int station, const std::string& body) {
    client_.publish("weather/s" + std::to_string(station) + "/pack", body.data(), body.size(), 1,
                    false);
  }

 private:
  mqtt::async_client client_;
};

void rain_on_all(Bystander& bystander, Echoes& echoes, int first_round, int last_round) {
  auto next = Clock::now();
  const std::chrono::duration<double> between{1.0 / readings_a_second};
  for (int round = first_round; round < last_round; ++round)
    for (int station = 0; station < stations; ++station) {
      std::this_thread::sleep_until(next);
      next += std::chrono::duration_cast<Clock::duration>(between);
      echoes.sent(station);
      bystander.publish(station, rain_now(round));
    }
  if (!tests::eventually(std::chrono::seconds{30}, [&] { return echoes.unanswered() == 0; }))
    throw std::runtime_error("a reading changed nothing on its field's topic");
}

void measure() {
  const tests::Broker broker({"max_queued_messages 1000000", "max_inflight_messages 0"});
  RunningFarm farm({.stations = stations, .mqtt_port = broker.port()});
  const auto today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  (void)fill_store(farm.store(), farm.scene(), today - std::chrono::days{1}, 60);
  (void)farm.start();
  Echoes echoes;
  Bystander bystander(broker.port(), echoes);
  rain_on_all(bystander, echoes, 0, 3);
  echoes.forget();
  rain_on_all(bystander, echoes, 3, 3 + rounds);
  const std::vector<double> seconds = echoes.sorted_seconds();
  const auto at = [&](double share) {
    return 1000.0 * seconds[static_cast<std::size_t>(share * static_cast<double>(seconds.size()))];
  };
  std::printf("reading_to_board_p50: %.1f ms\n", at(0.5));
  std::printf("reading_to_board_p90: %.1f ms\n", at(0.9));
  std::printf("reading_to_board_p99: %.1f ms\n", at(0.99));
  std::printf("reading_to_board_readings: %zu 1\n", seconds.size());
}

}  // namespace
}  // namespace gley::bench

int main() try { gley::bench::measure(); } catch (const std::exception& error) {
  std::fprintf(stderr, "bench_latency: %s\n", error.what());
  return 1;
}
