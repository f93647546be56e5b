#include "daemon/text/nearest_name.hpp"

#include <algorithm>
#include <numeric>

#include "daemon/text/ascii_case.hpp"

namespace gley::daemon {
namespace {

/// Letters to insert, drop, change or swap with their neighbour to make one word of the other
/// (optimal string alignment distance).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = a[i - 1] == b[j - 1];
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

/// No more than a third of the longer word differs.
bool is_slip(std::size_t distance, std::string_view a, std::string_view b) {
  return distance * 3 <= std::max(a.size(), b.size());
}

/// Words of such different lengths are no slip, whatever their letters.
bool may_be_slip(std::string_view a, std::string_view b) {
  return is_slip(std::max(a.size(), b.size()) - std::min(a.size(), b.size()), a, b);
}

/// Whether a name is one of a candidate's words, or the beginning of it.
bool is_word_of(std::string_view name, std::string_view candidate) {
  while (!candidate.empty()) {
    const auto end = std::min(candidate.find_first_of(" _/:,"), candidate.size());
    const std::string_view word = candidate.substr(0, end);
    if (word.starts_with(name)) return true;
    if (may_be_slip(name, word) && is_slip(edit_distance(name, word), name, word)) return true;
    candidate.remove_prefix(std::min(end + 1, candidate.size()));
  }
  return false;
}

/// All in small letters: "fertiliser" of "mineral fertiliser", "rainfall" of "rain". None where
/// several would do.
std::optional<std::string> only_kin(std::string_view name,
                                    const std::vector<std::string>& candidates) {
  constexpr std::size_t shortest = 4;  // less is in too many names
  if (name.size() < shortest) return std::nullopt;
  std::optional<std::string> kin;
  for (const std::string& candidate : candidates) {
    const std::string word = lower_case(candidate);
    const bool is_begun = word.size() >= shortest && name.starts_with(word);
    if (!is_begun && !is_word_of(name, word)) continue;
    if (kin) return std::nullopt;
    kin = candidate;
  }
  return kin;
}

}  // namespace

std::optional<std::string> nearest_name(std::string_view name,
                                        const std::vector<std::string>& candidates) {
  constexpr std::size_t longest_compared = 64;  // a longer name is no slip of the keyboard
  if (name.empty() || name.size() > longest_compared) return std::nullopt;
  const std::string given = lower_case(name);
  std::optional<std::string> nearest;
  std::size_t smallest = 0;
  for (const std::string& candidate : candidates) {
    if (!may_be_slip(given, candidate)) continue;
    const std::size_t distance = edit_distance(given, lower_case(candidate));
    if (!is_slip(distance, given, candidate)) continue;
    if (!nearest || distance < smallest) {
      nearest = candidate;
      smallest = distance;
    }
  }
  return nearest ? nearest : only_kin(given, candidates);
}

}  // namespace gley::daemon
