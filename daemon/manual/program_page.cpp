#include "daemon/command/command_line.hpp"
#include "daemon/manual/pages.hpp"
#include "daemon/manual/roff.hpp"

namespace gley::daemon {

namespace {

std::string usage_of(const CommandWords& command) {
  std::string usage = "gleyd " + command.name;
  for (const OptionWords& option : command.options) {
    std::string one = option.name + (option.value.empty() ? "" : " " + option.value);
    usage += option.required ? " " + one : " [" + one + "]";
  }
  return usage;
}

void write_commands(ManualPage& page, const ProgramWords& program) {
  page.section("COMMANDS")
      .paragraph("Each command explains itself with --help; gleyd --version names the version.");
  for (const CommandWords& command : program.commands) {
    page.subsection("gleyd " + command.name);
    page.paragraph(sentence(command.help));
    for (const OptionWords& option : command.options) {
      std::string help = option.help;
      if (!option.default_text.empty()) help += " (default: " + option.default_text + ")";
      page.entry(option.name, option.value, sentence(help));
    }
  }
}

void write_surroundings(ManualPage& page) {
  page.section("EXIT STATUS")
      .entry("0", "", "Done.")
      .entry("1", "", "Failed: what was asked is in order, but could not be done.")
      .entry("2", "",
             "Bad input: the command line, the configuration or a weather file. "
             "Each problem is named with its file and line.");
  page.section("SIGNALS")
      .entry("SIGHUP", "",
             "gleyd serve reads its configuration again; a faulty one is named in the log, and the "
             "one of before stays.")
      .entry("SIGTERM, SIGINT", "",
             "gleyd serve says goodbye to the broker and ends. Nothing is lost by a harder end.");
  page.section("ENVIRONMENT")
      .entry("CREDENTIALS_DIRECTORY", "",
             "Set by systemd where a unit has LoadCredential=; the configuration may name files in "
             "it, see gley.toml(5).")
      .entry("NOTIFY_SOCKET, JOURNAL_STREAM", "",
             "Set by systemd: who is told of start, reload and progress, and that the log goes to "
             "the journal, with priorities instead of times.");
  page.section("FILES")
      .entry("/etc/gley/farm.toml", "", "The configuration that the service reads.")
      .entry("/etc/default/gleyd", "", "Further options for the service.")
      .entry("/var/lib/gley/", "",
             "The service's store, unless the configuration names another. It belongs to the user "
             "gleyd: commands that read or write it are run as that user, after sudo -u gleyd.")
      .entry("/usr/share/doc/gleyd/", "", "An example of every setting, and a whole farm.");
}

}  // namespace

std::string program_page(std::string_view date) {
  const ProgramWords program = program_words();
  ManualPage page({.title = "GLEYD",
                   .section = "1",
                   .date = date,
                   .what = "gleyd - soil water and trafficability of a farm's fields"});
  page.section("SYNOPSIS");
  std::string synopsis;
  for (const CommandWords& command : program.commands) synopsis += usage_of(command) + '\n';
  page.example(synopsis);
  page.section("DESCRIPTION")
      .paragraph(program.help)
      .paragraph(
          "gleyd listens to weather readings on MQTT, keeps the water in every field's soil day by "
          "day by the method of FAO Irrigation and Drainage Paper 56, looks ahead with the "
          "forecast, and says per field how wet it is, which machine it carries, whether to hold "
          "fertiliser, slurry or sprays, and until when: on MQTT, on a web page and in the "
          "terminal.")
      .paragraph(
          "This is advice, worked out from weather and a description of the soil. Local codes and "
          "product labels decide.");
  write_commands(page, program);
  write_surroundings(page);
  page.section("SEE ALSO").paragraph("gley.toml(5), mosquitto(8), systemctl(1), journalctl(1)");
  return std::move(page).text();
}

}  // namespace gley::daemon
