#include "daemon/board/words/board_order.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

FieldView field_of(const std::string& name, const std::string& verdict) {
  FieldView field = example_field();
  field.name = name;
  field.machines.front().verdict = verdict;
  return field;
}

TEST_CASE("a field stands where its sign machine puts it") {
  FieldView field = field_of("Top", "keep off");
  CHECK(place_of(field) == Place::leave);
  field.machines.front().next_window = WindowView{example_time, example_time, 0.7};
  CHECK(place_of(field) == Place::next);
  field.machines.push_back({"quad", "Quad", "carries", 0.9, {}, {}});
  CHECK(place_of(field) == Place::next);
  field.sign_machine = "quad";
  CHECK(place_of(field) == Place::now);
  field.machines.clear();
  CHECK(place_of(field) == Place::unknown);
}

TEST_CASE("what is carried stands before what needs care, what opens sooner before later") {
  std::vector<FieldView> fields{field_of("Careful", "with care"), field_of("Firm", "carries"),
                                field_of("Late", "keep off"), field_of("Soon", "keep off")};
  fields[2].machines.front().next_window =
      WindowView{example_time + std::chrono::hours{60}, example_time, 0.7};
  fields[3].machines.front().next_window =
      WindowView{example_time + std::chrono::hours{20}, example_time, 0.7};
  const auto now = fields_at(fields, Place::now);
  REQUIRE(now.size() == 2);
  CHECK(now[0]->name == "Firm");
  const auto next = fields_at(fields, Place::next);
  REQUIRE(next.size() == 2);
  CHECK(next[0]->name == "Soon");
}

}  // namespace
}  // namespace gley::daemon
