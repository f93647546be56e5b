#include "daemon/engine/run/engine.hpp"

#include "daemon/store/derived_store.hpp"
#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

std::shared_ptr<FarmConfig> farm_with(const std::vector<std::string>& fields) {
  auto farm = std::make_shared<FarmConfig>(farm_of_stations({"yard"}));
  farm->mqtt.root = "gley/alder";
  for (const std::string& id : fields) add_field(*farm, id, {"yard"});
  return farm;
}

/// What a broker holds after a run of the daemon has spoken to it.
class RetainingBroker {
 public:
  void run(const std::shared_ptr<const FarmConfig>& farm, Database& database) {
    run(
        farm, database, [this](const Outgoing& message) { take(message); },
        [] { return Workings{}; });
  }
  /// The broker is away, and the run ends in a kill: what waits for it is gone.
  static void run_without(const std::shared_ptr<const FarmConfig>& farm, Database& database) {
    run(
        farm, database, [](const Outgoing&) {},
        [] {
          Workings workings;
          workings.messages_waiting = 1;
          return workings;
        });
  }
  [[nodiscard]] std::vector<std::string> topics() const {
    std::vector<std::string> names;
    for (const auto& [topic, body] : retained_) names.push_back(topic);
    return names;
  }

 private:
  static void run(const std::shared_ptr<const FarmConfig>& farm, Database& database,
                  std::function<void(const Outgoing&)> publish,
                  std::function<Workings()> workings) {
    const Engine engine(farm, database,
                        {.publish = std::move(publish),
                         .tell_boards = [](const std::string&) {},
                         .service = [] { return ServiceView{}; },
                         .workings = std::move(workings),
                         .clock = [] { return Instant{std::chrono::hours{24 * 19000}}; },
                         .apart = {}});
  }
  void take(const Outgoing& message) {
    if (message.payload.empty())
      retained_.erase(message.topic);
    else
      retained_[message.topic] = message.payload;
  }
  std::map<std::string, std::string> retained_;
};

using Topics = std::vector<std::string>;

TEST_CASE("a field taken out while the daemon was down leaves nothing on the broker") {
  FarmStore store;
  RetainingBroker broker;
  broker.run(farm_with({"low", "top"}), store.database);
  CHECK(broker.topics() == Topics{"gley/alder/board", "gley/alder/field/low/sign",
                                  "gley/alder/field/low/water", "gley/alder/field/top/sign",
                                  "gley/alder/field/top/water"});
  broker.run(farm_with({"top"}), store.database);
  CHECK(broker.topics() ==
        Topics{"gley/alder/board", "gley/alder/field/top/sign", "gley/alder/field/top/water"});
}

TEST_CASE("what was withdrawn while the broker was away is withdrawn again after a kill") {
  FarmStore store;
  RetainingBroker broker;
  broker.run(farm_with({"low", "top"}), store.database);
  RetainingBroker::run_without(farm_with({"top"}), store.database);
  broker.run(farm_with({"top"}), store.database);
  CHECK(broker.topics() ==
        Topics{"gley/alder/board", "gley/alder/field/top/sign", "gley/alder/field/top/water"});
}

TEST_CASE("a damaged note of what is retained keeps no daemon from its start") {
  FarmStore store;
  RetainingBroker broker;
  for (const char* damaged : {"[\"gley", "7", "{\"a\":1}", ""}) {
    DerivedStore(store.database).put({"retained", "any", "any"}, damaged);
    CHECK_NOTHROW(broker.run(farm_with({"top"}), store.database));
  }
  CHECK(broker.topics() ==
        Topics{"gley/alder/board", "gley/alder/field/top/sign", "gley/alder/field/top/water"});
}

TEST_CASE("a root that was changed while the daemon was down leaves nothing under the old one") {
  FarmStore store;
  RetainingBroker broker;
  broker.run(farm_with({"top"}), store.database);
  const auto moved = farm_with({"top"});
  moved->mqtt.root = "farms/alder";
  broker.run(moved, store.database);
  CHECK(broker.topics() ==
        Topics{"farms/alder/board", "farms/alder/field/top/sign", "farms/alder/field/top/water"});
}

}  // namespace
}  // namespace gley::daemon
