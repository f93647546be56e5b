// Bytes of the board's page with all that it loads, for a farm of twelve fields and for one of 500,
// and of the same compressed, where the server offers that.
#include <cstdio>
#include <set>

#include "tests/bench/running_farm.hpp"

namespace gley::bench {
namespace {

/// Addresses that a page loads: of href and src attributes of its head and scripts.
std::set<std::string> loaded_by(const std::string& page) {
  std::set<std::string> paths;
  for (const std::string tag : {"<link", "<script"})
    for (std::size_t at = page.find(tag); at != std::string::npos; at = page.find(tag, at + 1)) {
      const std::string text = page.substr(at, page.find('>', at) - at);
      for (const std::string attribute : {"href=\"", "src=\""}) {
        const std::size_t from = text.find(attribute);
        if (from == std::string::npos) continue;
        const std::size_t begins = from + attribute.size();
        paths.insert(text.substr(begins, text.find('"', begins) - begins));
      }
    }
  return paths;
}

struct Weight {
  std::size_t bytes = 0;
  std::size_t compressed = 0;
};

Weight weight_of(const RunningFarm& farm) {
  std::set<std::string> paths = loaded_by(farm.get("/").body);
  paths.insert("");
  Weight weight;
  for (const std::string& path : paths) {
    const std::string whole = path.starts_with('/') ? path : "/" + path;
    weight.bytes += farm.get(whole).body.size();
    weight.compressed += farm.get(whole, "Accept-Encoding: gzip\r\n").body.size();
  }
  return weight;
}

Weight weight_of(int fields, std::chrono::sys_days until) {
  RunningFarm farm({.fields = fields, .stations = 1, .machines = 3});
  (void)fill_store(farm.store(), farm.scene(), until, 60);
  (void)farm.start();
  const Weight weight = weight_of(farm);
  farm.stop();
  return weight;
}

void measure() {
  const auto today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  const std::chrono::sys_days until = today - std::chrono::days{1};
  const Weight twelve = weight_of(12, until);
  std::printf("board_page_bytes: %zu B\n", twelve.bytes);
  std::printf("board_page_bytes_gzip: %zu B\n", twelve.compressed);
  const Weight many = weight_of(500, until);
  std::printf("board_page_bytes_500_fields: %zu B\n", many.bytes);
  std::printf("board_page_bytes_500_fields_gzip: %zu B\n", many.compressed);
}

}  // namespace
}  // namespace gley::bench

int main() try { gley::bench::measure(); } catch (const std::exception& error) {
  std::fprintf(stderr, "bench_page: %s\n", error.what());
  return 1;
}
