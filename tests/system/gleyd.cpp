#include "tests/system/gleyd.hpp"

#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "daemon/readings/csv_rows.hpp"
#include "daemon/readings/number_text.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::tests {
namespace {

std::string quoted(const std::string& text) {
  return text.starts_with('{') || text.starts_with('[') ? text : '"' + text + '"';
}

std::string record(const std::string& name, const std::string& unit, const std::string& form) {
  return "[[station.reading]]\ntopic = \"weather/yard/pack\"\nname = \"" + name +
         "\"\nquantity = \"" + name + "\"\nunit = \"" + unit + "\"\nform = \"" + form + "\"\n";
}

/// True for two cells that say the same: the same word, or the same number to 1e-9.
bool alike(const std::string& a, const std::string& b) {
  if (a == b) return true;
  const auto x = daemon::number_from(a);
  const auto y = daemon::number_from(b);
  return x && y && std::fabs(*x - *y) <= 1e-9 * std::fmax(1.0, std::fabs(*y));
}

}  // namespace

std::string yard_station() {
  return "[[station]]\nid = \"yard\"\nwind_height_m = 10\n" + record("rain", "mm", "interval") +
         record("temperature", "Cel", "instant") + record("wind", "m/s", "instant") +
         record("sunshine", "h", "interval") +
         "[[station.reading]]\ntopic = \"weather/yard/rain\"\nquantity = \"rain\"\n"
         "unit = \"mm\"\nform = \"interval\"\n";
}

std::string field_text(const std::string& id, const FieldLook& look) {
  return "[[field]]\nid = \"" + id + "\"\nname = \"Field " + id +
         "\"\nstation = \"yard\"\nsoil = " + quoted(look.soil) + "\ndrainage = \"" + look.drainage +
         "\"\ncrop = " + quoted(look.crop) + "\n" + look.more + "\n";
}

FarmText::FarmText() : station(yard_station()), fields(field_text("top")) {}

std::string FarmText::text() const {
  return "[farm]\nid = \"alder\"\nname = \"Alder Farm\"\nlatitude = 53.428\nlongitude = -6.241\n"
         "elevation_m = 71\ntime_zone = \"" +
         time_zone + "\"\n[mqtt]\nhost = \"127.0.0.1\"\nport = " + std::to_string(mqtt_port) +
         "\n" + mqtt + "[http]\nport = " + std::to_string(http_port) + "\n" + http +
         "[readings]\noldest_days = " + std::to_string(oldest_days) +
         "\n[store]\npath = \"alder.db\"\ndurability = \"" + durability + "\"\n" + station +
         fields + more;
}

HttpAnswer http_get(std::uint16_t port, const std::string& path) try {
  daemon::RawClient client(port);
  client.send("GET " + path + " HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
  if (!client.read_to_close(patience)) return {};
  const std::string& text = client.received();
  const auto end = text.find("\r\n\r\n");
  if (end == std::string::npos || !text.starts_with("HTTP/1.1 ")) return {};
  return {std::stoi(text.substr(9, 3)), text.substr(0, end), text.substr(end + 4)};
} catch (const std::runtime_error&) {
  return {};  // nobody listens there yet
}

Said run_gleyd(std::vector<std::string> arguments) {
  const TempDir directory;
  const auto out = directory.path() / "out";
  const auto err = directory.path() / "err";
  arguments.insert(arguments.begin(), GLEYD_PATH);
  const int code = run(std::move(arguments), {.out = out, .err = err}, std::chrono::minutes(5));
  return {code, read_file(out), read_file(err)};
}

Gleyd::Gleyd(FarmText text) : farm(std::move(text)) {
  configure();
}

void Gleyd::configure() {
  (void)write("farm.toml", farm.text());
}

std::filesystem::path Gleyd::write(const std::string& name, const std::string& text) const {
  std::ofstream out(directory() / name, std::ios::binary);
  out << text;
  if (!out.flush()) throw std::runtime_error("cannot write " + name);
  return directory() / name;
}

void Gleyd::launch() {
  const auto file = directory() / "log";
  std::vector<std::string> argv = under;
  argv.insert(argv.end(), {GLEYD_PATH, "serve", "--config", config().string()});
  process_ = std::make_unique<Process>(
      std::move(argv), Output{.out = file, .err = file, .environment = environment});
}

void Gleyd::start() {
  launch();
  const bool up = eventually(patience, [&] { return !running() || get("/healthz").status == 200; });
  if (!up || !running()) throw std::runtime_error("gleyd did not start:\n" + log());
}

void Gleyd::start_online() {
  start();
  const bool online = eventually(
      patience, [&] { return message_on(farm.mqtt_port, "gley/alder/state") == "online"; });
  if (!online) throw std::runtime_error("gleyd did not come online:\n" + log());
}

int Gleyd::stop(int signal) {
  process_->kill(signal);
  const auto code = process_->wait(patience);
  process_.reset();
  if (!code) throw std::runtime_error("gleyd did not stop:\n" + log());
  return *code;
}

bool Gleyd::eventually_logs(const std::string& words) const {
  return eventually(patience, [&] { return log().find(words) != std::string::npos; });
}

HttpAnswer Gleyd::get(const std::string& path) const {
  return http_get(farm.http_port, path);
}

nlohmann::json Gleyd::json(const std::string& path) const {
  return nlohmann::json::parse(get(path).body);
}

std::optional<double> Gleyd::metric(const std::string& sample) const {
  std::istringstream lines(get("/metrics").body);
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with(sample + ' ')) return daemon::number_from(line.substr(sample.size() + 1));
  return {};
}

