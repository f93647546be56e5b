#include "daemon/command/command_line.hpp"

int main(int argc, char** argv) {
  return gley::daemon::run_command_line(argc, argv);
}
