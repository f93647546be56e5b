#include "daemon/farm/value_check.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/farm/calendar_text.hpp"
#include "daemon/text/json_pointer.hpp"
#include "daemon/text/nearest_name.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {
namespace {

using Problem = std::optional<std::string>;

bool is_control(char c) {
  return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
}

/// With a question mark for what looks like a blank, or like nothing, and is neither: controls, and
/// the blank that does not break, which comes with text copied from a page.
std::string quoted(std::string_view text) {
  constexpr std::size_t longest_shown = 60;
  constexpr std::string_view unbreaking = "\xc2\xa0";
  std::string result = "\"";
  const std::string_view shown = text.substr(0, longest_shown);
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const bool unbroken = shown.substr(i).starts_with(unbreaking);
    result += unbroken || is_control(shown[i]) ? '?' : shown[i];
    if (unbroken) ++i;
  }
  if (text.size() > longest_shown) result += "...";
  return result + "\"";
}

std::string joined(const std::vector<std::string>& words) {
  std::string result;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) result += i + 1 == words.size() ? " or " : ", ";
    result += words[i].find(',') == std::string::npos ? words[i] : quoted(words[i]);
  }
  return result;
}

std::string_view expected(ValueType type) {
  switch (type) {
    case ValueType::number:
      return "a number, such as 2.5, without quotation marks";
    case ValueType::whole_number:
      return "a whole number, without quotation marks";
    case ValueType::truth:
      return "true or false, without quotation marks";
    case ValueType::text_or_list:
      return "a text in quotation marks, or a list of them";
    case ValueType::numbers:
      return "a list of whole numbers";
    case ValueType::day:
      return "a date, such as 2026-03-20, or \"03-20\" for that day of every year";
    case ValueType::days:
      return "a list of dates, such as 2026-05-25, or of days of every year, such as \"05-25\"";
    default:
      return "a text in quotation marks";
  }
}

/// verb: "is", or "holds" of what stands in a list.
Problem wrong_type(const Setting& setting, const toml::node& value, const char* verb = "is ") {
  return verb + value_text(value) + "; it must be " + std::string(expected(setting.type));
}

/// 100000, and not 1e+05.
std::string limit_text(double limit) {
  const bool whole = std::trunc(limit) == limit;
  return whole ? std::to_string(static_cast<std::int64_t>(limit)) : number_text(limit);
}

std::string range_text(const Setting& setting) {
  std::string text = setting.facts.range->above_low ? "above " : "from ";
  text += limit_text(setting.facts.range->low) +
          (setting.facts.range->above_low ? " and at most " : " to ") +
          limit_text(setting.facts.range->high);
  if (!setting.facts.unit.empty()) text += " " + std::string(setting.facts.unit);
  if (!setting.help.empty()) text += " (" + std::string(setting.help) + ")";
  return text;
}

/// The number, if it is one. A large whole number is rounded, for it is compared only.
std::optional<double> number_of(const toml::node& value) {
  if (const auto whole = value.value_exact<std::int64_t>()) return static_cast<double>(*whole);
  return value.value_exact<double>();
}

Problem number_problem(const Setting& setting, const toml::node& value) {
  const auto number = number_of(value);
  if (!number) return wrong_type(setting, value);
  if (!std::isfinite(*number)) return "is " + value_text(value) + "; it must be a finite number";
  if (!setting.facts.range) return std::nullopt;
  const NumberRange& range = *setting.facts.range;
  const bool low = range.above_low ? !(*number > range.low) : *number < range.low;
  if (!low && *number <= range.high) return std::nullopt;
  return "is " + value_text(value) + "; it must be " + range_text(setting);
}

Problem whole_number_problem(const Setting& setting, const toml::node& value) {
  const auto number = number_of(value);
  if (!number || std::isnan(*number)) return wrong_type(setting, value);
  if (std::isfinite(*number) && std::trunc(*number) != *number) return wrong_type(setting, value);
  return number_problem(setting, value);
}

Problem id_problem(const std::string& id) {
  constexpr std::size_t longest = 64;
  const bool good = std::all_of(id.begin(), id.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  });
  if (good && id.size() <= longest) return std::nullopt;
  return "is " + quoted(id) +
         "; it must be letters a to z, digits, - and _, at most 64, for it is part of topics and "
         "addresses (put any other spelling in name)";
}

Problem topic_problem(const Setting& setting, const std::string& topic) {
  if (!valid_topic_filter(topic)) {
    return "is " + quoted(topic) +
           "; it must be an MQTT topic: + stands alone between slashes, # alone at the end";
  }
  if (setting.type == ValueType::topic_filter) return std::nullopt;
  if (has_wildcard(topic)) return "is " + quoted(topic) + "; it must have no + and no #";
  if (topic.front() == '/' || topic.back() == '/' || topic.front() == '$') {
    return "is " + quoted(topic) + "; it must not begin with / or $, nor end with /";
  }
  return std::nullopt;
}

Problem word_problem(const Setting& setting, const std::string& word) {
  const std::vector<std::string> words = words_of(setting);
  if (std::find(words.begin(), words.end(), word) != words.end()) return std::nullopt;
  std::string text = "is " + quoted(word) + "; it must be " + joined(words);
  if (const auto near = nearest_name(word, words)) text += "; did you mean \"" + *near + "\"?";
  return text;
}

