#include "tests/system/faults.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <stdexcept>

namespace gley::tests {

namespace fs = std::filesystem;

Faults::Faults(Gleyd& gleyd) : gleyd_(gleyd), directory_(gleyd.directory() / "faults") {
  fs::create_directories(directory_ / "synced");
  const int file = ::open((directory_ / "page").c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  const bool sized = file >= 0 && ::ftruncate(file, sizeof(FaultPage)) == 0;
  void* at = sized ? ::mmap(nullptr, sizeof(FaultPage), PROT_READ | PROT_WRITE, MAP_SHARED, file, 0)
                   : MAP_FAILED;
  ::close(file);
  if (at == MAP_FAILED) throw std::runtime_error("no page for the faults");
  page_ = static_cast<volatile FaultPage*>(at);
  // A sanitizer's own library wants to be first; ours stands before it and calls on to it.
  gleyd_.environment = {"LD_PRELOAD=" GLEY_FAULTS_LIBRARY, "GLEY_FAULTS=" + directory_.string(),
                        "ASAN_OPTIONS=verify_asan_link_order=0:detect_leaks=0"};
}

Faults::~Faults() {
  ::munmap(const_cast<FaultPage*>(page_), sizeof(FaultPage));
}

void Faults::cut_power() {
  gleyd_.stop(SIGKILL);
  const fs::path store = gleyd_.store();
  fs::remove(store.string() + "-shm");
  for (const std::string end : {"", "-wal"}) {
    const fs::path file = store.string() + end;
    fs::remove(file);
    const fs::path synced = directory_ / "synced" / file.filename();
    if (fs::exists(synced)) fs::copy_file(synced, file);
  }
}

}  // namespace gley::tests
