#include "daemon/command/command_line.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <functional>
#include <iostream>
#include <memory>
#include <optional>

#include "daemon/command/command.hpp"
#include "daemon/command/plain_stream.hpp"
#include "daemon/farm/config_reader.hpp"
#include "daemon/text/nearest_name.hpp"

namespace gley::daemon {

namespace {

/// On problems says each as file:line: message and returns nothing.
std::optional<FarmConfig> farm_or_problems(const std::filesystem::path& config,
                                           const Voice& voice) {
  ConfigResult result = read_config(config);
  for (const ConfigProblem& problem : result.problems) voice.problems << problem.to_line() << '\n';
  return std::move(result.farm);
}

/// The commands of the program: what each is called, its options, and what runs when it is chosen.
class Commands {
 public:
  explicit Commands(CLI::App& app) : app_(app) { add_all(); }

  /// Of the command that the arguments named.
  [[nodiscard]] int run_chosen(const Voice& voice) const { return chosen_(voice); }

 private:
  /// A command in the making.
  template <class Options>
  struct Command {
    CLI::App& app;
    Options& options;  ///< what its arguments are read into

    template <class Value>
    CLI::Option* option(const char* name, Value& value, const char* help, const char* type) {
      return app.add_option(name, value, help)->type_name(type);
    }
  };

  /// All commands read the configuration.
  template <class Farm, class Options>
  Command<Options> add(const char* name, const char* help,
                       int (*run)(Farm, const Options&, const Voice&)) {
    const auto options = std::make_shared<Options>();
    CLI::App* app = app_.add_subcommand(name, help);
    app->callback([this, options, run] {
      chosen_ = [options, run](const Voice& voice) {
        auto farm = farm_or_problems(options->config, voice);
        return farm ? run(*std::move(farm), *options, voice) : exit_bad_input;
      };
    });
    Command<Options> command{*app, *options};
    command.option("--config", options->config, "The farm's configuration (TOML)", "FILE")
        ->required();
    return command;
  }

  void add_all() {
    add_serve();
    add("check", "Read the configuration and name every problem in it", check);
    add_today();
    add_replay();
    add_load();
    add_explain();
    add_doubts();
    add_accept();
    add_dressing();
    add_report();
    add_seen();
    add_backup();
  }

  void add_serve() {
    auto command = add("serve", "Run the daemon", serve);
    command.app.add_option("--log-level", command.options.log_level, "How much the log tells")
        ->check(CLI::IsMember({"debug", "info", "warn", "error"}))
        ->capture_default_str();
    command.option("--forecast", command.options.forecast,
                   "Take a forecast from a file at the start, as if it had just come", "FILE");
  }

  void add_today() {
    auto command = add("today", "Print the board", today);
    command.option("--forecast", command.options.forecast,
                   "Try out a forecast (CoverageJSON or SenML); the store keeps its own", "FILE");
  }

  void add_replay() {
    auto command = add("replay", "Run past weather through the fields, without a broker", replay);
    command
        .option("--weather", command.options.weather,
                "Daily weather (CSV); STATION= before it where stations differ", "[STATION=]FILE")
        ->required();
    command.option("--out", command.options.out, "Folder for the files written", "DIR")->required();
    command.option("--from", command.options.from,
                   "First day written; the days before it are still stepped", "DATE");
    command.option("--to", command.options.to, "Last day written", "DATE");
    command.option("--field", command.options.fields, "Only this field; may be repeated", "ID");
  }

  void add_load() {
    auto command =
        add("load",
            "Put a station's past weather into the store, so that a new farm starts from true soil",
            load);
    command.option("--station", command.options.station, "Whose weather it is", "ID")->required();
    command.option("--weather", command.options.weather, "Daily weather (CSV)", "FILE")->required();
  }

  void add_explain() {
    auto command =
        add("explain", "Print a field's day, every number with its inputs, equation and source",
            explain);
    command.option("--field", command.options.field, "Which field", "ID")->required();
    command.option("--date", command.options.date, "Which day; today is taken so far", "DATE")
        ->required();
    command.option("--weather", command.options.weather,
                   "Daily weather (CSV) instead of the store's; STATION= before it where stations "
                   "differ",
                   "[STATION=]FILE");
  }

