#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

/// Whether a request that names this host can be meant for us. Another site may let its own name
/// point at this machine and then read our pages as if they were its own; it can do so only with a
/// name that public DNS gives out. So an address in numbers is ours, and a name without a dot, and
/// one under .localhost (RFC 6761), .local (RFC 6762), .home.arpa (RFC 8375) or .internal (kept
/// private by ICANN, 2024; from memory), and those listed.
/// host: the Host header, with or without a port; empty, as HTTP/1.0 allows: no browser sends that.
[[nodiscard]] bool answers_to(std::string_view host, const std::vector<std::string>& names);

/// The name that the machine itself goes by; empty if it cannot be had.
[[nodiscard]] std::string machine_name();

}  // namespace gley::daemon
