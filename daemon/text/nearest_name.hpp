#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

/// The candidate most like a name, for "did you mean". None where all are too unlike to be meant:
/// more than a third of the longer word would have to change (our choice). Case is not counted.
/// Of equally near candidates, the first. Where all are too unlike, the only one of which the name
/// is a word or a beginning, or the other way round.
[[nodiscard]] std::optional<std::string> nearest_name(std::string_view name,
                                                      const std::vector<std::string>& candidates);

}  // namespace gley::daemon
