#pragma once
#include <cstdint>
#include <vector>

#include "daemon/readings/told.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

struct KeptDressing {
  Dressing dressing;
  Teller teller;
  Instant told{};  ///< when we heard of it
};

struct KeptReport {
  FieldReport report;
  Teller teller;
  Instant told{};
};

/// Keeps what people tell, for good: rows are added and never changed. The same thing told twice
/// is kept once. The thread of its Database.
class ToldStore {
 public:
  explicit ToldStore(Database& database);

  /// On disk when it returns; false if it was there already.
  bool put(const Dressing& dressing, const Teller& teller, Instant told);
  bool put(const FieldReport& report, const Teller& teller, Instant told);

  /// Of what was done at the moment or later, in order of time.
  [[nodiscard]] std::vector<KeptDressing> dressings_since(Instant moment);
  [[nodiscard]] std::vector<KeptReport> reports_since(Instant moment);

  /// Grows with each row: whether there is anything new.
  [[nodiscard]] std::int64_t rows();

 private:
  Statement put_dressing_;
  Statement put_report_;
  Statement dressings_;
  Statement reports_;
  Statement rows_;
};

}  // namespace gley::daemon
