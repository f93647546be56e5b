#include "daemon/farm/settings.hpp"
#include "daemon/manual/pages.hpp"
#include "daemon/manual/roff.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

std::string_view type_words(ValueType type) {
  switch (type) {
    case ValueType::text:
      return "text";
    case ValueType::id:
      return "text of letters, digits, - and _";
    case ValueType::word:
      return "one of";
    case ValueType::number:
      return "number";
    case ValueType::whole_number:
      return "whole number";
    case ValueType::truth:
      return "true or false";
    case ValueType::text_or_list:
      return "text, or a list of texts";
    case ValueType::numbers:
      return "list of whole numbers";
    case ValueType::day:
      return "day: 2026-03-20, or \"03-20\" for every year";
    case ValueType::days:
      return "list of days: 2026-03-20, or \"03-20\" for every year";
    case ValueType::path:
      return "path, relative to the file it stands in";
    case ValueType::topic_filter:
      return "MQTT topic, wildcards allowed";
    case ValueType::topic:
      return "MQTT topic, without wildcards";
    case ValueType::pointer:
      return "JSON pointer (RFC 6901)";
    case ValueType::table:
    case ValueType::tables:
      return "table";
    case ValueType::free_table:
      return "table of keys of the farm's own";
    case ValueType::several_forms:
      return "in one of several forms";
  }
  return "value";
}

bool is_table(const Setting& setting) {
  return setting.type == ValueType::table || setting.type == ValueType::tables;
}

std::string range_words(const NumberRange& range) {
  return (range.above_low ? "above " : "from ") + number_text(range.low) + " to " +
         number_text(range.high);
}

/// "(number, mm, from 0 to 40; default 9; required)"
std::string facts_of(const Setting& setting) {
  std::string facts(type_words(setting.type));
  std::string separator = " ";
  for (const std::string& word : words_of(setting)) {
    facts.append(separator).append(1, '"').append(word).append(1, '"');
    separator = ", ";
  }
  if (!setting.facts.unit.empty()) facts += ", " + std::string(setting.facts.unit);
  if (setting.facts.range) facts += ", " + range_words(*setting.facts.range);
  if (!setting.facts.default_text.empty())
    facts += "; default " + std::string(setting.facts.default_text);
  if (setting.facts.required) facts += "; required";
  if (!setting.facts.reread) facts += "; taken up at the next start";
  return "(" + facts + ")";
}

/// The setting that says what a table is; the file itself has none.
const Setting* opened_by(std::string_view table) {
  const std::size_t dot = table.rfind('.');
  if (dot == std::string_view::npos) return find_setting(settings_of(""), table);
  return find_setting(settings_of(table.substr(0, dot)), table.substr(dot + 1));
}

/// How a table stands in a file. One inside a field stands in braces or brackets, as its row says.
std::string heading_of(const std::string& table, ValueType type) {
  if (table == "field.crop") return "[[field.crop]], or crop = { ... }";
  if (type == ValueType::tables) return "[[" + table + "]]";
  return type == ValueType::several_forms ? table + " = { ... }" : "[" + table + "]";
}

void write_table(ManualPage& page, const SettingsTable& table) {
  if (const Setting* opening = opened_by(table.name)) {
    page.subsection(heading_of(std::string(table.name), opening->type));
    page.paragraph(sentence(opening->help));
  } else {
    page.subsection("The file itself");
  }
  for (const Setting& setting : table.settings)
    if (!table.name.empty() || !is_table(setting))
      page.entry(setting.key, facts_of(setting), sentence(setting.help));
}

}  // namespace

std::string settings_page(std::string_view date) {
  ManualPage page({.title = "GLEY.TOML",
                   .section = "5",
                   .date = date,
                   .what = "gley.toml - description of a farm for gleyd(1)"});
  page.section("DESCRIPTION")
      .paragraph(
          "A farm, its weather stations, fields, machines and materials, in TOML, in one file or "
          "several. Keys that are not listed here are errors. gleyd check names every problem with "
          "its file and line.")
      .paragraph(
          "A path that begins with $CREDENTIALS_DIRECTORY/ names a secret that systemd hands to "
          "the service (LoadCredential= in systemd.exec(5)).")
      .paragraph(
          "What changes is taken up by a reload (systemctl reload gleyd), where it is not said to "
          "be taken up at the next start.");
  page.section("SETTINGS");
  for (const SettingsTable& table : all_settings()) write_table(page, table);
  page.section("EXAMPLE").paragraph("The least that runs:");
  page.example(
      "[farm]\nid = \"alder\"\nname = \"Alder Farm\"\nlatitude = 53.9\nlongitude = -1.3\n"
      "elevation_m = 57\ntime_zone = \"Europe/London\"\n\n[store]\npath = "
      "\"/var/lib/gley/alder.db\"\n"
      "\n[[station]]\nid = \"yard\"\n[[station.reading]]\ntopic = \"weather/yard/rain\"\n"
      "quantity = \"rain\"\nunit = \"mm\"\nform = \"interval\"\n\n[[field]]\nid = \"top\"\n"
      "station = \"yard\"\nsoil = \"clay loam\"\ncrop = \"grass\"\n");
  page.section("SEE ALSO").paragraph("gleyd(1)");
  return std::move(page).text();
}

}  // namespace gley::daemon
