#include "daemon/farm/config_files.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>
#include <system_error>

#include "daemon/farm/toml_slip.hpp"
#include "daemon/farm/value_check.hpp"

namespace gley::daemon {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t largest_file_bytes = 16U << 20U;  // a region's fields are about 2 MiB

std::string error_text(int error) {
  return std::generic_category().message(error);
}

/// A line of a text, counted from 1; empty behind its end.
std::string_view line_of(std::string_view text, std::uint32_t number) {
  for (; number > 1; --number) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  return text.substr(0, text.find('\n'));
}

class FileLoader {
 public:
  explicit FileLoader(ProblemList& problems) : problems_(problems) {}

  ConfigFiles take() { return std::move(result_); }

  /// `from` is where the file was asked for: its own first line, or the include.
  void load(const fs::path& path, const FilePlace& from) {
    const fs::path file = path.lexically_normal();
    if (already_read(file, from)) return;
    result_.names.push_back(file.string());
    const auto text = read(file, from);
    if (!text) return;
    auto table = parse(file.string(), *text);
    if (!table) return;
    result_.files.push_back({.name = file.string(),
                             .directory = file.parent_path(),
                             .text = *text,
                             .table = std::move(*table)});
    include_all(result_.files.size() - 1);
  }

 private:
  struct Seen {
    fs::path real;
    FilePlace from;
  };

  void fail(const FilePlace& place, std::string message) {
    problems_.add(place, std::move(message));
    result_.complete = false;
  }

  bool already_read(const fs::path& file, const FilePlace& from) {
    std::error_code ignored;
    const fs::path real = fs::weakly_canonical(file, ignored);
    const auto seen = std::find_if(seen_.begin(), seen_.end(),
                                   [&real](const Seen& other) { return other.real == real; });
    if (seen == seen_.end()) {
      seen_.push_back({.real = real, .from = from});
      return false;
    }
    const bool by_itself = std::find(open_.begin(), open_.end(), real) != open_.end();
    problems_.add(from, by_itself ? "include of " + file.string() +
                                        ", which includes this file; remove one include"
                                  : file.string() + " is included twice, first at " +
                                        place_text(seen->from) + "; remove one include");
    return true;
  }

  std::optional<std::string> read(const fs::path& file, const FilePlace& from) {
    std::error_code error;
    const auto status = fs::status(file, error);
    if (!fs::exists(status)) {
      fail(from,
           "cannot read " + file.string() + ": " + error_text(error ? error.value() : ENOENT));
      return std::nullopt;
    }
    if (!fs::is_regular_file(status)) {
      fail(from, "cannot read " + file.string() + ": not a file");
      return std::nullopt;
    }
    if (fs::file_size(file, error) > largest_file_bytes) {
      fail(from, file.string() + " is over 16 MiB; split it with include");
      return std::nullopt;
    }
    errno = 0;
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream.is_open() || stream.bad()) {
      fail(from, "cannot read " + file.string() + ": " + error_text(errno));
      return std::nullopt;
    }
    return std::move(text).str();
  }

  std::optional<toml::table> parse(const std::string& name, const std::string& text) {
    try {
      return toml::parse(std::string_view(text), std::string_view(name));
    } catch (const toml::parse_error& error) {
      const auto line = error.source().begin.line;
      const auto slip = slip_in(line_of(text, line));
      const std::string said(error.description());
      fail({.file = name, .line = line},
           "not valid TOML: " + (slip ? *slip + " (" + said + ")" : said));
      return std::nullopt;
    }
  }

  void include_all(std::size_t index) {
    // Copies: loading further files moves the list.
    const std::vector<TextAt> includes = texts_at(result_.files[index].table, "include");
    const std::string name = result_.files[index].name;
    const fs::path directory = result_.files[index].directory;
    open_.push_back(seen_.back().real);
    for (const auto& [path, line] : includes) {
      load(directory / path, {.file = name, .line = line});
    }
    open_.pop_back();
  }

  ProblemList& problems_;
  ConfigFiles result_;
  std::vector<Seen> seen_;
  std::vector<fs::path> open_;
};

}  // namespace

ConfigFiles load_config_files(const fs::path& first, ProblemList& problems) {
  FileLoader loader(problems);
  loader.load(first, {.file = first.lexically_normal().string(), .line = 1});
  return loader.take();
}

}  // namespace gley::daemon
