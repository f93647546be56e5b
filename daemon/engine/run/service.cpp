#include "daemon/engine/run/service.hpp"

#include <spdlog/spdlog.h>

#include "daemon/board/http/host_names.hpp"
#include "daemon/board/http/http_answer.hpp"
#include "daemon/engine/run/systemd_notice.hpp"
#include "daemon/farm/config_reader.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/store/schema.hpp"

namespace gley::daemon {

namespace {

/// Readings that come closer together are taken in one go: a look at 500 fields costs some ms.
constexpr std::chrono::milliseconds between_refreshes{10};
constexpr std::chrono::seconds between_ticks{1};

/// One try to store a message waits 5 s at each of a few locks, and then fails and says so; one
/// that does neither for so long holds back all readings, and only a restart can help.
constexpr std::chrono::seconds longest_try{60};

std::string broker_of(const MqttConfig& mqtt) {
  return mqtt.host + ":" + std::to_string(mqtt.port);
}

std::vector<std::string> own_names(const HttpConfig& http) {
  std::vector<std::string> names = http.host_names;
  names.push_back(machine_name());
  return names;
}

/// 421 (RFC 9110, section 15.5.20). The name is not repeated: whoever asks knows it.
Response not_our_name() {
  return {.status = 421,
          .content_type = "text/plain; charset=utf-8",
          .body =
              "Gley is not known by this name. If the board is to be reached by it, put it into "
              "host_names under [http]; an address in numbers is always taken.\n"};
}

/// What a reload leaves as it is, as the settings' rows say. Half of it would be taken up else: new
/// results under another root, and what stands under the old one for ever.
void keep_until_next_start(FarmConfig& farm, const FarmConfig& running) {
  farm.id = running.id;
  farm.store = running.store;
  const double away_after_min = farm.mqtt.away_after_min;
  farm.mqtt = running.mqtt;
  farm.mqtt.away_after_min = away_after_min;
  farm.http.address = running.http.address;
  farm.http.port = running.http.port;
  farm.http.token_file = running.http.token_file;
}

}  // namespace

Service::Service(boost::asio::io_context& context, FarmConfig farm,
                 std::filesystem::path config_file, std::string_view forecast)
    : context_(context),
      farm_(std::make_shared<const FarmConfig>(std::move(farm))),
      config_file_(std::move(config_file)),
      lock_(farm_->store.path),
      database_(open_store(farm_->store.path, farm_->store.durability)),
      intake_(
          farm_->store, intake_maps(*farm_), [this] { wake(); }, wall_clock),
      refresh_timer_(context),
      flush_timer_(context),
      tick_timer_(context),
      started_(wall_clock()) {
  http_ = std::make_unique<HttpServer>(
      context_, farm_->http.address, farm_->http.port, [this](const Request& request) {
        return answers_to(request.host, own_names(farm_->http)) ? engine_->respond(request)
                                                                : not_our_name();
      });
  mqtt_ = std::make_unique<MqttClient>(farm_->mqtt, handlers());
  // Before the broker's thread begins, which writes through the same intake.
  if (!forecast.empty()) intake_.take({farm_->forecast->topic, forecast});
  engine_ = std::make_unique<Engine>(farm_, database_, ways());
  spdlog::info("board on http://{}:{}/", farm_->http.address, http_->port());
  subscribe();
  mqtt_->start();
  note_turn();
  tick();
  tell_ready(status());
}

Service::~Service() {
  tell_stopping();
  // The client's threads call into the engine's neighbours: it goes first.
  mqtt_.reset();
  apart_.join();
}

std::string Service::status() const {
  return farm_->name + ": " + std::to_string(farm_->fields.size()) + " fields, board on http://" +
         farm_->http.address + ":" + std::to_string(http_->port()) + "/";
}

void Service::subscribe() {
  std::vector<std::string> filters = TopicMap(*farm_).filters();
  if (farm_->forecast) filters.push_back(farm_->forecast->topic);
  filters.push_back(farm_->mqtt.root + "/tell/+");
  mqtt_->subscribe_to(std::move(filters));
}

Engine::Ways Service::ways() {
  return {.publish = [this](const Outgoing& message) { mqtt_->publish(message); },
          .tell_boards = [this](const std::string& data) { http_->notify(data); },
          .service = [this] { return view(); },
          .workings = [this] { return workings(); },
          .clock = wall_clock,
          .apart = [this](auto work) { run_apart(std::move(work)); }};
}

void Service::run_apart(std::function<std::function<void()>()> work) {
  boost::asio::post(apart_,
                    [this, work = std::move(work)] { boost::asio::post(context_, work()); });
}

MqttHandlers Service::handlers() {
  return {
      .post = [this](std::function<void()> task) { boost::asio::post(context_, std::move(task)); },
      .on_message = [this](const Message& message) { intake_.take(message); },
      .on_connected =
          [this] { spdlog::info("connected to the broker at {}", broker_of(farm_->mqtt)); },
      .on_disconnected =
          [this](const std::string& reason) {
            spdlog::warn("no connection to the broker at {}: {}; trying again",
                         broker_of(farm_->mqtt), reason);
            engine_->refresh();
          },
      .on_subscribed =
          [this](const std::vector<std::string>& refused) {
            for (const std::string& filter : refused)
              spdlog::error("the broker refuses to let us read '{}': check its access rules",
                            filter);
            engine_->refresh();
            engine_->publish_all_again();
          }};
}

ServiceView Service::view() const {
  ServiceView view;
  view.started = started_;
  const MqttStatus mqtt = mqtt_->status();
  view.broker_connected = mqtt.connected;
  view.broker = broker_of(farm_->mqtt);
  if (!mqtt.connected)
    view.broker_message = mqtt.last_error.empty() ? "not connected yet" : mqtt.last_error;
  view.store_message = mqtt.not_storing.value_or("");
  view.clock_jumps = clock_jumps_;
  const IntakeCounts counts = intake_.counts();
  view.readings_stored = counts.stored;
  view.readings_repeated = counts.repeated;
  for (const Rejection kind : all_rejections) {
    const auto count = counts.rejected.find(kind);
    view.rejected.emplace_back(to_word(kind), count == counts.rejected.end() ? 0 : count->second);
  }
  view.told = counts.told;
  for (const auto& [fault, count] : counts.told_refused)
    view.told_refused.emplace_back(to_word(fault), count);
  view.complaints = counts.complaints;
  return view;
}

Workings Service::workings() const {
  const auto now = std::chrono::steady_clock::now();
  const MqttStatus mqtt = mqtt_->status();
  const IntakeCounts counts = intake_.counts();
  Workings workings;
  workings.forecasts_stored = counts.forecasts;
  workings.broker_connects = mqtt.connects;
  workings.broker_clients_replaced = mqtt.clients_replaced;
  workings.messages_received = mqtt.received;
  workings.messages_published = mqtt.published;
  workings.publish_failures = mqtt.publish_failures;
  workings.messages_waiting = mqtt.waiting_to_send;
  workings.messages_on_their_way = mqtt.on_their_way;
  workings.event_clients = http_->event_clients();
  const HttpRefusals refused = http_->refusals();
  workings.http_refused = {{"connection", refused.connections},
                           {"work", refused.work},
                           {"wrong token", refused.wrong_tokens},
                           {"too many wrong tokens", refused.tokens},
                           {"host name", refused.host_names}};
  if (!mqtt.connected)
    workings.broker_away =
        std::chrono::duration_cast<std::chrono::seconds>(now - broker_last_seen_);
  workings.stood_still = progress_.stood_still(now);
  workings.message_stuck = intake_.busy_for(now) > longest_try;
  workings.broker_away_allowed = std::chrono::duration_cast<std::chrono::seconds>(
      std::chrono::duration<double, std::ratio<60>>(farm_->mqtt.away_after_min));
  workings.store_write = counts.store_write;
  workings.reading_delay = counts.reading_delay;
  workings.reading_to_board = reading_to_board_;
  return workings;
}

void Service::wake() {
  if (woken_.exchange(true)) return;
  woken_at_ = std::chrono::steady_clock::now().time_since_epoch().count();
  boost::asio::post(context_, [this] { refresh_soon(); });
}

void Service::refresh_soon() {
  if (refresh_waits_) return;
  refresh_waits_ = true;
  const auto due = std::max(refreshed_ + between_refreshes, std::chrono::steady_clock::now());
  refresh_timer_.expires_at(due);
  refresh_timer_.async_wait([this](const boost::system::error_code& error) {
    refresh_waits_ = false;
    if (error) return;
    // Cleared before the store is read: a reading committed after that wakes us again.
    const std::chrono::steady_clock::time_point woken_at{
        std::chrono::steady_clock::duration{woken_at_}};
    woken_ = false;
    engine_->refresh();
    refreshed_ = std::chrono::steady_clock::now();
    reading_to_board_.add(std::chrono::duration<double>(refreshed_ - woken_at).count());
    flush();
  });
}

/// What had to wait goes when its own second is over: left to the tick it would wait up to two.
void Service::flush() {
  const auto wait = engine_->flush();
  if (!wait) return;
  flush_timer_.expires_after(std::max<std::chrono::milliseconds>(*wait, between_refreshes));
  flush_timer_.async_wait([this](const boost::system::error_code& error) {
    if (!error) flush();
  });
}

void Service::tick() {
  tick_timer_.expires_after(between_ticks);
  tick_timer_.async_wait([this](const boost::system::error_code& error) {
    if (error) return;
    engine_->tick();
    flush();
    note_turn();
    tick();
  });
}

void Service::note_turn() {
  const auto now = std::chrono::steady_clock::now();
  if (mqtt_->status().connected) broker_last_seen_ = now;
  if (const auto still = progress_.turned(now))
    spdlog::error("the daemon stood still for {} s: is the disk or the machine overloaded?",
                  still->count());
  if (const auto step = clock_watch_.look(wall_clock(), now)) {
    ++clock_jumps_;
    spdlog::warn(
        "the clock went {:.0f} s {}: it was set, or the machine slept; check the time (timedatectl)"
        " and that stations without a clock of their own still send",
        std::abs(static_cast<double>(step->count())) / 1000.0,
        step->count() > 0 ? "forward" : "back");
  }
  const bool stuck = intake_.busy_for(now) > longest_try;
  if (stuck && !stuck_named_)
    spdlog::critical("a message has been on its way to the store for over {} s: is the disk dying?",
                     longest_try.count());
  stuck_named_ = stuck;
  if (!stuck) tell_alive();
}

void Service::reload() {
  tell_reloading();
  ConfigResult result = read_config(config_file_);
  for (const ConfigProblem& problem : result.problems)
    spdlog::error("configuration not taken up: {}", problem.to_line());
  if (result.problems.empty() && result.farm) {
    take_up(std::move(*result.farm));
    tell_ready(status());
  } else {
    tell_ready("the configuration of before stays: " + (result.problems.empty()
                                                            ? "the new one cannot be read"
                                                            : result.problems.front().to_line()));
  }
}

void Service::take_up(FarmConfig farm) {
  if (farm.id != farm_->id || farm.store.path != farm_->store.path ||
      farm.http.port != farm_->http.port || farm.http.address != farm_->http.address ||
      farm.mqtt.host != farm_->mqtt.host || farm.mqtt.port != farm_->mqtt.port ||
      farm.mqtt.root != farm_->mqtt.root)
    spdlog::warn(
        "the farm's id, the store's path, [http] and [mqtt] are taken up at the next start only");
  keep_until_next_start(farm, *farm_);
  farm_ = std::make_shared<const FarmConfig>(std::move(farm));
  intake_.use(intake_maps(*farm_));
  engine_->use(farm_);
  subscribe();
  spdlog::info("configuration taken up: {} fields, {} stations", farm_->fields.size(),
               farm_->stations.size());
}

}  // namespace gley::daemon
