#include "daemon/board/words/board_order.hpp"

#include <algorithm>
#include <tuple>

#include "daemon/text/ascii_case.hpp"

namespace gley::daemon {
namespace {

/// How much of the machinery a field takes: two for each machine carried, one for each with care.
int ease(const FieldView& field) {
  int points = 0;
  for (const MachineView& machine : field.machines) {
    points += machine.verdict == "carries" ? 2 : machine.verdict == "with care" ? 1 : 0;
  }
  return points;
}

/// Smaller stands first.
auto rank(const FieldView& field) {
  const MachineView* machine = sign_machine_of(field);
  const bool careful = machine != nullptr && machine->verdict != "carries";
  Instant from{};
  if (machine != nullptr && place_of(field) == Place::next) from = machine->next_window->from;
  return std::tuple(careful, from, -ease(field));
}

bool before(const std::string& a, const std::string& b) {
  return lower_case(a) < lower_case(b);
}

}  // namespace

const MachineView* sign_machine_of(const FieldView& field) {
  if (const MachineView* own = with_id(field.machines, field.sign_machine)) return own;
  return field.machines.empty() ? nullptr : &field.machines.back();
}

Place place_of(const FieldView& field) {
  const MachineView* machine = sign_machine_of(field);
  if (!machine) return Place::unknown;
  if (machine->verdict == "carries" || machine->verdict == "with care") return Place::now;
  if (machine->verdict != "keep off") return Place::unknown;
  return machine->next_window ? Place::next : Place::leave;
}

std::vector<const FieldView*> fields_at(const std::vector<FieldView>& fields, Place place) {
  std::vector<const FieldView*> own;
  for (const FieldView& field : fields) {
    if (place_of(field) == place) own.push_back(&field);
  }
  std::stable_sort(own.begin(), own.end(),
                   [](const FieldView* a, const FieldView* b) { return rank(*a) < rank(*b); });
  return own;
}

std::vector<const FieldView*> fields_by_name(const std::vector<FieldView>& fields) {
  std::vector<const FieldView*> all;
  all.reserve(fields.size());
  for (const FieldView& field : fields) all.push_back(&field);
  std::stable_sort(all.begin(), all.end(),
                   [](const FieldView* a, const FieldView* b) { return before(a->name, b->name); });
  return all;
}

}  // namespace gley::daemon
