#include "daemon/farm/secret_file.hpp"

#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "tests/scratch_directory.hpp"

using Catch::Matchers::Contains;
using gley::daemon::secret_of;
using gley::tests::ScratchDirectory;

namespace {

std::string secret_in(const std::string& text) {
  const ScratchDirectory directory;
  std::ofstream(directory / "secret", std::ios::binary) << text;
  return secret_of(directory / "secret", "password");
}

/// What the log says while a secret of these rights is read.
std::string logged_of(std::filesystem::perms rights, std::filesystem::perms of_folder) {
  const ScratchDirectory directory;
  std::ofstream(directory / "secret") << "sesame\n";
  std::filesystem::permissions(directory / "secret", rights);
  std::filesystem::permissions(directory / ".", of_folder);
  std::ostringstream log;
  const auto before = spdlog::default_logger();
  spdlog::set_default_logger(std::make_shared<spdlog::logger>(
      "test", std::make_shared<spdlog::sinks::ostream_sink_mt>(log)));
  const std::string secret = secret_of(directory / "secret", "password");
  spdlog::set_default_logger(before);
  CHECK(secret == "sesame");
  return log.str();
}

}  // namespace

TEST_CASE("a secret is the first line of its file, however the line ends") {
  for (const char* text : {"open sesame", "open sesame\n", "open sesame\r\n", "open sesame \n\n",
                           "open sesame\nof the broker\n"}) {
    INFO(text);
    CHECK(secret_in(text) == "open sesame");
  }
}

TEST_CASE("a secret that is empty or cannot be read is no secret") {
  for (const char* text : {"", "\n", "\nsesame\n", " \r\n"}) {
    INFO(text);
    CHECK_THROWS_WITH(secret_in(text), Contains("its first line is empty; it must hold the pass"));
  }
  CHECK_THROWS_WITH(secret_of("/absent/secret", "token"),
                    Contains("/absent/secret: cannot be read"));
}

TEST_CASE("a secret that everybody on the machine may read is warned of") {
  using std::filesystem::perms;
  CHECK_THAT(logged_of(perms{0644}, perms{0755}),
             Contains("everybody on this machine may read the password"));
  CHECK(logged_of(perms{0640}, perms{0755}).empty());
  CHECK(logged_of(perms{0644}, perms{0750}).empty());
}
