#pragma once
#include <string>
#include <string_view>

/// The manual pages, made from the tables that the parsers read by. date: of the page's foot.
namespace gley::daemon {

/// gleyd(1)
[[nodiscard]] std::string program_page(std::string_view date);

/// gley.toml(5)
[[nodiscard]] std::string settings_page(std::string_view date);

}  // namespace gley::daemon
