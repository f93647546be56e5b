// From a reading's publication to what it changes on MQTT, in calm, under a flood of bad payloads
// and with 200 displays listening, one after the other in one run: 500 fields under 100 stations,
// 100 readings a second, each a rain that changes the fields of its station. A topic is sent at
// most once a second, so each station rains every 1.1 s, and the time is taken at the field's own
// topic, `field/<id>/water`; the board's topic as a whole, which changes with every reading, would
// show that second and nothing else. Publisher, broker and daemon share the machine.
#include <mqtt/async_client.h>

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <map>
#include <mutex>
#include <sstream>
#include <thread>
#include <vector>

#include "daemon/bus/broker_socket.hpp"
#include "tests/bench/running_farm.hpp"
#include "tests/system/broker.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::bench {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int stations = 110;
constexpr double readings_a_second = 100.0;
constexpr int rounds = 55;  // a minute, each a reading from every station
// Not counted: at a start thousands of topics go out at once, and a topic that had to wait for its
// second catches up with its station by a tenth of one each round.
constexpr int first_rounds = 15;

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
    // It stands for a hundred stations, each of which would have a connection of its own.
    daemon::BrokerSocket().connected(port);
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

/// Publishes what is no reading on a station's topic, 10,000 times a second, until it is destroyed:
/// packets of MQTT 3.1.1 at QoS 0, made here, for a library's client is slower than that.
class Flood {
 public:
  explicit Flood(std::uint16_t port) : client_(port) {
    using namespace std::string_literals;
    if (!client_.send("\x10\x11\x00\x04MQTT\x04\x02\x00\x3c\x00\x05"
                      "flood"s) ||
        !client_.read_until("\x20\x02"s))
      throw std::runtime_error("the broker takes no flood");
    thread_ = std::thread([this] { run(); });
  }
  ~Flood() {
    stopping_ = true;
    thread_.join();
  }
  Flood(const Flood&) = delete;
  Flood& operator=(const Flood&) = delete;

  [[nodiscard]] double sent() const { return sent_; }

 private:
  void run() {
    const std::string topic = "weather/s0/pack";
    const std::string bad = R"([{"n":"rain","u":"mm","v":"much"}])";
    std::string packet{'\x30', static_cast<char>(2 + topic.size() + bad.size()), '\0',
                       static_cast<char>(topic.size())};
    packet += topic + bad;
    std::string packets;
    for (int i = 0; i < 100; ++i) packets += packet;
    for (auto next = Clock::now(); !stopping_ && client_.send(packets); sent_ += 100)
      std::this_thread::sleep_until(next += std::chrono::milliseconds{10});
  }

  tests::RawClient client_;
  std::atomic<bool> stopping_ = false;
  std::atomic<int> sent_ = 0;
  std::thread thread_;
};

/// Readings refused so far, by /metrics.
double refused(const RunningFarm& farm) {
  double sum = 0.0;
  std::istringstream lines(farm.get("/metrics").body);
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("gley_readings_total{") && line.find("\"stored\"") == std::string::npos &&
        line.find("\"repeated\"") == std::string::npos)
      sum += std::stod(line.substr(line.rfind(' ')));
  return sum;
}

double print_times(const std::string& name, const Echoes& echoes) {
  const std::vector<double> seconds = echoes.sorted_seconds();
  const auto at = [&](double share) {
    return 1000.0 * seconds[static_cast<std::size_t>(share * static_cast<double>(seconds.size()))];
  };
  std::printf("%s_p50: %.1f ms\n", name.c_str(), at(0.5));
  std::printf("%s_p90: %.1f ms\n", name.c_str(), at(0.9));
  std::printf("%s_p99: %.1f ms\n", name.c_str(), at(0.99));
  std::printf("%s_readings: %zu 1\n", name.c_str(), seconds.size());
  return at(0.99);
}

/// A display reads what it is sent and asks for nothing.
std::vector<tests::RawClient> displays_of(const RunningFarm& farm) {
  std::vector<tests::RawClient> displays;
  for (int i = 0; i < 200; ++i) {
    displays.emplace_back(farm.scene().http_port);
    displays.back().send("GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n");
    if (!displays.back().read_until("retry")) throw std::runtime_error("a display got no events");
    displays.back().forget();
  }
  return displays;
}

void measure() {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  const tests::Broker broker({"max_queued_messages 1000000", "max_inflight_messages 0"});
  RunningFarm farm({.stations = stations, .mqtt_port = broker.port()});
  const auto today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  (void)fill_store(farm.store(), farm.scene(), today - std::chrono::days{1}, 60);
  (void)farm.start();
  Echoes echoes;
  Bystander bystander(broker.port(), echoes);
  rain_on_all(bystander, echoes, 0, first_rounds);
  echoes.forget();
  rain_on_all(bystander, echoes, first_rounds, first_rounds + rounds);
  const double calm_ms = print_times("reading_to_board", echoes);
  int round = first_rounds + rounds;
  const auto again = [&] {
    echoes.forget();
    rain_on_all(bystander, echoes, round, round + rounds);
    round += rounds;
  };
  {
    const double before = refused(farm);
    const auto began = Clock::now();
    const Flood flood(broker.port());
    again();
    const double flooded_ms = print_times("flooded_reading_to_board", echoes);
    std::printf("flooded_over_calm_p99: %.2f 1\n", flooded_ms / calm_ms);
    const std::chrono::duration<double> time = Clock::now() - began;
    std::printf("bad_payloads_sent: %.0f payloads/s\n", flood.sent() / time.count());
    // Each payload is refused once for every quantity that its topic has.
    std::printf("bad_payloads_refusals: %.0f refusals/s\n",
                (refused(farm) - before) / time.count());
  }
  std::vector<tests::RawClient> displays = displays_of(farm);
  again();
  const double shown_ms = print_times("displays_reading_to_board", echoes);
  std::printf("displays_over_calm_p99: %.2f 1\n", shown_ms / calm_ms);
  std::size_t served = 0;
  for (tests::RawClient& display : displays) served += display.read_until("event: board") ? 1 : 0;
  std::printf("displays_served: %zu 1\n", served);
}

}  // namespace
}  // namespace gley::bench

int main() try { gley::bench::measure(); } catch (const std::exception& error) {
  std::fprintf(stderr, "bench_latency: %s\n", error.what());
  return 1;
}
