#pragma once
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace gley::published {

using Series = std::vector<double>;

/// What an example starts from, by name; a single number is a series of one.
class Inputs {
 public:
  explicit Inputs(std::map<std::string, Series> values) : values_(std::move(values)) {}
  [[nodiscard]] double operator()(const std::string& name) const { return values_.at(name).at(0); }
  [[nodiscard]] const Series& list(const std::string& name) const { return values_.at(name); }

 private:
  std::map<std::string, Series> values_;
};

/// One printed row or number and the same without rounding.
struct PrintedValue {
  std::string name;
  std::string unit;
  Series printed;
  Series exact;
  double tolerance = 0.0;
  std::vector<bool> print_is_wrong;
};

struct PublishedCheck {
  std::string id;
  std::string what;
  std::string page;
  std::string equations;  ///< joined by ", "
  Inputs inputs;
  std::vector<PrintedValue> values;
};

/// Reads a data file of this folder; throws where it is not as expected.
[[nodiscard]] std::vector<PublishedCheck> read_checks(const std::string& path);

/// What the model gives for an example, by the names of its printed values.
using Results = std::map<std::string, Series>;
using Calculation = std::function<Results(const Inputs&)>;
using Calculations = std::map<std::string, Calculation>;

[[nodiscard]] Calculations fao56_weather();
[[nodiscard]] Calculations fao56_crop();
[[nodiscard]] Calculations fao56_ten_days();

}  // namespace gley::published
