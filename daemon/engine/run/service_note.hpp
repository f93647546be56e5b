#pragma once
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

/// How the running daemon does, left in the store for `gleyd today`, which is a process of its own.
[[nodiscard]] std::string service_note(const ServiceView& service);
void keep_service_note(Database& database, const std::string& note);

/// What the last running daemon left; broker_message says so if none has run yet.
[[nodiscard]] ServiceView noted_service(Database& database);

}  // namespace gley::daemon
