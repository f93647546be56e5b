#include <algorithm>
#include <array>
#include <charconv>

#include "daemon/engine/explain/explanation_sections.hpp"
#include "daemon/farm/field_setup.hpp"
#include "daemon/text/date_text.hpp"
#include "model/version.hpp"

namespace gley::daemon {

namespace {

constexpr int shown_digits = 5;

std::string short_number(double value) {
  std::array<char, 32> buffer;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value + 0.0,
                                 std::chars_format::general, shown_digits)
                       .ptr;
  const std::string digits(buffer.data(), end);
  return digits.front() == '-' ? "(" + digits + ")" : digits;
}

/// The units that keys end in, a longer end before one that it ends in.
constexpr std::pair<std::string_view, std::string_view> units[] = {{"_mj_m2", "MJ/m2/day"},
                                                                   {"_kpa_c", "kPa/degC"},
                                                                   {"_c_d", "degC day"},
                                                                   {"_m_s", "m/s"},
                                                                   {"_kpa", "kPa"},
                                                                   {"_bar", "bar"},
                                                                   {"_pct", "%"},
                                                                   {"_deg", "deg"},
                                                                   {"_rad", "rad"},
                                                                   {"_mm", "mm"},
                                                                   {"_c", "degC"},
                                                                   {"_h", "h"},
                                                                   {"_m", "m"},
                                                                   {"_t", "t"}};

void add_unit(ExplanationLine& line) {
  if (!std::holds_alternative<double>(line.value)) return;
  for (const auto& [end, unit] : units)
    if (line.unit.empty() && line.key.ends_with(end)) line.unit = unit;
}

std::vector<std::string> intro_of(const ExplainedDay& day) {
  std::vector<std::string> intro{
      "Soil " + soil_in_words(day.config.soil) + ", drainage " +
      std::string(to_word(day.config.drainage)) + ", " +
      day.field.crops.on(day.day.date).course.name +
      (day.config.textbook ? ", textbook: plain FAO-56 without limits to drainage, runoff, snow "
                             "or frost."
                           : ".")};
  if (day.so_far)
    intro.emplace_back(
        "This day has not ended: its numbers are one step from last night's state over what was "
        "seen so far and what the rest of the day is taken to bring.");
  else if (day.first)
    intro.emplace_back("The first day on record: the field's state before it is its start.");
  intro.emplace_back(
      "Results stand in full, as days.csv has them; numbers put into equations are rounded to "
      "five digits. FAO-56 is Allen et al. (1998), FAO Irrigation and Drainage Paper 56. Model "
      "version " +
      std::string(model::version) + ".");
  return intro;
}

}  // namespace

std::string worked(std::string_view pattern, std::initializer_list<double> numbers) {
  std::string text;
  const double* next = numbers.begin();
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    const bool placed = pattern.substr(i, 2) == "{}" && next != numbers.end();
    text += placed ? short_number(*next++) : std::string(1, pattern[i]);
    if (placed) ++i;
  }
  return text;
}

Explanation explain(const ExplainedDay& day) {
  Explanation out{.field_id = day.config.id,
                  .field_name = day.config.name,
                  .farm_name = day.farm.name,
                  .date = date_text(day.day.date),
                  .so_far = day.so_far,
                  .intro = intro_of(day),
                  .sections = {}};
  for (const auto section :
       {weather_section, readings_section, sky_section, reference_et_section, snow_section,
        stand_section, surface_section, root_zone_section, runoff_section, layers_section,
        balance_section, wetness_section, ground_section, gate_section})
    out.sections.push_back(section(day));
  for (const MachineConfig& machine : day.farm.machines)
    out.sections.push_back(machine_section(day, machine));
  out.sections.push_back(spreading_section(day));
  std::erase_if(out.sections,
                [](const ExplanationSection& section) { return section.lines.empty(); });
  for (ExplanationSection& section : out.sections)
    std::for_each(section.lines.begin(), section.lines.end(), add_unit);
  return out;
}

}  // namespace gley::daemon
