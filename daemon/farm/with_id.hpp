#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

/// The one of this id; null if there is none.
template <class Item>
[[nodiscard]] const Item* with_id(const std::vector<Item>& items, std::string_view id) {
  for (const Item& item : items)
    if (item.id == id) return &item;
  return nullptr;
}

/// Its name; the id itself where it is configured no more.
template <class Item>
[[nodiscard]] std::string name_of(const std::vector<Item>& items, const std::string& id) {
  const Item* own = with_id(items, id);
  return own == nullptr ? id : own->name;
}

}  // namespace gley::daemon
