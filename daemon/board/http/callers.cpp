#include "daemon/board/http/callers.hpp"

#include <algorithm>
#include <boost/asio/ip/address.hpp>
#include <cmath>

namespace gley::daemon {

namespace {

/// Stands for all addresses beyond those that are remembered apart.
const std::string the_others = "others";

std::chrono::seconds whole_seconds(std::chrono::duration<double> time) {
  return std::chrono::seconds{static_cast<std::int64_t>(std::ceil(std::max(time.count(), 0.0)))};
}

bool is_this_machine(const std::string& address) {
  boost::system::error_code error;
  const auto parsed = boost::asio::ip::make_address(address, error);
  return !error && parsed.is_loopback();
}

}  // namespace

std::string caller_address(const std::string& peer) {
  namespace ip = boost::asio::ip;
  boost::system::error_code error;
  const ip::address address = ip::make_address(peer, error);
  if (error || address.is_v4() || address.is_loopback()) return error ? peer : address.to_string();
  const ip::address_v6 v6 = address.to_v6();
  if (v6.is_v4_mapped()) return ip::make_address_v4(ip::v4_mapped, v6).to_string();
  ip::address_v6::bytes_type bytes = v6.to_bytes();
  std::fill(bytes.begin() + 8, bytes.end(), static_cast<unsigned char>(0));
  return ip::address_v6(bytes).to_string();
}

bool Callers::is_spared(const std::string& address) const {
  return limits_.spares_this_machine && is_this_machine(address);
}

const Callers::Caller* Callers::find(const std::string& address) const {
  auto found = callers_.find(address);
  if (found == callers_.end() && callers_.size() >= limits_.addresses)
    found = callers_.find(the_others);
  return found == callers_.end() ? nullptr : &found->second;
}

Callers::Caller& Callers::at(const std::string& address, Time now) {
  auto found = callers_.find(address);
  if (found == callers_.end()) {
    if (callers_.size() >= limits_.addresses) forget_old(now);
    found = callers_.try_emplace(callers_.size() < limits_.addresses ? address : the_others).first;
  }
  found->second.last_at = now;
  return found->second;
}

void Callers::forget_old(Time now) {
  std::erase_if(callers_, [&](const auto& entry) {
    const Caller& caller = entry.second;
    return caller.connections == 0 && now - caller.last_at > limits_.forgotten_after;
  });
}

bool Callers::may_connect(const std::string& address) const {
  const Caller* caller = find(address);
  return caller == nullptr || caller->connections < limits_.connections || is_spared(address);
}

void Callers::connected(const std::string& address, Time now) {
  ++at(address, now).connections;
}

void Callers::left(const std::string& address) {
  auto found = callers_.find(address);
  // It may have come as one of the others and be remembered apart since.
  if (found == callers_.end() || found->second.connections == 0) found = callers_.find(the_others);
  if (found != callers_.end() && found->second.connections > 0) --found->second.connections;
}

std::chrono::duration<double> Callers::work_of(const Caller& caller, Time now) const {
  const std::chrono::duration<double> since = now - caller.worked_at;
  return std::max(caller.work - since * limits_.work_share, std::chrono::duration<double>{0.0});
}

void Callers::worked(const std::string& address, std::chrono::duration<double> time, Time now) {
  if (is_spared(address)) return;
  Caller& caller = at(address, now);
  caller.work = work_of(caller, now) + time;
  caller.worked_at = now;
}

std::chrono::seconds Callers::rest(const std::string& address, Time now) const {
  const Caller* caller = find(address);
  if (caller == nullptr || is_spared(address)) return {};
  return whole_seconds((work_of(*caller, now) - limits_.work_at_once) / limits_.work_share);
}

bool Callers::brought_wrong_token(const std::string& address, Time now) {
  Caller& caller = at(address, now);
  if (caller.wrong_tokens == 0 || now - caller.first_wrong_at >= limits_.forgotten_after) {
    caller.wrong_tokens = 0;
    caller.first_wrong_at = now;
  }
  return ++caller.wrong_tokens == limits_.wrong_tokens;
}

std::chrono::seconds Callers::token_rest(const std::string& address, Time now) const {
  const Caller* caller = find(address);
  if (caller == nullptr || caller->wrong_tokens < limits_.wrong_tokens) return {};
  return whole_seconds(caller->first_wrong_at + limits_.forgotten_after - now);
}

bool Callers::worth_naming(const std::string& address, Time now) {
  Caller& caller = at(address, now);
  if (caller.named_at != Time{} && now - caller.named_at < limits_.forgotten_after) return false;
  caller.named_at = now;
  return true;
}

}  // namespace gley::daemon
