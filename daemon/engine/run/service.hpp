#pragma once
#include <atomic>
#include <filesystem>
#include <memory>

#include "daemon/asio.hpp"
#include "daemon/board/http/http_server.hpp"
#include "daemon/bus/mqtt_client.hpp"
#include "daemon/engine/run/clock_watch.hpp"
#include "daemon/engine/run/engine.hpp"
#include "daemon/engine/run/progress.hpp"
#include "daemon/store/store_lock.hpp"

namespace gley::daemon {

/// The running daemon: store, broker, board and engine on one io_context, whose thread owns all
/// state. Messages are committed on the broker client's own thread and announced to this one
/// through `wake`, the one function that other threads call.
class Service {
 public:
  /// Opens the store, listens for the board and begins to connect. Throws if the store or the port
  /// cannot be had; a broker that is not there is waited for.
  /// forecast: the text of one, taken as if it had just come; empty: none.
  Service(boost::asio::io_context& context, FarmConfig farm, std::filesystem::path config_file,
          std::string_view forecast = {});
  ~Service();

  /// Reads the configuration again; a bad one is named in the log and the old one stays.
  void reload();

 private:
  [[nodiscard]] Engine::Ways ways();
  [[nodiscard]] MqttHandlers handlers();
  [[nodiscard]] ServiceView view() const;
  [[nodiscard]] Workings workings() const;
  void run_apart(std::function<std::function<void()>()> work);
  void wake();
  void refresh_soon();
  void flush();
  void tick();
  void subscribe();
  void note_turn();
  void take_up(FarmConfig farm);
  [[nodiscard]] std::string status() const;

  boost::asio::io_context& context_;
  std::shared_ptr<const FarmConfig> farm_;
  std::filesystem::path config_file_;
  StoreLock lock_;
  Database database_;
  Intake intake_;
  std::unique_ptr<HttpServer> http_;
  std::unique_ptr<MqttClient> mqtt_;
  std::unique_ptr<Engine> engine_;
  boost::asio::thread_pool apart_{1};
  boost::asio::steady_timer refresh_timer_;
  boost::asio::steady_timer flush_timer_;
  boost::asio::steady_timer tick_timer_;
  Progress progress_;
  ClockWatch clock_watch_;
  std::uint64_t clock_jumps_ = 0;
  bool stuck_named_ = false;
  std::chrono::steady_clock::time_point broker_last_seen_ = std::chrono::steady_clock::now();
  Histogram reading_to_board_{work_bounds_s()};
  Instant started_{};
  bool refresh_waits_ = false;
  std::chrono::steady_clock::time_point refreshed_{};

  // Of `wake` too.
  std::atomic<std::chrono::steady_clock::rep> woken_at_ = 0;
  std::atomic<bool> woken_ = false;
};

}  // namespace gley::daemon
