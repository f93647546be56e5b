#include <spdlog/spdlog.h>

#include <csignal>

#include "daemon/board/http/http_server.hpp"
#include "daemon/command/command.hpp"
#include "daemon/command/log_form.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/command/resource_limits.hpp"
#include "daemon/engine/run/service.hpp"
#include "daemon/readings/wall_clock.hpp"

namespace gley::daemon {

namespace {

/// Stops on SIGINT and SIGTERM, reloads on SIGHUP.
void listen_for_signals(boost::asio::signal_set& signals, Service& service,
                        boost::asio::io_context& context) {
  signals.async_wait([&](const boost::system::error_code& error, int signal) {
    if (error) return;
    if (signal != SIGHUP) {
      spdlog::info("stopping");
      context.stop();
      return;
    }
    service.reload();
    listen_for_signals(signals, service, context);
  });
}

}  // namespace

int serve(FarmConfig farm, const ServeOptions& options, const Voice& voice) {
  std::string forecast;
  if (!options.forecast.empty()) {
    OptionProblems problems(voice.problems);
    if (!farm.forecast) problems.add("--forecast: the configuration has no [forecast]; add it");
    const auto tried = forecast_option(options.forecast, farm, wall_clock(), problems);
    if (problems.any() || !tried) return exit_bad_input;
    forecast = tried->text;
  }
  boost::asio::io_context context(1);
  // From here on a reload waits for the start to be done; an end need not.
  boost::asio::signal_set signals(context, SIGHUP);
  set_up_log(options.log_level);
  spdlog::info("gleyd {}: {}, {} fields", GLEY_VERSION, farm.name, farm.fields.size());
  see_to_open_files(HttpLimits{}.connections);
  end_when_out_of_memory();
  Service service(context, std::move(farm), options.config, forecast);
  signals.add(SIGINT);
  signals.add(SIGTERM);
  listen_for_signals(signals, service, context);
  context.run();
  return exit_done;
}

}  // namespace gley::daemon
