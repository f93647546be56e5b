#pragma once
#include <string>
#include <vector>

namespace gley::daemon {

/// Reads the arguments and runs the command they name. Returns the exit code.
int run_command_line(int argc, char** argv);

struct OptionWords {
  std::string name;   ///< "--config"
  std::string value;  ///< "FILE"; empty for a flag
  std::string help;
  std::string default_text;
  bool required = false;
};

struct CommandWords {
  std::string name;
  std::string help;
  std::vector<OptionWords> options;
};

/// What the program and its commands say of themselves: the manual is made from it.
struct ProgramWords {
  std::string help;
  std::vector<CommandWords> commands;
};
[[nodiscard]] ProgramWords program_words();

}  // namespace gley::daemon
