#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "daemon/alerts/alert_book.hpp"
#include "daemon/alerts/field_moment.hpp"

namespace gley::daemon {

/// Which ids each thing that can be alerted holds for; a topic with none may be absent.
using HeldTopics = std::map<std::pair<AlertEvent, std::string>, std::set<std::string>>;

/// Looks for every event of fields and machines. The book tells what stands already.
[[nodiscard]] HeldTopics held_topics(const std::vector<FieldMoment>& fields, const AlertBook& book,
                                     Instant now, const AlertLimits& limits);

/// Takes it into the book: what holds begins, what does not ends. One place for the running daemon,
/// replay and tests.
[[nodiscard]] AlertBook::Changes take_round(AlertBook& book, const HeldTopics& held, Instant now);

}  // namespace gley::daemon
