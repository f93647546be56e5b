#pragma once
#include <chrono>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace gley::measured {

using Date = std::chrono::sys_days;

/// One quantity by date; a missing day has no entry.
using Series = std::map<Date, double>;

/// A CSV file whose first column is `date` and whose other columns hold numbers or nothing.
class Table {
 public:
  /// Throws with file, line and column where the text is not that.
  explicit Table(const std::filesystem::path& file);

  [[nodiscard]] const std::vector<Date>& dates() const { return dates_; }
  /// An unknown column is an error of the test.
  [[nodiscard]] const Series& column(const std::string& name) const;
  [[nodiscard]] std::optional<double> at(const std::string& name, Date date) const;

 private:
  std::vector<Date> dates_;
  std::map<std::string, Series> columns_;
};

/// Where measured data that may not be passed on stand: GLEY_SHARED_DATA, else beside the clone.
/// Empty if there is none. Throws if GLEY_DEMAND_DATA is 1 and there is none.
[[nodiscard]] std::optional<std::filesystem::path> shared_file(const std::string& name);

}  // namespace gley::measured
