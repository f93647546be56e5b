#include "daemon/board/documents/explanation_json.hpp"

#include "daemon/text/json_text.hpp"

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

Json section_object(const ExplanationSection& section) {
  return {{"title", section.title}, {"lines", json_list(section.lines, line_object)}};
}

}  // namespace

std::string explanation_json(const Explanation& explanation) {
  return json_text(Json{{"field", explanation.field_id},
                        {"name", explanation.field_name},
                        {"farm", explanation.farm_name},
                        {"date", explanation.date},
                        {"so_far", explanation.so_far},
                        {"intro", explanation.intro},
                        {"sections", json_list(explanation.sections, section_object)}});
}

}  // namespace gley::daemon
