#include "daemon/engine/run/engine.hpp"

#include <spdlog/spdlog.h>

#include <utility>

#include "daemon/board/documents/boundaries_json.hpp"
#include "daemon/board/documents/topic_json.hpp"
#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/routes.hpp"
#include "daemon/board/write_routes.hpp"
#include "daemon/engine/explain/explanation_day.hpp"
#include "daemon/engine/fields/checkpoint_store.hpp"
#include "daemon/engine/judge/what_would_change.hpp"
#include "daemon/engine/run/retained_note.hpp"
#include "daemon/engine/run/service_note.hpp"
#include "daemon/engine/view/board_view.hpp"
#include "daemon/engine/view/plan_view.hpp"
#include "daemon/engine/view/record_view.hpp"
#include "daemon/engine/view/seasons_view.hpp"
#include "daemon/engine/view/work_windows.hpp"
#include "daemon/engine/watch/doubt_view.hpp"
#include "daemon/readings/hours.hpp"
#include "daemon/store/store_error.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::minutes between_looks{1};

void log_fields(const BoardSnapshot& board, const std::vector<ShownAnew>& anew) {
  for (const ShownAnew& shown : anew) {
    const FieldView& field = board.fields[shown.field];
    if (!shown.before || shown.before->wetness == field.wetness) continue;
    spdlog::info("field {}: {}, was {}; rain today {:.1f} mm", field.id, field.wetness,
                 shown.before->known ? shown.before->wetness : "not known", field.rain_today_mm);
  }
}

void log_alerts(const BoardSnapshot& before, const BoardSnapshot& now) {
  for (const AlertView& alert : now.alerts)
    if (with_id(before.alerts, alert.id) == nullptr)
      spdlog::warn("alert {} began: {}", alert.id, alert.headline);
}

bool same_trouble(const ServiceView& a, const ServiceView& b) {
  return a.broker_message == b.broker_message && a.store_message == b.store_message;
}

void log_start(const FarmState& state, const Database& database) {
  switch (state.started_from()) {
    case FarmState::Start::checkpoint:
      spdlog::info("going on from the fields' kept state");
      break;
    case FarmState::Start::readings:
      spdlog::info("working out the fields' state from the readings");
      break;
    case FarmState::Start::readings_for_damaged_checkpoint:
      spdlog::warn("{}: the fields' kept state is damaged; working it out from the readings",
                   database.file());
      break;
  }
}

}  // namespace

Engine::Engine(std::shared_ptr<const FarmConfig> farm, Database& database, Ways ways)
    : farm_(std::move(farm)),
      database_(database),
      ways_(std::move(ways)),
      state_(std::make_unique<FarmState>(*farm_, database)),
      outlook_(new_outlook()),
      told_(std::make_unique<ToldDesk>(*farm_, database)),
      token_(write_token(farm_->http)),
      alerts_(database),
      publisher_([this](const std::string& topic, const std::string& body) {
        ways_.publish({farm_->mqtt.root + "/" + topic, body, true});
      }),
      topics_(publisher_, [this] { return board_json(*board_); }),
      board_(std::make_unique<BoardSnapshot>()) {
  log_start(*state_, database_);
  take_up_retained();
  refresh();
}

void Engine::refresh() {
  const Instant now = ways_.clock();
  state_->catch_up();
  outlook_->catch_up();
  told_anew_ = told_->catch_up(now) || told_anew_;
  state_->expect(outlook_->expected_today(now));
  look(now);
  outlook_->look(*state_, now);
  const FarmOutlook* outlook = outlook_->outlook(now);
  alerts_.look(*state_, now, outlook, *told_);
  auto board = std::make_unique<BoardSnapshot>(board_without_fields(*state_, alerts_.open(), now));
  board->forecast = outlook_->view();
  alerts_.show_seen(board->alerts);
  board->past_alerts = alerts_.past();
  board->service = service();
  for (const std::string& id : alerts_.take_ended()) {
    spdlog::info("alert {} ended", id);
    publisher_.withdraw("alert/" + id, now);
  }
  show(std::move(board), now, outlook);
}

