#include "daemon/command/log_form.hpp"

#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cstdlib>

#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

/// Names what standard output or error of a service is connected to (systemd.exec(5)): only when it
/// is ours do the lines reach the journal, and not a file or a pipe they were led to instead.
bool stderr_is_the_journal() {
  const char* stream = std::getenv("JOURNAL_STREAM");
  struct stat ours {};
  if (stream == nullptr || ::fstat(STDERR_FILENO, &ours) != 0) return false;
  return std::to_string(ours.st_dev) + ":" + std::to_string(ours.st_ino) == stream;
}

/// The numbers of syslog(3): 7 debug, 6 information, 4 warning, 3 error, 2 critical.
char priority_of(spdlog::level::level_enum level) {
  constexpr std::array<char, 7> digits{'7', '7', '6', '4', '3', '2', '6'};
  return digits.at(static_cast<std::size_t>(level));
}

std::string_view text_of(const spdlog::details::log_msg& message) {
  return {message.payload.data(), message.payload.size()};
}

class OneLine final : public spdlog::custom_flag_formatter {
 public:
  void format(const spdlog::details::log_msg& message, const std::tm&,
              spdlog::memory_buf_t& out) override {
    const std::string text = printable(text_of(message));
    out.append(text.data(), text.data() + text.size());
  }
  [[nodiscard]] std::unique_ptr<custom_flag_formatter> clone() const override {
    return std::make_unique<OneLine>();
  }
};

class Priority final : public spdlog::custom_flag_formatter {
 public:
  void format(const spdlog::details::log_msg& message, const std::tm&,
              spdlog::memory_buf_t& out) override {
    const std::array prefix{'<', priority_of(message.level), '>'};
    out.append(prefix.data(), prefix.data() + prefix.size());
  }
  [[nodiscard]] std::unique_ptr<custom_flag_formatter> clone() const override {
    return std::make_unique<Priority>();
  }
};

}  // namespace

void set_up_log(const std::string& level) {
  auto form = std::make_unique<spdlog::pattern_formatter>(spdlog::pattern_time_type::utc);
  form->add_flag<Priority>('P').add_flag<OneLine>('*');
  form->set_pattern(stderr_is_the_journal() ? "%P%*" : "%Y-%m-%dT%H:%M:%S.%eZ %l %*");
  spdlog::set_default_logger(spdlog::stderr_logger_mt("gleyd"));
  spdlog::set_formatter(std::move(form));
  spdlog::set_level(spdlog::level::from_str(level));
  spdlog::flush_on(spdlog::level::info);
}

}  // namespace gley::daemon
