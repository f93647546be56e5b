#pragma once
#include <set>
#include <string>
#include <vector>

#include "daemon/store/database.hpp"

namespace gley::daemon {

/// The topics on which we have left a retained message, noted in the store: what the configuration
/// no longer names at the next start is withdrawn then.
void keep_retained_note(Database& database, const std::set<std::string>& topics);

/// Of the last run; empty before the first, and where the note is damaged.
[[nodiscard]] std::vector<std::string> noted_as_retained(Database& database);

}  // namespace gley::daemon
