#pragma once
#include <chrono>
#include <functional>
#include <memory>
#include <optional>
#include <set>

#include "daemon/board/http/http_message.hpp"
#include "daemon/board/pages/page_sources.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/snapshot/workings.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/outlook/outlook_desk.hpp"
#include "daemon/engine/run/intake.hpp"
#include "daemon/engine/run/topics.hpp"
#include "daemon/engine/watch/alert_watch.hpp"
#include "daemon/engine/watch/report_checks.hpp"
#include "daemon/engine/watch/told_desk.hpp"

namespace gley::daemon {

/// What runs when: turns what the store gained into fields, alerts, topics and the board. It has no
/// thread, no timer and no socket; its owner calls it on one thread, the one of the io_context.
class Engine {
 public:
  struct Ways {
    std::function<void(const Outgoing&)> publish;              ///< to the broker
    std::function<void(const std::string& data)> tell_boards;  ///< to the open pages
    std::function<ServiceView()> service;                      ///< how the daemon is doing
    std::function<Workings()> workings;                        ///< but for what the engine knows
    std::function<Instant()> clock;
    RunApart apart;  ///< empty: long work is done on the spot
  };

  Engine(std::shared_ptr<const FarmConfig> farm, Database& database, Ways ways);

  /// Readings were committed, or time has passed: brings everything up to now.
  void refresh();

  /// Refreshes when a minute has gone by or the service changed.
  void tick();

  /// Sends of what had to wait all that may go now. Returns how long the next of it still has to.
  std::optional<std::chrono::milliseconds> flush();

  /// The broker may have lost what was retained.
  void publish_all_again();

  /// Takes up another configuration; the store stays.
  void use(std::shared_ptr<const FarmConfig> farm);

  /// A write is judged by its token first, then taken.
  [[nodiscard]] Response respond(const Request& request);

 private:
  [[nodiscard]] Response take(const Request& request);
  [[nodiscard]] Response keep(const Request& request);
  [[nodiscard]] Response take_seen(const std::string& alert, const std::string& body);
  [[nodiscard]] ServiceView service() const;
  [[nodiscard]] std::optional<std::string> days_csv(const std::string& field,
                                                    const DayRange& range) const;
  [[nodiscard]] tl::expected<Explanation, std::string> explain(const std::string& field,
                                                               std::chrono::sys_days date) const;
  [[nodiscard]] PageSources sources() const;
  void take_up_retained();
  void keep_notes();
  void note_retained();
  [[nodiscard]] bool all_acknowledged() const;
  void keep_checkpoint();
  void look(Instant now);
  void show(std::unique_ptr<BoardSnapshot> board, Instant now, const FarmOutlook* outlook);
  [[nodiscard]] Workings workings() const;
  [[nodiscard]] std::unique_ptr<OutlookDesk> new_outlook();

  std::shared_ptr<const FarmConfig> farm_;
  Database& database_;
  Ways ways_;
  std::unique_ptr<FarmState> state_;
  std::unique_ptr<OutlookDesk> outlook_;
  std::unique_ptr<ToldDesk> told_;
  std::string token_;  ///< that writes need; empty: none are taken
  AlertWatch alerts_;
  Publisher publisher_;
  Topics topics_;
  FieldViews views_;
  ReportChecks report_checks_;
  bool told_anew_ = false;  ///< since the boards were last told
  std::unique_ptr<BoardSnapshot> board_;
  mutable std::shared_ptr<const PlanView> plan_;  ///< made when first asked for
  std::string noted_service_;
  std::set<std::string> noted_topics_;                  ///< as retained, with their root
  std::uint64_t noted_revision_ = 0;                    ///< of the publisher's topics
  bool noted_withdrawn_ = false;                        ///< among them some that are withdrawn
  std::optional<std::chrono::sys_days> checkpoint_of_;  ///< farm day on which one was kept last
  Histogram fields_step_{work_bounds_s()};
};

}  // namespace gley::daemon
