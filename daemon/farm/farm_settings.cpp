#include <array>

#include "daemon/farm/settings.hpp"
#include "daemon/farm/word.hpp"

namespace gley::daemon {
namespace {

using enum ValueType;

constexpr NumberRange port_range{1, 65535};

constexpr std::array top_level{
    Setting("include", text_or_list,
            "further files, relative to this one; stands before the first table"),
    Setting("farm", table, "the farm itself"),
    Setting("mqtt", table, "the broker"),
    Setting("http", table, "the board's page"),
    Setting("forecast", table, "where the forecast comes from"),
    Setting("alerts", table, "what is told in alerts"),
    Setting("readings", table, "which readings are used"),
    Setting("store", table, "where readings are kept"),
    Setting("station", tables, "a weather station"),
    Setting("field", tables, "a field"),
    Setting("machine", tables, "a machine"),
    Setting("material", tables, "a material to spread"),
    Setting("watercourse", tables, "a ditch, stream or river"),
    Setting("spring", tables, "a spring, well or borehole"),
};

constexpr std::array farm{
    Setting("id", id, "short name in topics and file names, such as \"alder\"",
            {.required = true, .reread = false}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("latitude", number, "north positive",
            {.required = true, .unit = "degrees", .range = NumberRange{-90, 90}}),
    Setting("longitude", number, "east positive",
            {.required = true, .unit = "degrees", .range = NumberRange{-180, 180}}),
    Setting("elevation_m", number, "above sea level",
            {.required = true, .unit = "m", .range = NumberRange{-450, 6000}}),
    Setting("time_zone", text, "a name of the IANA time zones, such as \"Europe/London\"",
            {.required = true}),
    Setting("day_starts", text,
            "local time at which a farm day begins, such as \"09:00\" for a rain gauge read in the "
            "morning; a day is named by the date it begins",
            {.default_text = "\"00:00\""}),
};

constexpr std::array mqtt{
    Setting("host", text, "name or address of the broker",
            {.default_text = "\"localhost\"", .reread = false}),
    Setting("port", whole_number, "of the broker; 8883 is usual with TLS",
            {.default_text = "1883", .range = port_range, .reread = false}),
    Setting("client_id", text, "must be the farm's alone at the broker; default: gley-<farm>",
            {.reread = false}),
    Setting("root", topic, "the topic under which all is published; default: gley/<farm>",
            {.reread = false}),
    Setting("user", text, "user name at the broker; default: none", {.reread = false}),
    Setting("password_file", path,
            "file whose first line is the password; may begin with $CREDENTIALS_DIRECTORY/ for one "
            "that systemd hands over",
            {.reread = false}),
    Setting("ca_file", path, "certificates (PEM) the broker's is checked against; switches TLS on",
            {.reread = false}),
    Setting("certificate_file", path,
            "our own certificate (PEM), for a broker that asks its clients for one",
            {.reread = false}),
    Setting("key_file", path,
            "the key (PEM, without a password) of that certificate; may begin with "
            "$CREDENTIALS_DIRECTORY/ as password_file may",
            {.reread = false}),
    Setting("away_after_min", number,
            "a broker away this long makes /healthz fail (503); fewer minutes tell of short "
            "outages too",
            {.unit = "minutes", .default_text = "10", .range = above(0, 10080)}),
};

constexpr std::array http{
    Setting("address", text,
            "address to listen on; \"0.0.0.0\" or \"::\" for every machine that can reach this one",
            {.default_text = "\"127.0.0.1\"", .reread = false}),
    Setting("port", whole_number, "of the board's page",
            {.default_text = "8080", .range = port_range, .reread = false}),
    Setting("token_file", path,
            "file whose first line is the token that writes need; without it none are taken",
            {.reread = false}),
    Setting("host_names", text_or_list,
            "public names that the board is reached by, such as a proxy's; addresses in numbers, "
            "names without a dot and those in .local, .home.arpa and .internal always are taken"),
};

constexpr std::array forecast{
    Setting("topic", topic_filter,
            "topic of the forecast: CoverageJSON, or SenML with times to come", {.required = true}),
    Setting("days", whole_number, "length of the outlook; more days cost more time",
            {.default_text = "7", .range = NumberRange{1, 16}}),
    Setting("window_chance", number,
            "chance from which a day counts into a window; more opens fewer and surer ones",
            {.default_text = "0.6", .range = NumberRange{0.1, 0.95}}),
    Setting("heavy_rain_mm", number,
            "rain within 24 h that is heavy: its chance holds what is spread",
            {.unit = "mm", .default_text = "10", .range = NumberRange{2, 100}}),
    Setting("wind_height_m", number, "height that the forecast's wind is for",
            {.unit = "m", .default_text = "10", .range = NumberRange{0.5, 100}}),
    Setting("parameters", free_table,
            "the forecast's names for our quantities: its name = \"rain\""),
};

constexpr std::array alerts{
    Setting("working_hours", text,
            "local times between which windows begin and end in alerts and the calendar",
            {.default_text = "\"07:00-19:00\""}),
    Setting("machines", text_or_list,
            "ids of the machines whose windows are told; default: of each field the machine of its "
            "sign"),
    Setting("closed_days", whole_number,
            "a field closed to a machine so many days running is waited for, and its opening told; "
            "more days tell fewer windows",
            {.unit = "days", .default_text = "3", .range = NumberRange{1, 14}}),
    Setting("open_days", whole_number,
            "a field open for so many days since is waited for no more, and its closing not told; "
            "a report that somebody drove there ends it sooner",
            {.unit = "days", .default_text = "5", .range = NumberRange{1, 14}}),
    Setting("notice_h", whole_number,
            "how long before a window opens or closes it is told; longer notice is less sure",
            {.unit = "hours", .default_text = "24", .range = NumberRange{1, 72}}),
    Setting("fresh_dressing_days", whole_number,
            "heavy rain coming is told for fields dressed within so many days",
            {.unit = "days", .default_text = "5", .range = NumberRange{1, 60}}),
};

constexpr std::array readings{
    Setting("oldest_days", whole_number,
            "older readings are kept aside, counted and not used; more days let later readings "
            "change the past",
            {.unit = "days", .default_text = "30", .range = NumberRange{1, 100000}}),
    Setting("silent_after_h", number,
            "a station silent this long is named in an alert, and its fields' verdicts are not "
            "known; more hours trust old weather longer",
            {.unit = "hours", .default_text = "6", .range = above(0, 168)}),
};

constexpr std::array store{
    Setting("path", path, "the database; default: <farm>.db beside the configuration",
            {.reread = false}),
    Setting("durability", word,
            "what an acknowledged reading survives: a power cut, or a kill of the process only "
            "(several times faster)",
            {.default_text = "\"power\"", .words = words_for<Durability>, .reread = false}),
};

constexpr std::array station{
    Setting("id", id, "short name, such as \"yard\"", {.required = true}),
    Setting("name", text, "the name people use; default: the id"),
    Setting("latitude", number, "default: the farm's",
            {.unit = "degrees", .range = NumberRange{-90, 90}}),
    Setting("longitude", number, "default: the farm's",
            {.unit = "degrees", .range = NumberRange{-180, 180}}),
    Setting("elevation_m", number, "default: the farm's",
            {.unit = "m", .range = NumberRange{-450, 6000}}),
    Setting("wind_height_m", number, "height of the anemometer above ground",
            {.unit = "m", .default_text = "2", .range = NumberRange{0.5, 100}}),
    Setting("krs", number,
            "radiation from temperature where none is measured (FAO-56 Eq. 50): 0.16 inland, 0.19 "
            "at a coast",
            {.default_text = "0.16", .range = NumberRange{0.1, 0.25}}),
    Setting("dew_point_offset_c", number,
            "dew point less the day's mean temperature, where humidity is never measured; default: "
            "none, the night's minimum stands for the dew point",
            {.unit = "degC", .range = NumberRange{-20, 10}}),
    Setting("reading", tables, "which messages carry which quantity"),
};

constexpr std::array station_reading{
    Setting("topic", topic_filter, "MQTT topic, + and # allowed", {.required = true}),
    Setting("value", pointer,
            "where the value stands in a JSON message (RFC 6901), such as \"/rain/mm\"; default: "
            "the whole message is the number"),
    Setting("time", pointer,
            "where the time stands in a JSON message; default: the time of arrival"),
    Setting("name", text, "name of the SenML record; default: every record counts"),
    Setting("quantity", word, "what is measured", {.required = true, .words = words_for<Quantity>}),
    Setting("unit", text,
            "a unit of the SenML registries, such as \"mm\", \"Cel\", \"%RH\", \"m/s\" or \"W/m2\"",
            {.required = true}),
    Setting("form", word,
            "interval: the amount since the last message; counter: a total that grows and may "
            "start again; rate: an intensity; instant: the value now",
            {.required = true, .words = words_for<ReadingForm>}),
    Setting("step", number,
            "of a counter, or of an interval that is sent as tips: what one count stands for in "
            "unit, such as 0.2 for a tipping bucket of 0.2 mm",
            {.default_text = "1", .range = above(0, 1000)}),
    Setting("rolls_over_at", number,
            "of a counter: the count after its highest, as sent, such as 65536; a fall from near "
            "it is then counted through, where any other fall is a start from 0",
            {.range = above(0, 1e12)}),
};

constexpr std::array all{
    SettingsTable{"", top_level},        SettingsTable{"farm", farm},
    SettingsTable{"mqtt", mqtt},         SettingsTable{"http", http},
    SettingsTable{"forecast", forecast}, SettingsTable{"alerts", alerts},
    SettingsTable{"readings", readings}, SettingsTable{"store", store},
    SettingsTable{"station", station},   SettingsTable{"station.reading", station_reading}};

}  // namespace

std::span<const SettingsTable> farm_settings() {
  return all;
}

}  // namespace gley::daemon