bool Gleyd::eventually_stored(double readings) const {
  return eventually(std::chrono::minutes(3),
                    [&] { return metric("gley_readings_total{outcome=\"stored\"}") == readings; });
}

Said Gleyd::command(const std::string& name, std::vector<std::string> more) const {
  more.insert(more.begin(), {name, "--config", config().string()});
  return run_gleyd(std::move(more));
}

std::map<std::string, std::string> retained(std::uint16_t mqtt_port) {
  static const std::string last = "gley/alder/test-end";
  const Listener listener(mqtt_port, "gley/alder/#");
  // What is retained is handed out at once, so all of it stands before this.
  publish_with_mosquitto_pub(mqtt_port, last, "1");
  std::map<std::string, std::string> messages;
  const bool all = eventually(patience, [&] {
    messages.clear();
    for (const std::string& line : listener.lines()) {
      const auto space = line.find(' ');
      messages[line.substr(0, space)] = line.substr(space + 1);
    }
    return messages.count(last) > 0;
  });
  if (!all) throw std::runtime_error("the broker does not hand out what is retained");
  messages.erase(last);
  return messages;
}

bool eventually_retained(
    std::uint16_t mqtt_port,
    const std::function<bool(const std::map<std::string, std::string>&)>& yes) {
  return eventually(patience, [&] { return yes(retained(mqtt_port)); });
}

std::string replayed_days(const Gleyd& gleyd, const std::filesystem::path& weather,
                          const std::string& field) {
  const auto folder = gleyd.directory() / ("replay-" + field);
  const Said said = gleyd.command(
      "replay", {"--weather", weather.string(), "--out", folder.string(), "--field", field});
  if (said.code != 0) throw std::runtime_error("replay failed: " + said.err);
  return read_file(folder / "days.csv");
}

std::string difference(const std::string& got, const std::string& want) {
  const auto got_rows = daemon::csv_rows(got);
  const auto want_rows = daemon::csv_rows(want);
  for (std::size_t i = 0; i < want_rows.size(); ++i) {
    const auto& cells = want_rows[i].cells;
    if (i >= got_rows.size()) return "no row " + cells.front();
    if (got_rows[i].cells.size() != cells.size()) return "another number of cells on " + cells[0];
    for (std::size_t c = 0; c < cells.size(); ++c)
      if (!alike(got_rows[i].cells[c], cells[c]))
        return cells.front() + ' ' + want_rows.front().cells[c] + ": got " + got_rows[i].cells[c] +
               ", want " + cells[c];
  }
  return got_rows.size() > want_rows.size() ? "more rows than wanted" : "";
}

}  // namespace gley::tests