void Engine::show(std::unique_ptr<BoardSnapshot> board, Instant now, const FarmOutlook* outlook) {
  board->fields = std::move(board_->fields);
  const std::vector<ShownAnew> anew = views_.look(*state_, now, outlook, board->fields);
  report_checks_.look(*state_, told_->reports());
  for (std::size_t i = 0; i < board->fields.size(); ++i) {
    told_->show(board->fields[i]);
    report_checks_.show(i, board->fields[i]);
  }
  bool changed = std::exchange(told_anew_, false);
  changed = topics_.offer(*board, anew) || changed;
  changed = changed || !same_trouble(board->service, board_->service);
  board->revision = board_->revision + (changed ? 1 : 0);
  log_fields(*board, anew);
  log_alerts(*board_, *board);
  log_new_doubts(*board_, *board);
  board_ = std::move(board);
  publisher_.flush(now);
  keep_notes();
  if (changed) ways_.tell_boards(event_json(*board_));
}

void Engine::look(Instant now) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point began = Clock::now();
  state_->look(now);
  fields_step_.add(std::chrono::duration<double>(Clock::now() - began).count());
}

Workings Engine::workings() const {
  Workings workings = ways_.workings();
  workings.now = ways_.clock();
  workings.silence_allowed =
      std::chrono::duration_cast<std::chrono::seconds>(Hours(farm_->silent_after_h));
  workings.fields_step = fields_step_;
  return workings;
}

std::optional<std::chrono::milliseconds> Engine::flush() {
  const Instant now = ways_.clock();
  publisher_.flush(now);
  const auto due = publisher_.next_due();
  if (!due) return {};
  return *due - now;
}

void Engine::tick() {
  const Instant now = ways_.clock();
  const bool went_back = now < board_->time;
  // What the broker or the store refuses wakes nobody, and pages and metrics are to say it soon.
  const bool service_changed = service() != board_->service;
  const bool new_day = state_->calendar().day_of(now) != state_->today();
  const bool told = told_->has_news() || alerts_.has_news();
  if (went_back || new_day || service_changed || told || now - board_->time >= between_looks)
    refresh();
  keep_checkpoint();
}

/// Once a farm day, and soon after a start: what comes later a start finds in the readings.
void Engine::keep_checkpoint() {
  if (farm_->hash.empty() || checkpoint_of_ == state_->today()) return;
  std::optional<Checkpoint> checkpoint = state_->keeper().checkpoint();
  if (!checkpoint) return;
  checkpoint_of_ = state_->today();
  const auto store = [farm = farm_, kept = std::move(*checkpoint)] {
    store_checkpoint(*farm, kept);
    return [] {};
  };
  if (ways_.apart) {
    ways_.apart(store);
  } else {
    store();
  }
}

void Engine::publish_all_again() {
  publisher_.send_all_again(ways_.clock());
}

void Engine::use(std::shared_ptr<const FarmConfig> farm) {
  auto state = std::make_unique<FarmState>(*farm, database_);
  state_ = std::move(state);
  farm_ = std::move(farm);
  plan_.reset();
  outlook_ = new_outlook();
  told_ = std::make_unique<ToldDesk>(*farm_, database_);
  checkpoint_of_.reset();
  log_start(*state_, database_);
  topics_.forget();
  views_.forget();
  refresh();
}

std::unique_ptr<OutlookDesk> Engine::new_outlook() {
  return std::make_unique<OutlookDesk>(*farm_, database_, ways_.apart, [this] { refresh(); });
}

/// What an earlier run has left on the broker is withdrawn with the first look, but for what that
/// offers again.
void Engine::take_up_retained() {
  const std::string below = farm_->mqtt.root + "/";
  for (const std::string& topic : noted_as_retained(database_)) {
    noted_topics_.insert(topic);
    if (topic.starts_with(below))
      publisher_.remember(topic.substr(below.size()));
    else
      ways_.publish({topic, "", true});  // of a root of before
  }
}

bool Engine::all_acknowledged() const {
  const Workings now = ways_.workings();
  return now.messages_waiting + now.messages_on_their_way == 0;
}

