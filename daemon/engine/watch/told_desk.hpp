#pragma once
#include <map>
#include <string>
#include <vector>

#include "daemon/board/http/http_message.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/store/told_store.hpp"

namespace gley::daemon {

/// What people told, as far as it still matters, and the desk at which more is taken over HTTP.
/// What comes over MQTT or from the command line it finds in the store. The thread of its Database.
class ToldDesk {
 public:
  ToldDesk(const FarmConfig& farm, Database& database);

  /// Reads what the store gained; tells whether there was anything.
  bool catch_up(Instant now);

  /// Whether the store has gained something that was not read yet.
  [[nodiscard]] bool has_news() { return store_.rows() != rows_; }

  /// A message of JSON for a field, and its answer: 201 kept, 200 known already, 4xx why not.
  [[nodiscard]] Response take_dressing(const std::string& field, const std::string& body,
                                       Instant now);
  [[nodiscard]] Response take_report(const std::string& field, const std::string& body,
                                     Instant now);

  /// Counts what was not taken, and remembers the latest of each address for the page.
  Response refuse(const std::string& address, const TellProblem& problem);

  /// Of the last 60 days, in order of time.
  [[nodiscard]] const std::vector<KeptDressing>& dressings() const { return dressings_; }
  [[nodiscard]] const std::vector<KeptReport>& reports() const { return reports_; }

  /// Adds what became of HTTP's messages to what became of the broker's.
  void add_to(ServiceView& service) const;

  /// Adds what was told of a field to its view.
  void show(FieldView& field) const;

 private:
  template <class Told>
  Response take(const std::string& address, const TellResult<Told>& told, Instant now);

  TellTerms terms_;
  ToldStore store_;
  std::int64_t rows_ = -1;
  Instant read_{};
  std::vector<KeptDressing> dressings_;
  std::vector<KeptReport> reports_;
  std::uint64_t stored_ = 0;
  std::map<TellFault, std::uint64_t> refused_;
  std::map<std::string, std::string> complaints_;  ///< by kind of address
};

}  // namespace gley::daemon