  void add_doubts() {
    auto command =
        add("doubts", "List the values that quality checks doubt, why, and what to do about them",
            doubts);
    command.option("--from", command.options.from, "First day listed", "DATE");
  }

  void add_accept() {
    auto command =
        add("accept", "Say that what a station measured is right although it is doubted", accept);
    command.option("--station", command.options.station, "Whose values", "ID")->required();
    command
        .option("--quantity", command.options.quantity,
                "rain, temperature, humidity or another that is measured", "WORD")
        ->required();
    command.option("--from", command.options.from, "First farm day", "DATE")->required();
    command.option("--to", command.options.to, "Last farm day; default: the first", "DATE");
  }

  static void add_who_and_when(Command<TellOptions>& command) {
    command.option("--time", command.options.time,
                   "When, such as 2026-03-20T09:30:00Z; now unless given", "TIME");
    command.option("--by", command.options.by, "Who tells it", "NAME");
  }

  void add_dressing() {
    auto command =
        add("dressing", "Tell that a material was spread; a running daemon takes it up by itself",
            tell_dressing);
    command.option("--field", command.options.field, "On which field", "ID")->required();
    command.option("--material", command.options.material, "What was spread", "ID")->required();
    command
        .option("--rate", command.options.rate,
                "How much: kg/ha of fertiliser, m3/ha of slurry, t/ha of solid manure, l/ha of "
                "spray",
                "NUMBER")
        ->required();
    add_who_and_when(command);
  }

  void add_report() {
    auto command = add(
        "report", "Tell what was done or seen on a field; a running daemon takes it up by itself",
        tell_report);
    command.option("--field", command.options.field, "On which field", "ID")->required();
    command
        .option("--report", command.options.report, "'drove', 'left ruts' or 'drains running'",
                "WORDS")
        ->required();
    command.option("--machine", command.options.machine, "Which machine drove", "ID");
    add_who_and_when(command);
  }

  void add_seen() {
    auto command = add("seen", "Tell that someone has seen an alert", tell_seen);
    command.option("--alert", command.options.alert, "Which alert", "ID")->required();
    command.option("--by", command.options.by, "Who has seen it", "NAME")->required();
  }

  void add_backup() {
    auto command =
        add("backup", "Copy the store while the daemon runs, whole and consistent", backup);
    command.option("--to", command.options.to, "Where the copy goes", "FILE")->required();
  }

  CLI::App& app_;
  std::function<int(const Voice&)> chosen_;
};

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

/// The library says of a misspelt command only that one is required.
std::optional<std::string> unknown_command(const CLI::App& app) {
  if (!app.get_subcommands().empty()) return {};
  const std::vector<std::string> rest = app.remaining();
  const auto word = std::find_if(rest.begin(), rest.end(), [](const std::string& argument) {
    return !argument.starts_with('-');
  });
  if (word == rest.end()) return {};
  std::vector<std::string> known;
  for (const CLI::App* command : app.get_subcommands({})) known.push_back(command->get_name());
  const auto near = nearest_name(*word, known);
  return "there is no command '" + *word + "'; " +
         (near ? "did you mean '" + *near + "'?" : "gleyd --help lists them");
}

}  // namespace

ProgramWords program_words() {
  CLI::App app{program_help};
  Commands commands(app);
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
  Commands commands(app);
  PlainStream out(std::cout);
  PlainStream problems(std::cerr);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (const auto unknown = unknown_command(app)) {
      problems << "gleyd: " << *unknown << '\n';
      return exit_bad_input;
    }
    if (error.get_name() == "ConversionError") {
      problems << error.what() << "; a number stands alone, without its unit\n";
      return exit_bad_input;
    }
    // Help and version are no errors; any other is bad input.
    return app.exit(error, out, problems) == 0 ? exit_done : exit_bad_input;
  }
  try {
    return commands.run_chosen({out, problems});
  } catch (const std::exception& error) {
    problems << "gleyd: " << error.what() << '\n';
    return exit_failed;
  }
}

}  // namespace gley::daemon
