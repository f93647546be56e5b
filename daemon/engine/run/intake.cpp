#include "daemon/engine/run/intake.hpp"

#include <spdlog/spdlog.h>

#include "daemon/engine/weather/forecast_in_use.hpp"
#include "daemon/text/topic_filter.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::minutes between_complaints{1};

/// So many topics are named at most: an open broker could be sent any number of them.
constexpr std::size_t most_complaints = 50;

using Time = std::chrono::steady_clock::time_point;

double seconds_since(Time began) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

constexpr std::size_t longest_topic = 80;  // in a log line

}  // namespace

IntakeMaps intake_maps(const FarmConfig& farm) {
  return {.topics = std::make_shared<const TopicMap>(farm),
          .forecast_topic = farm.forecast ? farm.forecast->topic : std::string(),
          .forecast = std::make_shared<const ForecastTerms>(forecast_terms(farm)),
          .tell_topic = farm.mqtt.root + "/tell/",
          .tell = std::make_shared<const TellTerms>(tell_terms(farm))};
}

Intake::Intake(const StoreConfig& store, IntakeMaps maps, std::function<void()> wake,
               std::function<Instant()> clock)
    : inbox_(store.path, store.durability),
      wake_(std::move(wake)),
      clock_(std::move(clock)),
      maps_(std::move(maps)) {}

IntakeMaps Intake::maps() const {
  const std::lock_guard lock(mutex_);
  return maps_;
}

void Intake::use(IntakeMaps maps) {
  const std::lock_guard lock(mutex_);
  maps_ = std::move(maps);
}

void Intake::take(const Message& message) {
  struct Mark {
    std::atomic<std::chrono::steady_clock::rep>& began;
    ~Mark() { began = 0; }
  };
  began_ = std::chrono::steady_clock::now().time_since_epoch().count();
  const Mark mark{began_};
  take_now(message);
}

std::chrono::nanoseconds Intake::busy_for(std::chrono::steady_clock::time_point now) const {
  using Clock = std::chrono::steady_clock;
  const Clock::rep began = began_;
  return began == 0 ? std::chrono::nanoseconds{0} : now.time_since_epoch() - Clock::duration{began};
}

void Intake::take_now(const Message& message) {
  const Instant now = clock_();
  const IntakeMaps maps = this->maps();
  if (message.topic.starts_with(maps.tell_topic)) {
    take_told(message, maps, now);
    return;
  }
  if (!maps.forecast_topic.empty() && topic_matches(maps.forecast_topic, message.topic)) {
    take_forecast(message, *maps.forecast, now);
    return;
  }
  take_readings(message, *maps.topics, now);
}

/// One that cannot be used is not kept: the one before it stays in use.
void Intake::take_forecast(const Message& message, const ForecastTerms& terms, Instant now) {
  const DecodedForecast decoded = decode_forecast(terms, message.payload, now);
  if (!decoded) {
    RejectedRecord wrong = decoded.error();
    wrong.detail += "; the forecast before stays in use";
    complain(message, {wrong}, now);
    return;
  }
  const Time began = std::chrono::steady_clock::now();
  const bool is_new = inbox_.store_forecast(message.topic, message.payload, now);
  {
    const double took_s = seconds_since(began);
    const std::lock_guard lock(mutex_);
    counts_.store_write.add(took_s);
    counts_.forecasts += is_new ? 1 : 0;
  }
  if (is_new) wake_();
}

void Intake::take_told(const Message& message, const IntakeMaps& maps, Instant now) {
  const std::string_view what = message.topic.substr(maps.tell_topic.size());
  const TellContext context{.now = now, .field = {}, .time_needed = true};
  if (what == "dressing")
    keep_told(message, decode_dressing(message.payload, *maps.tell, context), now);
  else if (what == "report")
    keep_told(message, decode_report(message.payload, *maps.tell, context), now);
  else
    refuse_told(message,
                {TellFault::malformed, "the topic must end in tell/dressing or tell/report"}, now);
}

template <class Told>
void Intake::keep_told(const Message& message, const TellResult<Told>& told, Instant now) {
  if (!told) {
    refuse_told(message, told.error(), now);
    return;
  }
  if (!inbox_.told().put(told->told, {ToldVia::mqtt, told->name}, now)) return;
  {
    const std::lock_guard lock(mutex_);
    ++counts_.told;
  }
  wake_();
}

void Intake::refuse_told(const Message& message, const TellProblem& problem, Instant now) {
  const std::lock_guard lock(mutex_);
  ++counts_.told_refused[problem.fault];
  name_complaint(message, std::string(to_word(problem.fault)) + ": " + problem.detail, now);
}

void Intake::take_readings(const Message& message, const TopicMap& topics, Instant now) {
  const DecodedMessage decoded =
      decode(topics, message.topic, message.payload, now, message.timeless_is_unknown);
  if (!decoded.readings.empty()) {
    const Time began = std::chrono::steady_clock::now();
    const Inbox::Stored stored = inbox_.store(decoded, now);
    {
      const double took_s = seconds_since(began);
      const std::lock_guard lock(mutex_);
      counts_.store_write.add(took_s);
      note_delays(decoded, now);
      counts_.stored += static_cast<std::uint64_t>(stored.added);
      counts_.repeated += static_cast<std::uint64_t>(stored.repeated);
    }
    wake_();
  }
  if (!decoded.rejections.empty()) complain(message, decoded.rejections, now);
}

void Intake::note_delays(const DecodedMessage& message, Instant now) {
  for (const DecodedReading& decoded : message.readings)
    if (decoded.reading.time_source == TimeSource::payload)
      counts_.reading_delay.add(std::chrono::duration<double>(now - decoded.reading.time).count());
}

void Intake::complain(const Message& message, const std::vector<RejectedRecord>& rejections,
                      Instant now) {
  const RejectedRecord& first = rejections.front();
  const std::lock_guard lock(mutex_);
  for (const RejectedRecord& rejection : rejections) ++counts_.rejected[rejection.kind];
  name_complaint(message, std::string(to_word(first.kind)) + ": " + first.detail, now);
}

/// The caller holds the mutex.
void Intake::name_complaint(const Message& message, const std::string& why, Instant now) {
  const std::string topic = ascii_line(message.topic, longest_topic);
  if (complaints_.size() >= most_complaints && complaints_.count(topic) == 0) return;
  Complaint& complaint = complaints_[topic];
  complaint.text = topic + ": " + why;
  if (now - complaint.logged < between_complaints && complaint.logged <= now) return;
  complaint.logged = now;
  spdlog::warn("not taken: {}", complaint.text);
}

IntakeCounts Intake::counts() const {
  const std::lock_guard lock(mutex_);
  IntakeCounts counts = counts_;
  for (const auto& [topic, complaint] : complaints_) counts.complaints.push_back(complaint.text);
  return counts;
}

}  // namespace gley::daemon
