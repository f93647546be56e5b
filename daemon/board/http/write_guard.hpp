#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "daemon/board/http/http_message.hpp"
#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// Whether a request would change something: any method but GET and HEAD.
[[nodiscard]] bool is_write(const Request& request);

/// Why a write is not let in, judged before what it is about is looked at; nothing if it may pass.
/// token: what a client must bring as a bearer token (RFC 6750); empty: writes are switched off. A
/// page of another origin is refused even with the token.
[[nodiscard]] std::optional<Response> refuse_write(const Request& request, std::string_view token);

/// The first line of the token file; empty if there is none. Throws std::runtime_error for a file
/// that cannot be read or holds no token.
[[nodiscard]] std::string write_token(const HttpConfig& http);

/// Whether two texts are the same, in a time that does not tell where they differ.
[[nodiscard]] bool same_secret(std::string_view given, std::string_view wanted);

/// {"error": "..."} with a status.
[[nodiscard]] Response json_refusal(int status, const std::string& error);

}  // namespace gley::daemon
