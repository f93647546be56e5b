#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"

/// The contracts' words as a person on the farm reads them, for the pages and the terminal.
namespace gley::daemon {

inline constexpr std::string_view not_known = "not known";

inline constexpr std::array<std::string_view, 5> wetness_words{
    "short of water", "moist", "near field capacity", "at field capacity", "waterlogged"};

/// CAP 1.2, section 3.2.2, gravest first.
inline constexpr std::array<std::string_view, 5> severities{"Extreme", "Severe", "Moderate",
                                                            "Minor", "Unknown"};

/// "start_assumed" -> "start assumed"; what the flag means for the numbers, in a few words.
[[nodiscard]] std::string flag_words(std::string_view flag);

/// All of a field's flags in plain words, "; " between.
[[nodiscard]] std::string flags_text(const FieldView& field);
/// The graver of them, in the few words that fit beside a field's name.
[[nodiscard]] std::string row_flags_text(const FieldView& field);

/// "moist", or "no weather yet".
[[nodiscard]] std::string wetness_text(const FieldView& field);

/// An amount of water and what it is: "14 mm", "below field capacity in the topsoil".
struct WaterPhrase {
  std::string amount;  ///< may be empty: "draining" needs none
  std::string words;
};

/// What stands under and over field capacity, the topsoil first. Empty for a field not known yet.
[[nodiscard]] std::vector<WaterPhrase> water_phrases(const FieldView& field);

/// Gravest first; alerts of one severity stay in the order they began.
[[nodiscard]] std::vector<AlertView> by_severity(std::vector<AlertView> alerts);

/// What keeps the daemon from its work, each with what to do about it; empty when all is well.
[[nodiscard]] std::vector<std::string> service_troubles(const ServiceView& service);

/// "Top Field, Long Ley" (ids where no names are given); empty for the whole farm.
[[nodiscard]] std::string alert_fields(const AlertView& alert);
/// The same; empty where the headline names them.
[[nodiscard]] std::string alert_fields_beside_headline(const AlertView& alert);

[[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view between);

}  // namespace gley::daemon