/// What was withdrawn counts until the broker has acknowledged all: a start after a kill withdraws
/// it again.
void Engine::note_retained() {
  const bool is_changed = publisher_.revision() != noted_revision_;
  if (!is_changed && !noted_withdrawn_) return;
  const bool keep_withdrawn = !all_acknowledged();
  if (!is_changed && keep_withdrawn) return;
  std::set<std::string> topics;
  for (const std::string& topic : publisher_.topics_out())
    topics.insert(farm_->mqtt.root + "/" + topic);
  if (keep_withdrawn) topics.insert(noted_topics_.begin(), noted_topics_.end());
  keep_retained_note(database_, topics);
  noted_topics_ = std::move(topics);
  noted_revision_ = publisher_.revision();
  noted_withdrawn_ = keep_withdrawn;
}

/// Leaves in the store what other processes and the next start are to know.
void Engine::keep_notes() try {
  const std::string note = service_note(board_->service);
  if (note != noted_service_) {
    keep_service_note(database_, note);
    noted_service_ = note;
  }
  note_retained();
} catch (const StoreError& error) {
  // A full disk is what there may be to note; the next look tries again.
  if (!error.may_pass()) throw;
}

std::optional<std::string> Engine::days_csv(const std::string& field, const DayRange& range) const {
  const auto index = state_->book().index_of(field);
  if (!index) return {};
  return state_->book().days_csv(*index, range);
}

tl::expected<Explanation, std::string> Engine::explain(const std::string& field,
                                                       std::chrono::sys_days date) const {
  const auto index = state_->book().index_of(field);
  if (!index) return tl::unexpected(std::string("no such field"));
  return day_of_farm(*state_, *index, date, board_->time, outlook_->outlook(board_->time))
      .map(daemon::explain);
}

PageSources Engine::sources() const {
  const auto index = [this](const std::string& field) {
    return state_->book().index_of(field).value();
  };
  return {
      .days = [this](const std::string& field,
                     const DayRange& range) { return days_csv(field, range); },
      .explain = [this](const std::string& field,
                        std::chrono::sys_days date) { return explain(field, date); },
      .record = [this, index](
                    const std::string& field,
                    const DayRange& range) { return record_of(*state_, index(field), range); },
      .ahead = [this, index](const std::string& field) -> std::optional<FieldAheadView> {
        const FarmOutlook* outlook = outlook_->outlook(board_->time);
        if (outlook == nullptr) return {};
        return ahead_of(*state_, index(field), *outlook);
      },
      .seasons = [this,
                  index](const std::string& field) { return seasons_of(*state_, index(field)); },
      .plan =
          [this] {
            if (!plan_ && board_->has_plan) plan_ = plan_of(*farm_);
            return plan_;
          },
      .changes = [this, index](
                     const std::string& field) { return what_would_change(*state_, index(field)); },
      .windows =
          [this] { return work_windows(*farm_, outlook_->outlook(board_->time), board_->time); },
      .boundaries = [this] { return boundaries_json(*farm_); },
      .workings = [this] { return workings(); }};
}

ServiceView Engine::service() const {
  ServiceView view = ways_.service();
  told_->add_to(view);
  return view;
}

Response Engine::take_seen(const std::string& alert, const std::string& body) {
  const auto name = decode_seen(body);
  if (!name) return told_->refuse("seen", name.error());
  Response response = alerts_.see(alert, *name, ways_.clock());
  if (response.status == 404)
    return told_->refuse("seen", {TellFault::unknown_alert, "there is no alert of this id"});
  return response;
}

Response Engine::take(const Request& request) {
  if (auto refusal = refuse_write(request, token_)) return *std::move(refusal);
  Response response = keep(request);
  refresh();
  return response;
}

Response Engine::keep(const Request& request) try {
  const Instant now = ways_.clock();
  return respond_to_write(
      request,
      {.dressing = [&](const std::string& field,
                       const std::string& body) { return told_->take_dressing(field, body, now); },
       .report = [&](const std::string& field,
                     const std::string& body) { return told_->take_report(field, body, now); },
       .seen = [&](const std::string& alert,
                   const std::string& body) { return take_seen(alert, body); }});
} catch (const StoreError& error) {
  spdlog::error("not kept what was told: {}", error.what());
  return json_refusal(503, "it cannot be kept just now; tell it again in a minute");
}

Response Engine::respond(const Request& request) {
  if (is_write(request)) return take(request);
  return gley::daemon::respond(request, *board_, sources());
}

}  // namespace gley::daemon
