#pragma once
#include <atomic>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "daemon/board/snapshot/histogram.hpp"
#include "daemon/bus/mqtt_client.hpp"
#include "daemon/readings/forecast.hpp"
#include "daemon/readings/payload.hpp"
#include "daemon/readings/told.hpp"
#include "daemon/store/inbox.hpp"

namespace gley::daemon {

/// What became of the messages so far.
struct IntakeCounts {
  std::uint64_t stored = 0;
  std::uint64_t repeated = 0;
  std::uint64_t forecasts = 0;
  std::map<Rejection, std::uint64_t> rejected;
  Histogram store_write{work_bounds_s()};
  Histogram reading_delay{delay_bounds_s()};
  std::uint64_t told = 0;  ///< dressings and reports, each once
  std::map<TellFault, std::uint64_t> told_refused;
  std::vector<std::string> complaints;  ///< the latest rejection of each topic, newest last
};

/// What messages are read by.
struct IntakeMaps {
  std::shared_ptr<const TopicMap> topics;
  std::string forecast_topic;  ///< empty: no forecast is asked for
  std::shared_ptr<const ForecastTerms> forecast;
  std::string tell_topic;  ///< above it stands what is told: <root>/tell/dressing and report
  std::shared_ptr<const TellTerms> tell;
};
[[nodiscard]] IntakeMaps intake_maps(const FarmConfig& farm);

/// Takes messages from the broker into the store. `take` runs on the receiving thread and returns
/// only when the message is committed; the rest may be called from any thread.
class Intake {
 public:
  /// wake: told after a commit, from the receiving thread; must return at once.
  Intake(const StoreConfig& store, IntakeMaps maps, std::function<void()> wake,
         std::function<Instant()> clock);

  /// Decodes and commits. Throws StoreError if the store will not take it, and is to be called
  /// again with the same message then.
  void take(const Message& message);

  /// Messages from now on are read by other maps.
  void use(IntakeMaps maps);

  [[nodiscard]] IntakeCounts counts() const;

  /// How long the present call of `take` has run; 0 between calls.
  [[nodiscard]] std::chrono::nanoseconds busy_for(std::chrono::steady_clock::time_point now) const;

 private:
  struct Complaint {
    std::string text;
    Instant logged{};
  };

  void take_now(const Message& message);
  void take_readings(const Message& message, const TopicMap& topics, Instant now);
  void note_delays(const DecodedMessage& message, Instant now);  ///< under the lock
  void complain(const Message& message, const std::vector<RejectedRecord>& rejections, Instant now);
  void take_forecast(const Message& message, const ForecastTerms& terms, Instant now);
  void take_told(const Message& message, const IntakeMaps& maps, Instant now);
  template <class Told>
  void keep_told(const Message& message, const TellResult<Told>& told, Instant now);
  void refuse_told(const Message& message, const TellProblem& problem, Instant now);
  void name_complaint(const Message& message, const std::string& why, Instant now);
  [[nodiscard]] IntakeMaps maps() const;

  Inbox inbox_;  ///< of the receiving thread alone
  std::function<void()> wake_;
  std::function<Instant()> clock_;
  std::atomic<std::chrono::steady_clock::rep> began_ = 0;  ///< the present `take`; 0: none

  mutable std::mutex mutex_;  ///< guards all below
  IntakeMaps maps_;
  IntakeCounts counts_;
  std::map<std::string, Complaint> complaints_;
};

}  // namespace gley::daemon
