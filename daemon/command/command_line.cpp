#include "daemon/command/command_line.hpp"

#include <CLI/CLI.hpp>
#include <iostream>

#include "daemon/command/command.hpp"
#include "daemon/command/plain_stream.hpp"

namespace gley::daemon {

namespace {

void require_config(CLI::App* command, std::filesystem::path& config) {
  command->add_option("--config", config, "The farm's configuration (TOML)")
      ->required()
      ->type_name("FILE");
}

/// One command of the program: its options and what runs when it is chosen.
template <class Options>
struct Command {
  Options options;
  CLI::App* app = nullptr;
};

struct Commands {
  Command<ServeOptions> serve;
  Command<CheckOptions> check;
  Command<TodayOptions> today;
  Command<ReplayOptions> replay;
  Command<LoadOptions> load;
  Command<ExplainOptions> explain;
  Command<DoubtsOptions> doubts;
  Command<AcceptOptions> accept;
  Command<TellOptions> dressing;
  Command<TellOptions> report;
  Command<TellOptions> seen;
  Command<BackupOptions> backup;
};

void add_replay(CLI::App& app, Command<ReplayOptions>& command) {
  command.app =
      app.add_subcommand("replay", "Run past weather through the fields, without a broker");
  require_config(command.app, command.options.config);
  command.app
      ->add_option("--weather", command.options.weather,
                   "Daily weather (CSV); STATION= before it where stations differ")
      ->required()
      ->type_name("[STATION=]FILE");
  command.app->add_option("--out", command.options.out, "Folder for the files written")
      ->required()
      ->type_name("DIR");
  command.app
      ->add_option("--from", command.options.from,
                   "First day written; the days before it are still stepped")
      ->type_name("DATE");
  command.app->add_option("--to", command.options.to, "Last day written")->type_name("DATE");
  command.app->add_option("--field", command.options.fields, "Only this field; may be repeated")
      ->type_name("ID");
}

void add_load(CLI::App& app, Command<LoadOptions>& command) {
  command.app = app.add_subcommand(
      "load",
      "Put a station's past weather into the store, so that a new farm starts from true soil");
  require_config(command.app, command.options.config);
  command.app->add_option("--station", command.options.station, "Whose weather it is")
      ->required()
      ->type_name("ID");
  command.app->add_option("--weather", command.options.weather, "Daily weather (CSV)")
      ->required()
      ->type_name("FILE");
}

void add_explain(CLI::App& app, Command<ExplainOptions>& command) {
  command.app = app.add_subcommand(
      "explain", "Print a field's day, every number with its inputs, equation and source");
  require_config(command.app, command.options.config);
  command.app->add_option("--field", command.options.field, "Which field")
      ->required()
      ->type_name("ID");
  command.app->add_option("--date", command.options.date, "Which day; today is taken so far")
      ->required()
      ->type_name("DATE");
  command.app
      ->add_option("--weather", command.options.weather,
                   "Daily weather (CSV) instead of the store's; STATION= before it where stations "
                   "differ")
      ->type_name("[STATION=]FILE");
}

void add_doubts(CLI::App& app, Command<DoubtsOptions>& command) {
  command.app = app.add_subcommand(
      "doubts", "List the values that quality checks doubt, why, and what to do about them");
  require_config(command.app, command.options.config);
  command.app->add_option("--from", command.options.from, "First day listed")->type_name("DATE");
}

void add_accept(CLI::App& app, Command<AcceptOptions>& command) {
  command.app = app.add_subcommand(
      "accept", "Say that what a station measured is right although it is doubted");
  require_config(command.app, command.options.config);
  command.app->add_option("--station", command.options.station, "Whose values")
      ->required()
      ->type_name("ID");
  command.app->add_option("--quantity", command.options.quantity, "rain, temperature, humidity ...")
      ->required()
      ->type_name("WORD");
  command.app->add_option("--from", command.options.from, "First farm day")
      ->required()
      ->type_name("DATE");
  command.app->add_option("--to", command.options.to, "Last farm day; default: the first")
      ->type_name("DATE");
}

void add_who_and_when(Command<TellOptions>& command) {
  command.app
      ->add_option("--time", command.options.time,
                   "When, such as 2026-03-20T09:30:00Z; now unless given")
      ->type_name("TIME");
  command.app->add_option("--by", command.options.by, "Who tells it")->type_name("NAME");
}

void add_dressing(CLI::App& app, Command<TellOptions>& command) {
  command.app = app.add_subcommand(
      "dressing", "Tell that a material was spread; a running daemon takes it up by itself");
  require_config(command.app, command.options.config);
  command.app->add_option("--field", command.options.field, "On which field")
      ->required()
      ->type_name("ID");
  command.app->add_option("--material", command.options.material, "What was spread")
      ->required()
      ->type_name("ID");
  command.app
      ->add_option("--rate", command.options.rate,
                   "How much: kg/ha of fertiliser, m3/ha of slurry, t/ha of solid manure, l/ha of "
                   "spray")
      ->required()
      ->type_name("NUMBER");
  add_who_and_when(command);
}

void add_report(CLI::App& app, Command<TellOptions>& command) {
  command.app = app.add_subcommand(
      "report", "Tell what was done or seen on a field; a running daemon takes it up by itself");
  require_config(command.app, command.options.config);
  command.app->add_option("--field", command.options.field, "On which field")
      ->required()
      ->type_name("ID");
  command.app
      ->add_option("--report", command.options.report, "'drove', 'left ruts' or 'drains running'")
      ->required()
      ->type_name("WORDS");
  command.app->add_option("--machine", command.options.machine, "Which machine drove")
      ->type_name("ID");
  add_who_and_when(command);
}

void add_seen(CLI::App& app, Command<TellOptions>& command) {
  command.app = app.add_subcommand("seen", "Tell that someone has seen an alert");
  require_config(command.app, command.options.config);
  command.app->add_option("--alert", command.options.alert, "Which alert")
      ->required()
      ->type_name("ID");
  command.app->add_option("--by", command.options.by, "Who has seen it")
      ->required()
      ->type_name("NAME");
}

void add_commands(CLI::App& app, Commands& commands) {
  commands.serve.app = app.add_subcommand("serve", "Run the daemon");
  require_config(commands.serve.app, commands.serve.options.config);
  commands.serve.app
      ->add_option("--log-level", commands.serve.options.log_level, "How much the log tells")
      ->check(CLI::IsMember({"debug", "info", "warn", "error"}))
      ->capture_default_str();
  commands.serve.app
      ->add_option("--forecast", commands.serve.options.forecast,
                   "Take a forecast from a file at the start, as if it had just come")
      ->type_name("FILE");
  commands.check.app =
      app.add_subcommand("check", "Read the configuration and name every problem in it");
  require_config(commands.check.app, commands.check.options.config);
  commands.today.app = app.add_subcommand("today", "Print the board");
  require_config(commands.today.app, commands.today.options.config);
  commands.today.app
      ->add_option("--forecast", commands.today.options.forecast,
                   "Try out a forecast (CoverageJSON or SenML); the store keeps its own")
      ->type_name("FILE");
  add_replay(app, commands.replay);
  add_load(app, commands.load);
  add_explain(app, commands.explain);
  add_doubts(app, commands.doubts);
  add_accept(app, commands.accept);
  add_dressing(app, commands.dressing);
  add_report(app, commands.report);
  add_seen(app, commands.seen);
  commands.backup.app =
      app.add_subcommand("backup", "Copy the store while the daemon runs, whole and consistent");
  require_config(commands.backup.app, commands.backup.options.config);
  commands.backup.app->add_option("--to", commands.backup.options.to, "Where the copy goes")
      ->required()
      ->type_name("FILE");
}

int run_chosen(const Commands& commands, const Voice& voice) {
  if (commands.serve.app->parsed()) return serve(commands.serve.options, voice);
  if (commands.check.app->parsed()) return check(commands.check.options, voice);
  if (commands.today.app->parsed()) return today(commands.today.options, voice);
  if (commands.replay.app->parsed()) return replay(commands.replay.options, voice);
  if (commands.explain.app->parsed()) return explain(commands.explain.options, voice);
  if (commands.doubts.app->parsed()) return doubts(commands.doubts.options, voice);
  if (commands.accept.app->parsed()) return accept(commands.accept.options, voice);
  if (commands.load.app->parsed()) return load(commands.load.options, voice);
  if (commands.dressing.app->parsed()) return tell_dressing(commands.dressing.options, voice);
  if (commands.report.app->parsed()) return tell_report(commands.report.options, voice);
  if (commands.seen.app->parsed()) return tell_seen(commands.seen.options, voice);
  return backup(commands.backup.options, voice);
}

constexpr const char* program_help =
    "Which fields carry which machine today, which to leave alone, and until when.";

OptionWords words_of(const CLI::Option& option) {
  OptionWords words;
  words.name = "--" + option.get_lnames().front();
  words.value = option.get_type_name();
  // Of a choice only the words: TEXT:{debug,info}
  if (const auto choice = words.value.find(":{"); choice != std::string::npos)
    words.value.erase(0, choice + 1);
  words.help = option.get_description();
  words.default_text = option.get_default_str();
  words.required = option.get_required();
  return words;
}

}  // namespace

ProgramWords program_words() {
  CLI::App app{program_help};
  Commands commands;
  add_commands(app, commands);
  ProgramWords words{.help = program_help, .commands = {}};
  for (const CLI::App* command : app.get_subcommands({})) {
    CommandWords one{
        .name = command->get_name(), .help = command->get_description(), .options = {}};
    for (const CLI::Option* option : command->get_options())
      if (option != command->get_help_ptr()) one.options.push_back(words_of(*option));
    words.commands.push_back(std::move(one));
  }
  return words;
}

int run_command_line(int argc, char** argv) {
  CLI::App app{program_help};
  app.set_version_flag("--version", "gleyd " GLEY_VERSION);
  app.require_subcommand(1);
  Commands commands;
  add_commands(app, commands);
  PlainStream out(std::cout);
  PlainStream problems(std::cerr);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // Help and version are no errors; any other is bad input.
    return app.exit(error, out, problems) == 0 ? exit_done : exit_bad_input;
  }
  try {
    return run_chosen(commands, {out, problems});
  } catch (const std::exception& error) {
    problems << "gleyd: " << error.what() << '\n';
    return exit_failed;
  }
}

}  // namespace gley::daemon
