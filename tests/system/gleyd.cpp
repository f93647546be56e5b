#include "tests/system/gleyd.hpp"

#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "daemon/text/csv_rows.hpp"
#include "daemon/text/number_text.hpp"

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

FarmText::FarmText(std::uint16_t broker_port)
    : mqtt_port(broker_port), station(yard_station()), fields(field_text("top")) {}

std::string FarmText::text() const {
  return "[farm]\nid = \"alder\"\nname = \"Alder Farm\"\nlatitude = 53.428\nlongitude = -6.241\n"
         "elevation_m = 71\ntime_zone = \"" +
         time_zone + "\"\n[mqtt]\nhost = \"127.0.0.1\"\nport = " + std::to_string(mqtt_port) +
         "\n" + mqtt + "[http]\nport = " + std::to_string(http_port) + "\n" + http +
         "[readings]\noldest_days = " + std::to_string(oldest_days) +
         "\n[store]\npath = \"alder.db\"\ndurability = \"" + durability + "\"\n" + station +
         fields + more;
}

Said run_gleyd(std::vector<std::string> arguments) {
  const ScratchDirectory directory;
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
  const bool up = eventually([&] { return !running() || get("/healthz").status == 200; });
  if (!up || !running()) throw std::runtime_error("gleyd did not start:\n" + log());
}

void Gleyd::start_online() {
  start();
  const bool online =
      eventually([&] { return message_on(farm.mqtt_port, "gley/alder/state") == "online"; });
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
  return eventually([&] { return log().find(words) != std::string::npos; });
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

void Gleyd::load(const std::string& weather) const {
  const auto file = write("past.csv", weather);
  const Said said = command("load", {"--station", "yard", "--weather", file.string()});
  if (said.code != 0) throw std::runtime_error("load failed: " + said.err);
}

Topics retained(const Broker& broker) {
  static const std::string last = "gley/alder/test-end";
  const Listener listener(broker.port(), "gley/alder/#");
  // What is retained is handed out at once, so all of it stands before this.
  broker.publish(last, "1");
  Topics messages;
  const bool all = eventually([&] {
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

bool eventually_retained(const Broker& broker, const std::function<bool(const Topics&)>& yes) {
  return eventually([&] { return yes(retained(broker)); });
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
