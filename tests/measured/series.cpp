#include "tests/measured/series.hpp"

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include "daemon/text/csv_rows.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::measured {

namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error(file.string() + ": cannot be read");
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

Table::Table(const std::filesystem::path& file) {
  const std::vector<daemon::CsvRow> rows = daemon::csv_rows(text_of(file));
  if (rows.empty() || rows[0].cells.at(0) != "date")
    throw std::runtime_error(file.string() + ":1: the first column is not 'date'");
  const std::vector<std::string>& names = rows[0].cells;
  for (std::size_t c = 1; c < names.size(); ++c) columns_[names[c]];
  for (std::size_t r = 1; r < rows.size(); ++r) {
    const auto& [line, cells] = rows[r];
    const auto fail = [&, at = line](const std::string& what) {
      throw std::runtime_error(file.string() + ":" + std::to_string(at) + ": " + what);
    };
    if (cells.size() != names.size()) fail("not as many cells as the header");
    const auto date = daemon::date_from(cells[0]);
    if (!date) fail("no date: " + cells[0]);
    dates_.push_back(*date);
    for (std::size_t c = 1; c < cells.size(); ++c) {
      if (cells[c].empty()) continue;
      const auto value = daemon::number_from(cells[c]);
      if (!value) fail("no number in " + names[c] + ": " + cells[c]);
      columns_[names[c]].emplace(*date, *value);
    }
  }
}

const Series& Table::column(const std::string& name) const {
  return columns_.at(name);
}

std::optional<double> Table::at(const std::string& name, Date date) const {
  const auto column = columns_.find(name);
  if (column == columns_.end()) return {};
  const auto value = column->second.find(date);
  return value == column->second.end() ? std::nullopt : std::optional(value->second);
}

std::optional<std::filesystem::path> shared_file(const std::string& name) {
  const char* given = std::getenv("GLEY_SHARED_DATA");
  const std::filesystem::path folder =
      given != nullptr && *given != '\0'
          ? std::filesystem::path(given)
          : std::filesystem::path(GLEY_SOURCE_DIR) / "../shared/data";
  const std::filesystem::path file = folder / name;
  if (std::filesystem::exists(file)) return file;
  const char* demanded = std::getenv("GLEY_DEMAND_DATA");
  if (demanded != nullptr && std::string(demanded) == "1")
    throw std::runtime_error("GLEY_DEMAND_DATA is 1, but there is no " + file.string());
  std::cout << "Not run: " << name << " is not there (GLEY_SHARED_DATA names its folder)\n";
  return {};
}

}  // namespace gley::measured
