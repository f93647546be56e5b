#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "daemon/store/database.hpp"

namespace gley::daemon {

/// What a derived value was made under; made under anything else, it is made again.
struct DerivedKey {
  std::string_view name;
  std::string_view config_hash;
  std::string_view model_version;
};

/// A cache of what can be made again from the readings. The thread of its Database.
class DerivedStore {
 public:
  explicit DerivedStore(Database& database);

  /// Replaces what stood under the name, whatever it was made under.
  void put(const DerivedKey& key, std::string_view body);
  /// Empty unless it was made under this very configuration and model.
  [[nodiscard]] std::optional<std::string> get(const DerivedKey& key);

 private:
  Statement put_;
  Statement get_;
};

}  // namespace gley::daemon
