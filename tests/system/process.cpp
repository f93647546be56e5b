#include "tests/system/process.hpp"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace gley::tests {
namespace {

[[noreturn]] void fail(const std::string& what) {
  throw std::runtime_error(what + ": " + std::strerror(errno));
}

/// Full path of a program; daemons live in sbin, which a user's PATH may lack.
std::string find_program(const std::string& name) {
  if (name.find('/') != std::string::npos) return name;
  const char* path = std::getenv("PATH");
  std::istringstream places(std::string(path != nullptr ? path : "") + ":/usr/sbin:/sbin");
  for (std::string place; std::getline(places, place, ':');) {
    const std::string candidate = place + "/" + name;
    if (!place.empty() && ::access(candidate.c_str(), X_OK) == 0) return candidate;
  }
  throw std::runtime_error(name + " is not installed");
}

void send_to_file(int descriptor, const std::filesystem::path& file) {
  const int opened = ::open(file.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (opened < 0 || ::dup2(opened, descriptor) < 0) ::_exit(126);
}

sockaddr_in loopback(std::uint16_t port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  address.sin_port = htons(port);
  return address;
}

}  // namespace

Process::Process(std::vector<std::string> argv, Output output) {
  argv.at(0) = find_program(argv.at(0));
  std::vector<char*> arguments;
  for (std::string& argument : argv) arguments.push_back(argument.data());
  arguments.push_back(nullptr);
  pid_ = ::fork();
  if (pid_ < 0) fail("fork");
  if (pid_ == 0) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);  // no broker outlives a test that crashed
    if (output.out) send_to_file(STDOUT_FILENO, *output.out);
    if (output.err) send_to_file(STDERR_FILENO, *output.err);
    for (std::string& variable : output.environment) ::putenv(variable.data());
    ::execv(arguments[0], arguments.data());
    ::_exit(127);
  }
}

Process::~Process() {
  if (!running()) return;
  ::kill(pid_, SIGKILL);
  reap(true);
}

void Process::reap(bool block) {
  int status = 0;
  if (exit_code_ || ::waitpid(pid_, &status, block ? 0 : WNOHANG) != pid_) return;
  exit_code_ = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

bool Process::running() {
  reap(false);
  return !exit_code_;
}

void Process::kill(int signal) {
  if (running()) ::kill(pid_, signal);
}

std::optional<int> Process::wait(std::chrono::milliseconds timeout) {
  if (!eventually(timeout, [this] { return !running(); })) return {};
  return exit_code_;
}

int run(std::vector<std::string> argv, Output output, std::chrono::milliseconds timeout) {
  const std::string name = argv.at(0);
  Process process(std::move(argv), std::move(output));
  const auto code = process.wait(timeout);
  if (!code) throw std::runtime_error(name + " did not end in time");
  return *code;
}

std::uint16_t free_port() {
  const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in address = loopback(0);
  socklen_t size = sizeof(address);
  const bool bound = ::bind(socket, reinterpret_cast<sockaddr*>(&address), size) == 0 &&
                     ::getsockname(socket, reinterpret_cast<sockaddr*>(&address), &size) == 0;
  ::close(socket);
  if (!bound) fail("no free port");
  return ntohs(address.sin_port);
}

bool port_open(std::uint16_t port) {
  const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const sockaddr_in address = loopback(port);
  const bool open =
      ::connect(socket, reinterpret_cast<const sockaddr*>(&address), sizeof(address)) == 0;
  ::close(socket);
  return open;
}

bool eventually(std::chrono::milliseconds timeout, const std::function<bool()>& yes) {
  const auto deadline = std::chrono::steady_clock::now() + timeout;
  while (!yes()) {
    if (std::chrono::steady_clock::now() >= deadline) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return true;
}

std::string read_file(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace gley::tests
