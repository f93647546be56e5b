#pragma once
#include <string>
#include <variant>
#include <vector>

namespace gley::daemon {

/// One number or word of a day and how it came about.
struct ExplanationLine {
  std::string key;   ///< for programs; where days.csv has the number, its column
  std::string name;  ///< for people
  std::variant<double, std::string> value;
  std::string unit = {};
  std::string equation = {};  ///< in symbols, then with the day's numbers to five digits
  std::string source = {};    ///< of the equation, or of an input: who measured or chose it
  std::string note = {};
};

struct ExplanationSection {
  std::string title;
  std::vector<ExplanationLine> lines;
};

/// A field's day, every number with its inputs, equation and source, in the order of the model.
struct Explanation {
  std::string field_id;
  std::string field_name;
  std::string farm_name;
  std::string date;
  bool so_far = false;             ///< the day has not ended
  std::vector<std::string> intro;  ///< sentences to read first
  std::vector<ExplanationSection> sections;
};

}  // namespace gley::daemon
