#include <catch2/catch.hpp>

#include "daemon/command/command_line.hpp"
#include "daemon/farm/settings.hpp"
#include "daemon/manual/pages.hpp"
#include "daemon/manual/roff.hpp"

namespace gley::daemon {
namespace {

bool has_line(const std::string& page, const std::string& begin) {
  return page.find('\n' + begin) != std::string::npos;
}

TEST_CASE("the manual of the settings names every key with its help") {
  const std::string page = settings_page("2026-11-25");
  for (const SettingsTable& table : all_settings())
    for (const Setting& setting : table.settings) {
      INFO(table.name << " " << setting.key);
      const bool is_table = setting.type == ValueType::table || setting.type == ValueType::tables;
      if (!is_table) CHECK(has_line(page, ".BR \"" + std::string(setting.key) + "\" "));
      const std::string first = sentence(setting.help).substr(0, setting.help.find(". "));
      CHECK(page.find(roff_text(first)) != std::string::npos);
    }
}

TEST_CASE("the manual of the program names every command and option") {
  const std::string page = program_page("2026-11-25");
  const ProgramWords program = program_words();
  // The commands of the design's command line.
  REQUIRE(program.commands.size() >= 7);
  for (const CommandWords& command : program.commands) {
    CHECK(has_line(page, ".SS \"gleyd " + command.name + "\""));
    for (const OptionWords& option : command.options)
      CHECK(has_line(page, ".BR \"" + roff_text(option.name)));
  }
}

TEST_CASE("what roff would take for a request or an escape is printed as it stands") {
  // groff(7): a control character begins a line, a backslash an escape; \- is a minus.
  CHECK(roff_text(".so /etc/passwd\n'br\na.b") == "\\&.so /etc/passwd\n\\&'br\na.b");
  CHECK(roff_text("a\\fBb --c ~^") == "a\\efBb \\-\\-c \\(ti\\(ha");
}

}  // namespace
}  // namespace gley::daemon
