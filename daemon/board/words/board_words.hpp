#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/words/board_order.hpp"
#include "daemon/board/words/local_time.hpp"

/// Every sentence of the board, as a farm manager would say it: short, with units, whole mm.
/// Words for outlooks stand in outlook_words.hpp, for wetness, flags and troubles in
/// plain_words.hpp, for alerts in alerts/alert_words.cpp, for reasons in engine/*_words.cpp.
namespace gley::daemon {

/// A moment on which the words depend: the farm's clock, what it shows, and the forecast then.
struct Moment {
  const FarmClock& clock;
  Instant now;
  std::size_t days_ahead = 0;  ///< that a forecast under 24 h old tells; 0: there is none
};
[[nodiscard]] Moment moment_of(const BoardSnapshot& board, const FarmClock& clock);

/// "just now", "2 min ago", "3 h ago", "5 days ago"; empty for a time to come.
[[nodiscard]] std::string age_text(Instant instant, Instant now);

/// "14 mm", "0 mm", "under 1 mm".
[[nodiscard]] std::string whole_mm_text(double value_mm);

/// "15:00" today, "Thu 15:00" within six days, else "Thu 3 Dec 15:00"; a day's start is its name.
[[nodiscard]] std::string soon_text(Instant instant, const Moment& moment);

/// The same for an end: a day's last moment is "the end of Wed".
[[nodiscard]] std::string end_text(Instant instant, const Moment& moment);

/// "topsoil 14 mm below field capacity", "22 mm draining away". Empty where the
/// wetness says it all.
[[nodiscard]] std::string water_text(const FieldView& field);

/// What a field's sign machine may do, and how long or from when.
struct JobWords {
  std::string when;    ///< "until Thu 15:00", "opens Sat", "not in the next 7 days"
  std::string chance;  ///< "likely, 7 in 10"; may be empty
};
[[nodiscard]] JobWords job_words(const MachineView& machine, const Moment& moment);

/// A place's name and what is meant by it.
struct PlaceWords {
  std::string_view name;
  std::string_view meaning;
};
[[nodiscard]] PlaceWords place_words(Place place);

/// "Rain today: 37 mm at yard, 41 mm at brook".
[[nodiscard]] std::string rain_today_text(const BoardSnapshot& board);

/// "Next 48 h: 4 to 12 mm, most on Thu; rain very likely, 9 in 10"; or that there is no forecast,
/// or how old it is.
[[nodiscard]] std::string rain_ahead_text(const BoardSnapshot& board, const Moment& moment);

[[nodiscard]] bool nothing_known(const BoardSnapshot& board);
[[nodiscard]] bool advises_on_spreading(const BoardSnapshot& board);

/// "At field capacity: Long Meadow, Church Piece and 8 more": a headline a wall can hold.
[[nodiscard]] std::string short_headline(const AlertView& alert);

/// "seen by Ann at 06:45"; empty while nobody has.
[[nodiscard]] std::string seen_text(const AlertView& alert, Instant now, const FarmClock& clock);

/// "by Ann, Wed 25 Nov 06:45"
[[nodiscard]] std::string seen_by_text(const AlertView& alert, const FarmClock& clock);

inline constexpr std::string_view no_fields_text = "The configuration names no field.";
inline constexpr std::string_view first_day_text =
    "No weather has arrived yet, so nothing is known of any field. The board fills with the first "
    "day that has a reading.";

/// What the script says when the daemon does not answer; {time} and {age} are filled in.
inline constexpr std::string_view lost_text =
    "No connection to Gley. This is how things stood at {time}; last heard {age}.";
/// The same where nothing was heard since the page was opened: it came out of the browser's keep.
inline constexpr std::string_view kept_text =
    "No connection to Gley. This is how things stood at {time}.";

inline constexpr std::string_view no_alerts_text = "No alert stands now.";
inline constexpr std::string_view no_past_alerts_text = "No alert ended in the last 60 days.";
inline constexpr std::string_view past_alerts_text = "Of the last 60 days, the latest 200";

/// The field gate's order; {distance} and {accuracy} are filled in.
inline constexpr std::string_view nearest_button_text = "Nearest first";
inline constexpr std::string_view looking_for_position_text = "Looking where you are ...";
inline constexpr std::string_view nearest_done_text =
    "Nearest first, by a position good to {accuracy} m; it stays in this browser.";
inline constexpr std::string_view no_position_text =
    "No position was to be had: the fields stand by name.";
inline constexpr std::string_view here_text = "here";
inline constexpr std::string_view away_text = "{distance} away";

/// Who has seen an alert. {why} is the daemon's own sentence.
inline constexpr std::string_view seen_button_text = "Seen";
inline constexpr std::string_view who_has_seen_text = "Who has seen this alert?";
inline constexpr std::string_view token_question_text = "Token of this farm";
inline constexpr std::string_view token_hint_text =
    "It stands in the file that token_file names. Asked once, kept in this browser only.";
inline constexpr std::string_view wrong_token_text =
    "That is not the token of this farm. Nothing was told.";
inline constexpr std::string_view not_told_text =
    "No connection to Gley: nothing was told. Try again.";
inline constexpr std::string_view not_taken_text = "Not taken: {why}.";
inline constexpr std::string_view seen_without_script_text =
    "To say that you have seen an alert, this page needs its script.";
inline constexpr std::string_view cannot_be_seen_text =
    "To mark alerts as seen here, give the daemon a token: token_file under [http].";

}  // namespace gley::daemon
