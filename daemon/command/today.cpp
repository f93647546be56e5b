#include <ostream>

#include "daemon/board/pages/board_text.hpp"
#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/engine/outlook/outlook_desk.hpp"
#include "daemon/engine/run/service_note.hpp"
#include "daemon/engine/view/board_view.hpp"
#include "daemon/engine/watch/alert_watch.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/store/schema.hpp"
#include "daemon/store/store_lock.hpp"

namespace gley::daemon {

int today(FarmConfig farm, const TodayOptions& options, const Voice& voice) {
  const Instant now = wall_clock();
  std::optional<ForecastFile> tried;
  if (!options.forecast.empty()) {
    OptionProblems problems(voice.problems);
    tried = forecast_option(options.forecast, farm, now, problems);
    if (!tried) return exit_bad_input;
    if (!farm.forecast) farm.forecast = ForecastConfig{};
  }
  Database database = open_store(farm.store.path, farm.store.durability);
  FarmState state(farm, database);
  OutlookDesk outlook(farm, database, {}, {});
  if (tried) outlook.try_out(std::move(tried->forecast), now);
  state.expect(outlook.expected_today(now));
  state.look(now);
  outlook.look(state, now);
  const AlertWatch alerts(database);
  BoardSnapshot board = board_of(state, alerts.open(), now, outlook.outlook(now));
  board.forecast = outlook.view();
  board.service = noted_service(database);
  if (!StoreLock::is_held(farm.store.path)) {
    board.service.broker_connected = false;
    board.service.broker_message = "the daemon is not running, so no new readings are taken in";
  }
  voice.out << board_text(board);
  return exit_done;
}

}  // namespace gley::daemon
