#pragma once
#include <chrono>
#include <cstddef>
#include <map>
#include <string>

namespace gley::daemon {

/// What one address may take of the server, so that one cannot take it all.
struct CallerLimits {
  std::size_t connections = 64;
  /// Its answers may have kept the server's thread busy for so long, and then for this share of
  /// the time: counting work and not requests spares displays, whose pages are quickly made.
  std::chrono::duration<double> work_at_once{2.0};
  double work_share = 0.25;
  std::size_t wrong_tokens = 10;  ///< within `forgotten_after`; then no write until that is over
  std::chrono::seconds forgotten_after{60};
  std::size_t addresses = 1024;  ///< remembered apart; those beyond are counted as one
  /// Connections and work of this machine's own programs are not limited: they could do worse,
  /// and a proxy among them speaks for many. Their wrong tokens are.
  bool spares_this_machine = true;
};

/// Those that ask, by address: an IPv6 one stands for its /64, of which one machine has plenty.
class Callers {
 public:
  using Time = std::chrono::steady_clock::time_point;

  explicit Callers(CallerLimits limits = {}) : limits_(limits) {}

  [[nodiscard]] bool may_connect(const std::string& address) const;
  void connected(const std::string& address, Time now);
  void left(const std::string& address);

  void worked(const std::string& address, std::chrono::duration<double> time, Time now);
  /// How long it must wait until it is answered again; 0: not at all.
  [[nodiscard]] std::chrono::seconds rest(const std::string& address, Time now) const;

  /// True for the one that is the last let through.
  bool brought_wrong_token(const std::string& address, Time now);
  /// How long no token of its will be looked at; 0: it will be.
  [[nodiscard]] std::chrono::seconds token_rest(const std::string& address, Time now) const;

  /// True once in `forgotten_after` for an address: the log is not its to fill.
  bool worth_naming(const std::string& address, Time now);

  [[nodiscard]] std::size_t remembered() const { return callers_.size(); }

 private:
  struct Caller {
    std::size_t connections = 0;
    std::chrono::duration<double> work{};
    Time worked_at{};
    std::size_t wrong_tokens = 0;
    Time first_wrong_at{};
    Time named_at{};
    Time last_at{};
  };

  Caller& at(const std::string& address, Time now);
  [[nodiscard]] const Caller* find(const std::string& address) const;
  [[nodiscard]] bool is_spared(const std::string& address) const;
  [[nodiscard]] std::chrono::duration<double> work_of(const Caller& caller, Time now) const;
  void forget_old(Time now);

  CallerLimits limits_;
  std::map<std::string, Caller> callers_;
};

/// The address that a caller is counted under: IPv4 as it is, mapped into IPv6 or not; IPv6 by its
/// /64; what is no address, as it is.
[[nodiscard]] std::string caller_address(const std::string& peer);

}  // namespace gley::daemon
