#include "daemon/text/json_pointer.hpp"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

namespace gley::daemon {
namespace {

std::optional<std::string> unescaped(std::string_view token) {
  std::string name;
  for (std::size_t i = 0; i < token.size(); ++i) {
    if (token[i] != '~') {
      name += token[i];
      continue;
    }
    ++i;
    if (i == token.size() || (token[i] != '0' && token[i] != '1')) return {};
    name += token[i] == '0' ? '~' : '/';
  }
  return name;
}

const nlohmann::json* element(const nlohmann::json& array, const std::string& token) {
  // No leading zeros: RFC 6901 Section 4.
  if (token.empty() || (token.size() > 1 && token.front() == '0')) return nullptr;
  std::size_t index = 0;
  const char* end = token.data() + token.size();
  const auto [stopped, error] = std::from_chars(token.data(), end, index);
  if (error != std::errc{} || stopped != end || index >= array.size()) return nullptr;
  return &array[index];
}

const nlohmann::json* member(const nlohmann::json& object, const std::string& token) {
  const auto found = object.find(token);
  return found == object.end() ? nullptr : &*found;
}

}  // namespace

std::optional<JsonPointer> JsonPointer::parse(std::string_view text) {
  JsonPointer pointer;
  while (!text.empty()) {
    if (text.front() != '/') return {};
    text.remove_prefix(1);
    const auto size = std::min(text.find('/'), text.size());
    auto token = unescaped(text.substr(0, size));
    if (!token) return {};
    pointer.tokens_.push_back(std::move(*token));
    text.remove_prefix(size);
  }
  return pointer;
}

const nlohmann::json* JsonPointer::find(const nlohmann::json& document) const {
  const nlohmann::json* here = &document;
  for (const std::string& token : tokens_) {
    if (here->is_object()) {
      here = member(*here, token);
    } else if (here->is_array()) {
      here = element(*here, token);
    } else {
      here = nullptr;
    }
    if (here == nullptr) return nullptr;
  }
  return here;
}

}  // namespace gley::daemon
