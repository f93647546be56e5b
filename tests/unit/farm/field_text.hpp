#pragma once
#include <string>

#include "tests/unit/farm/config_fixture.hpp"

/// The least farm with something else in its field, and what is said of it.
namespace gley::test {

/// The least farm with other soil (line 14), other crop (line 15), or keys after it (line 16).
inline std::string soil(const std::string& value) {
  return with(least_farm(), "\"clay loam\"", value);
}
inline std::string crop(const std::string& value) {
  return with(least_farm(), "\"grass\"", value);
}
inline std::string keys(const std::string& lines) {
  return crop("\"grass\"\n" + lines);
}
/// The least farm without a crop; sowings from line 15.
inline std::string sowings(const std::string& lines) {
  return with(least_farm(), "crop = \"grass\"\n", lines);
}

inline daemon::FieldConfig field_of(const std::string& text) {
  return farm_of(text).fields.at(0);
}

}  // namespace gley::test
