#include "daemon/engine/explain/explanation_sections.hpp"

namespace gley::daemon {

namespace {

std::string joined_sources(const std::vector<SourceCount>& sources) {
  std::string text;
  for (const SourceCount& source : sources)
    text += (text.empty() ? "" : "; ") + source.source + ", " + std::to_string(source.readings) +
            (source.used ? " used" : " not used");
  return text;
}

bool all_used(const std::vector<SourceCount>& sources) {
  for (const SourceCount& source : sources)
    if (!source.used) return false;
  return true;
}

ExplanationLine doubt_line(const std::string& station, const Doubt& doubt) {
  return {.key = "doubt",
          .name = "doubted at station " + station,
          .value = in_words(doubt),
          .source = "quality check, limits after Zahumensky (2004) and our own",
          .note = std::string(what_to_do(doubt.kind))};
}

}  // namespace

ExplanationSection readings_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Readings", .lines = {}};
  for (const QuantitySources& of : day.sources) {
    if (of.sources.size() < 2) continue;
    out.lines.push_back(
        {.key = "sources",
         .name = std::string(to_word(of.quantity)) + " at station " + of.station,
         .value = joined_sources(of.sources),
         .source = all_used(of.sources)
                       ? "readings of all are taken together"
                       : "of several sources of one amount the one with most readings counts, "
                         "ties go by name (our choice)"});
  }
  for (const auto& [station, doubt] : day.doubts) out.lines.push_back(doubt_line(station, doubt));
  for (const SeenDay& seen : day.seen)
    for (const Doubt& doubt : seen.doubts) out.lines.push_back(doubt_line(seen.station, doubt));
  return out;
}

}  // namespace gley::daemon