Problem text_problem(const Setting& setting, const std::string& text) {
  if (setting.type == ValueType::pointer) {
    if (JsonPointer::parse(text)) return std::nullopt;
    return "is " + quoted(text) +
           "; it must be a JSON pointer: empty, or / before each step, such as \"/rain/mm\"";
  }
  if (text.empty()) return "is empty; write a text or remove the key";
  if (std::any_of(text.begin(), text.end(), is_control)) {
    return "is " + quoted(text) + "; it must hold no control characters";
  }
  switch (setting.type) {
    case ValueType::id:
      return id_problem(text);
    case ValueType::word:
      return word_problem(setting, text);
    case ValueType::topic_filter:
    case ValueType::topic:
      return topic_problem(setting, text);
    default:
      return std::nullopt;
  }
}

Problem day_problem(const Setting& setting, const toml::node& value, const char* verb = "is ") {
  if (value.is_date()) return std::nullopt;
  const auto text = value.value<std::string>();
  if (!text) return wrong_type(setting, value, verb);
  if (parse_calendar_day(*text)) return std::nullopt;
  return verb + quoted(*text) +
         "; the calendar has no such day; write year-month-day, such as 2026-03-20, or month-day, "
         "such as \"03-20\", for every year";
}

Problem item_problem(const Setting& setting, const toml::node& item) {
  if (setting.type == ValueType::days) return day_problem(setting, item, "holds ");
  const auto text = item.value_exact<std::string>();
  const bool of_texts = setting.type == ValueType::text_or_list;
  if (of_texts ? !text : !item.is_integer()) return wrong_type(setting, item, "holds ");
  return of_texts ? text_problem(setting, *text) : std::nullopt;
}

Problem list_problem(const Setting& setting, const toml::node& value) {
  const auto text = value.value_exact<std::string>();
  if (text && setting.type == ValueType::text_or_list) return text_problem(setting, *text);
  const toml::array* list = value.as_array();
  if (list == nullptr) return wrong_type(setting, value);
  for (const toml::node& item : *list)
    if (auto problem = item_problem(setting, item)) return problem;
  return std::nullopt;
}

Problem table_problem(const Setting& setting, const toml::node& value) {
  const std::string key(setting.key);
  const bool several = setting.type == ValueType::tables;
  if (several && value.is_table()) {
    return "is one table; write [[" + key + "]] with double brackets, for there can be several";
  }
  const toml::array* list = value.as_array();
  if (!several && list != nullptr) {
    return "is a list; write [" + key + "] with single brackets, for there is only one";
  }
  const bool good =
      several ? list != nullptr && (list->empty() || list->is_array_of_tables()) : value.is_table();
  if (good) return std::nullopt;
  return "is " + value_text(value) + "; it must be a table, " + (several ? "[[" : "[") + key +
         (several ? "]]" : "]");
}

}  // namespace

std::string value_text(const toml::node& value) {
  if (const auto text = value.value_exact<std::string>()) return quoted(*text);
  if (value.is_table()) return "a table";
  if (value.is_array()) return "a list";
  if (const auto number = value.value_exact<std::int64_t>()) return std::to_string(*number);
  if (const auto number = value.value_exact<double>()) {
    return std::isnan(*number) ? "nan" : number_text(*number);
  }
  if (const auto truth = value.value_exact<bool>()) return *truth ? "true" : "false";
  if (value.is_date() || value.is_date_time()) return "a date";
  return "a time";
}

std::string wanted_text(const Setting& setting) {
  std::string text(setting.help);
  if (setting.type == ValueType::word) text += "; one of " + joined(words_of(setting));
  return text;
}

std::string suggestion(std::string_view name, const std::vector<std::string>& candidates) {
  if (const auto near = nearest_name(name, candidates)) return "did you mean \"" + *near + "\"?";
  constexpr std::size_t most_listed = 30;
  if (candidates.empty() || candidates.size() > most_listed) return "none is like it";
  return "known are: " + joined(candidates);
}

std::string no_such(const std::string& what, const std::string& name,
                    const std::vector<std::string>& candidates) {
  return "is " + quoted(name) + "; there is no such " + what + "; " + suggestion(name, candidates);
}

std::vector<TextAt> texts_at(const toml::table& table, std::string_view key) {
  std::vector<TextAt> texts;
  const toml::node* value = table.get(key);
  if (value == nullptr) return texts;
  const auto take = [&texts](const toml::node& node) {
    const auto text = node.value_exact<std::string>();
    if (text) texts.push_back({.text = *text, .line = node.source().begin.line});
  };
  take(*value);
  if (const toml::array* list = value->as_array()) {
    for (const toml::node& item : *list) take(item);
  }
  return texts;
}

std::optional<std::string> problem_with(const Setting& setting, const toml::node& value) {
  switch (setting.type) {
    case ValueType::several_forms:
      return std::nullopt;
    case ValueType::table:
    case ValueType::free_table:
    case ValueType::tables:
      return table_problem(setting, value);
    case ValueType::number:
      return number_problem(setting, value);
    case ValueType::whole_number:
      return whole_number_problem(setting, value);
    case ValueType::truth:
      return value.is_boolean() ? std::nullopt : wrong_type(setting, value);
    case ValueType::day:
      return day_problem(setting, value);
    case ValueType::text_or_list:
    case ValueType::numbers:
    case ValueType::days:
      return list_problem(setting, value);
    default:
      break;
  }
  const auto text = value.value_exact<std::string>();
  return text ? text_problem(setting, *text) : wrong_type(setting, value);
}

}  // namespace gley::daemon
