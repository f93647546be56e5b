#include "daemon/board/documents/explanation_json.hpp"

#include <nlohmann/json.hpp>

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

Json line_object(const ExplanationLine& line) {
  Json out{{"key", line.key}, {"name", line.name}};
  std::visit([&](const auto& value) { out["value"] = value; }, line.value);
  for (const auto& [key, text] : {std::pair<const char*, const std::string&>{"unit", line.unit},
                                  {"equation", line.equation},
                                  {"source", line.source},
                                  {"note", line.note}})
    if (!text.empty()) out[key] = text;
  return out;
}

}  // namespace

std::string explanation_json(const Explanation& explanation) {
  Json sections = Json::array();
  for (const ExplanationSection& section : explanation.sections) {
    Json lines = Json::array();
    for (const ExplanationLine& line : section.lines) lines.push_back(line_object(line));
    sections.push_back({{"title", section.title}, {"lines", std::move(lines)}});
  }
  const Json out{{"field", explanation.field_id},  {"name", explanation.field_name},
                 {"farm", explanation.farm_name},  {"date", explanation.date},
                 {"so_far", explanation.so_far},   {"intro", explanation.intro},
                 {"sections", std::move(sections)}};
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace gley::daemon
