#include "daemon/board/words/plain_words.hpp"
#include "daemon/engine/explain/explanation_sections.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;
using model::Wetness;

const char* held(double memory) {
  return memory > 0.5 ? "it held the evening before" : "it did not hold the evening before";
}

/// One rule of the wetness words: what it looks at, and whether it holds.
ExplanationLine rule(Wetness word, double found, std::string equation, bool holds) {
  const std::string name(model::to_word(word));
  return {.key = "rule " + name,
          .name = name + "?",
          .value = std::string(holds ? "yes" : "no"),
          .equation = std::move(equation) + worked(": {}", {found})};
}

void say_rules(const ExplainedDay& day, Lines& lines) {
  const model::FieldWater<double>& water = day.day.evening.water;
  const model::FieldWater<double>& before = day.morning.water;
  const double fill = model::topsoil_fill(day.field.parameters, water);
  ExplanationLine logged = rule(Wetness::waterlogged, fill,
                                "from half the topsoil's room above field capacity full, or "
                                "ponded, until under 0.3 of it",
                                water.waterlogged > 0.5);
  logged.note = worked("{} mm standing; ", {water.pond_mm}) + held(before.waterlogged);
  lines.push_back(std::move(logged));
  ExplanationLine full =
      rule(Wetness::at_field_capacity, day.day.depletion_mm,
           "from Dr of 1 mm, until the topsoil deficit is over 3 mm; Dr", water.at_capacity > 0.5);
  full.note =
      worked("topsoil deficit {} mm; ", {day.day.topsoil_deficit_mm}) + held(before.at_capacity);
  lines.push_back(std::move(full));
  lines.push_back(rule(Wetness::near_field_capacity, day.day.topsoil_deficit_mm,
                       "topsoil deficit at most 5 mm", day.day.topsoil_deficit_mm <= 5.0));
  const double raw_mm = day.day.fluxes.depletion_fraction * day.day.stand.total_available_mm;
  lines.push_back(rule(
      Wetness::short_of_water, day.day.depletion_mm,
      worked("something grows (Kcb {} over 0) and Dr over RAW {} mm", {day.day.stand.kcb, raw_mm}),
      0.0 < day.day.stand.kcb && day.day.depletion_mm > raw_mm));
  lines.push_back({.key = "rule moist",
                   .name = "moist?",
                   .value = std::string("yes"),
                   .equation = "whatever is left"});
}

std::string flags_in_words(const std::string& flags) {
  std::string text;
  std::size_t start = 0;
  while (start < flags.size()) {
    const std::size_t end = std::min(flags.find(';', start), flags.size());
    text += (text.empty() ? "" : "; ") + flag_words(flags.substr(start, end - start));
    start = end + 1;
  }
  return text;
}

}  // namespace

ExplanationSection wetness_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Wetness: the first that holds", .lines = {}};
  say_rules(day, out.lines);
  out.lines.push_back({.key = "wetness",
                       .name = "wetness",
                       .value = std::string(model::to_word(day.day.wetness)),
                       .source = "our choice of words and limits"});
  const std::string flags = model::to_words(day.day.flags);
  out.lines.push_back(
      {.key = "flags", .name = "flags", .value = flags, .note = flags_in_words(flags)});
  return out;
}

}  // namespace gley::daemon
