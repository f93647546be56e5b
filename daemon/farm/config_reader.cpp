#include "daemon/farm/config_reader.hpp"

#include <array>
#include <map>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/config_files.hpp"
#include "daemon/farm/config_hash.hpp"
#include "daemon/farm/problem_list.hpp"
#include "daemon/farm/toml_reader.hpp"

namespace gley::daemon {
namespace {

struct TableRoute {
  const char* key;
  void (*read)(const TableReader&, ConfigDraft&);
};

constexpr std::array single_tables{
    TableRoute{"farm", read_farm},         TableRoute{"mqtt", read_mqtt},
    TableRoute{"http", read_http},         TableRoute{"forecast", read_forecast},
    TableRoute{"readings", read_readings}, TableRoute{"store", read_store},
    TableRoute{"alerts", read_alerts},
};
constexpr std::array repeated_tables{
    TableRoute{"station", read_station},         TableRoute{"field", read_field},
    TableRoute{"machine", read_machine},         TableRoute{"material", read_material},
    TableRoute{"watercourse", read_watercourse}, TableRoute{"spring", read_spring},
};

/// Where each single table was first seen.
using Seen = std::map<std::string, FilePlace>;

void read_single(const TableReader& file, const TableRoute& route, ConfigDraft& draft, Seen& seen) {
  if (!file.has(route.key)) return;
  const auto [first, is_new] = seen.emplace(route.key, file.place(route.key));
  if (!is_new) {
    file.problem(route.key,
                 "is given twice, first at " + place_text(first->second) + "; put all into one");
  }
  if (const auto table = file.child(route.key)) route.read(*table, draft);
}

void read_file(const ConfigFile& file, ConfigDraft& draft, Seen& seen, ProblemList& problems) {
  const TableReader root(file.table, {.settings = "", .label = ""}, file, problems);
  for (const TableRoute& route : single_tables) read_single(root, route, draft, seen);
  for (const TableRoute& route : repeated_tables) {
    for (const TableReader& table : root.children(route.key)) route.read(table, draft);
  }
}

void finish_defaults(FarmConfig& farm, const std::filesystem::path& directory) {
  if (farm.name.empty()) farm.name = farm.id;
  if (farm.mqtt.client_id.empty()) farm.mqtt.client_id = "gley-" + farm.id;
  if (farm.mqtt.root.empty()) farm.mqtt.root = "gley/" + farm.id;
  if (farm.store.path.empty()) farm.store.path = directory / (farm.id + ".db");
}

}  // namespace

ConfigResult read_config(const std::filesystem::path& file) {
  ProblemList problems;
  const ConfigFiles loaded = load_config_files(file, problems);
  ConfigDraft draft;
  Seen seen;
  for (const ConfigFile& each : loaded.files) read_file(each, draft, seen, problems);
  // With a file missing, what it would have given must not be missed.
  if (loaded.complete) {
    const std::string& first = loaded.names.front();
    if (!seen.contains("farm"))
      problems.add({.file = first, .line = 1}, "there is no [farm]; add it");
    finish_defaults(draft.farm, loaded.files.front().directory);
    check_farm(draft, first, problems);
  }
  if (!problems.empty()) return {.farm = std::nullopt, .problems = problems.sorted(loaded.names)};
  draft.farm.hash = hash_of(loaded.files);
  return {.farm = std::move(draft.farm), .problems = {}};
}

}  // namespace gley::daemon
