#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/store/schema.hpp"

namespace gley::daemon {

int backup(const FarmConfig& farm, const BackupOptions& options, const Voice& voice) {
  const Database database = open_store(farm.store.path, farm.store.durability);
  database.copy_to(options.to);
  voice.out << "copied " << farm.store.path.string() << " to " << options.to.string() << '\n';
  return exit_done;
}

}  // namespace gley::daemon
