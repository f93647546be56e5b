#pragma once
#include <toml++/toml.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/farm/settings.hpp"

namespace gley::daemon {

/// What is wrong with the value of a setting, to follow its name: "is 95; it must be ...".
[[nodiscard]] std::optional<std::string> problem_with(const Setting& setting,
                                                      const toml::node& value);

/// What a setting that is missing stands for, with its words if it has some.
[[nodiscard]] std::string wanted_text(const Setting& setting);

/// A value as a message shows it: short, on one line, with quotation marks if it is a text.
[[nodiscard]] std::string value_text(const toml::node& value);

/// "did you mean "clay loam"?" if a candidate is near, else the candidates, if they are few.
[[nodiscard]] std::string suggestion(std::string_view name,
                                     const std::vector<std::string>& candidates);

/// What is wrong with a name that is none of the candidates: "is ...; there is no such crop; ...".
[[nodiscard]] std::string no_such(const std::string& what, const std::string& name,
                                  const std::vector<std::string>& candidates);

/// The texts of a key that holds one or a list of them, each with its line; others are left out.
struct TextAt {
  std::string text;
  std::uint32_t line = 0;
};
[[nodiscard]] std::vector<TextAt> texts_at(const toml::table& table, std::string_view key);

}  // namespace gley::daemon
