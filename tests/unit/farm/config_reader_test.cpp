#include "daemon/farm/config_reader.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::daemon;
using namespace gley::test;
using Lines = std::vector<std::string>;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

const char* const documented = R"([farm]
id = "alder"
name = "Alder Farm"
latitude = 53.9
longitude = -1.3
elevation_m = 57
time_zone = "Europe/London"      # IANA; optional day_starts = "00:00" (09:00 is common at rain gauges; a day is named by the date it begins)

[mqtt]                           # optional: host, port, client_id, user, password_file, ca_file, root = "gley/alder"
port = 1883
[http]                           # optional: address (default loopback), port, token_file
port = 8080
[forecast]
topic = "weather/forecast"       # optional: [forecast.parameters] to match keys that are not our quantity names
[readings]                       # optional: oldest_days = 30: older readings, or over 10 minutes ahead, are kept aside, counted and not used
[store]
path = "alder.db"                # optional: durability = "power" (default: survives a power cut) or "process" (survives a kill)

[[station]]
id = "yard"                      # optional: latitude, longitude, elevation_m, wind_height_m = 2
[[station.reading]]
topic = "weather/yard/rain"      # optional: value = "/rain/mm", time = "/ts" (RFC 6901 pointers into JSON); SenML: name = "rain", else every record counts
quantity = "rain"                # rain, temperature, humidity, dew_point, wind, sunshine, radiation, irrigation
unit = "mm"                      # names of the SenML registries (RFC 8428, RFC 8798): mm, Cel, %RH, m/s, W/m2, ...
form = "interval"                # interval, counter (may reset; step = mm a tip), rate, instant

[[field]]
id = "top"
name = "Top Field"
station = "yard"                 # or ["yard", "brook"], in order of trust
soil = "clay loam"
drainage = "moderate"
crop = "grass"

[[machine]]
id = "drill"
name = "Tractor and drill"
wheel_load_t = 2.6               # the heaviest wheel
tyre_pressure_bar = 1.0

[[material]]
id = "nitrogen"
name = "Nitrogen top dressing"
kind = "mineral fertiliser"      # or slurry, solid manure, spray
)";

struct Wrong {
  const char* lines;  ///< a table's head and a key
  const char* words;
};

/// Behind the least farm each is a problem, named at its key's line.
void check_named(std::initializer_list<Wrong> all) {
  for (const Wrong& wrong : all) {
    const std::string line = problem_of(least_farm() + wrong.lines + "\n");
    CHECK_THAT(line, StartsWith("farm.toml:20: ") && Contains(wrong.words));
  }
}

}  // namespace

TEST_CASE("the documented farm is read as it stands") {
  const ConfigDirectory directory;
  directory.write("farm.toml", documented);
  const ConfigResult result = directory.read();
  REQUIRE(result.problems.empty());
  const FarmConfig& farm = *result.farm;
  CHECK(farm.name == "Alder Farm");
  CHECK(farm.latitude == 53.9);
  CHECK(farm.longitude == -1.3);
  CHECK(farm.mqtt.client_id == "gley-alder");
  CHECK(farm.mqtt.root == "gley/alder");
  CHECK(farm.http.address == "127.0.0.1");
  CHECK(farm.forecast->topic == "weather/forecast");
  CHECK(farm.store.path == directory.path() / "alder.db");
  REQUIRE(farm.stations.size() == 1);
  REQUIRE(farm.stations[0].readings.size() == 1);
  const ReadingMap& rain = farm.stations[0].readings[0];
  CHECK(rain.topic == "weather/yard/rain");
  CHECK(rain.quantity == Quantity::rain);
  CHECK(rain.form == ReadingForm::interval);
  CHECK(rain.unit == "mm");
  CHECK(rain.place.line == 21);
  REQUIRE(farm.fields.size() == 1);
  CHECK(farm.fields[0].stations == Lines{"yard"});
  CHECK(std::get<SoilByClass>(farm.fields[0].soil).name == "clay loam");
  CHECK(farm.fields[0].drainage == DrainageClass::moderate);
  CHECK(std::get<std::string>(farm.fields[0].crop) == "grass");
  CHECK(farm.machines.at(0).wheel_load_t == 2.6);
  CHECK(farm.materials.at(0).kind == MaterialKind::mineral_fertiliser);
}

TEST_CASE("a farm of few words has the stated defaults") {
  const FarmConfig farm = farm_of(least_farm());
  CHECK(farm.name == "alder");
  CHECK(farm.day_starts == std::chrono::minutes{0});
  CHECK(farm.oldest_days == 30);
  CHECK(farm.silent_after_h == 6.0);
  CHECK(farm.mqtt.port == 1883);
  CHECK_FALSE(farm.forecast.has_value());
  CHECK(farm.store.durability == Durability::power);
  CHECK(farm.store.path.filename() == "alder.db");
  CHECK(farm.fields[0].name == "top");
  CHECK(farm.fields[0].drainage == DrainageClass::moderate);
  CHECK_FALSE(farm.fields[0].textbook);
}

TEST_CASE("every optional key of a farm is taken") {
  const FarmConfig farm = farm_of(R"([farm]
id = "alder"
latitude = 53.9
longitude = -1.3
elevation_m = 57
time_zone = "Europe/London"
day_starts = "09:00"
[mqtt]
host = "broker.example"
client_id = "other"
root = "farms/alder"
user = "gley"
[http]
address = "::1"
[forecast]
topic = "fc/+/point"
days = 5
[forecast.parameters]
t2m = "temperature"
tp = "rain"
[readings]
oldest_days = 400
silent_after_h = 3.5
[store]
durability = "process"
[[station]]
id = "yard"
name = "Yard mast"
latitude = 54
longitude = -1
elevation_m = 60
wind_height_m = 10
krs = 0.19
dew_point_offset_c = -4.5
[[station.reading]]
topic = "w/#"
value = "/rain/mm"
time = "/ts"
quantity = "rain"
unit = "mm"
form = "counter"
step = 0.2
[[station]]
id = "brook"
[[field]]
id = "top"
station = ["yard", "brook"]
soil = { sand_pct = 30, clay_pct = 35, organic_pct = 4 }
crop = { kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, depletion_fraction = 0.5 }
drainage = "poor"
textbook = true
rew_mm = 9
tew_mm = 20
area_ha = 4.2
slope_pct = 3
soil_depth_mm = 900
slow_layer_depth_mm = 300
start_depletion_mm = 12
pipe_drains = true
pipe_rate_mm_d = 8
water_distance_m = 20
spring_distance_m = 80
sign_machine = "drill"
[[field]]
id = "low"
station = "brook"
soil = { field_capacity = 0.36, wilting_point = 0.20, saturation = 0.48 }
root_depth_mm = 600
crop = "winter wheat"
[[machine]]
id = "drill"
wheel_load_t = 2.6
tyre_pressure_bar = 1
mass_t = 8
cultivates = true
)");
  CHECK(farm.day_starts == std::chrono::hours{9});
  CHECK(farm.mqtt.client_id == "other");
  CHECK(farm.mqtt.root == "farms/alder");
  CHECK(farm.forecast->days == 5);
  CHECK(farm.forecast->parameters.at("tp") == "rain");
  CHECK(farm.silent_after_h == 3.5);
  CHECK(farm.store.durability == Durability::process);
  const StationConfig& yard = farm.stations[0];
  CHECK(yard.name == "Yard mast");
  CHECK(yard.dew_point_offset_c == -4.5);
  CHECK(yard.readings[0].step == 0.2);
  CHECK(yard.readings[0].value_pointer == "/rain/mm");
  CHECK(site_of(farm, yard).latitude_deg == 54.0);
  CHECK(site_of(farm, yard).wind_height_m == 10.0);
  CHECK(site_of(farm, farm.stations[1]).latitude_deg == 53.9);
  CHECK(site_of(farm, farm.stations[1]).elevation_m == 57.0);
  const FieldConfig& top = farm.fields[0];
  CHECK(top.stations == Lines{"yard", "brook"});
  CHECK(std::get<SoilByTexture>(top.soil).organic_pct == 4.0);
  CHECK(std::get<CropByNumbers>(top.crop).kcb == 0.95);
  CHECK(top.textbook);
  CHECK(top.pipe_rate_mm_d == 8.0);
  CHECK(top.sign_machine == "drill");
  CHECK(std::get<SoilByNumbers>(farm.fields[1].soil).saturation == 0.48);
  CHECK(farm.machines[0].cultivates);
}

TEST_CASE("many problems are reported together, in the order of their lines") {
  const Lines lines = problems_of(R"([farm]
id = "alder farm"
latitude = 539
longitude = -1.3
elevation_m = "57"
time_zone = "Europe/Londn"
day_start = "09:00"
[[station]]
id = "yard"
[[field]]
id = "top"
station = "yrad"
soil = "clay laom"
drainage = "modrate"
crop = "gras"
)");
  CHECK(
      lines ==
      Lines{
          "farm.toml:2: [farm]: id is \"alder farm\"; it must be letters a to z, digits, - and _, "
          "at most 64, for it is part of topics and addresses (put any other spelling in name)",
          "farm.toml:3: [farm]: latitude is 539; it must be from -90 to 90 degrees (north "
          "positive)",
          "farm.toml:5: [farm]: elevation_m is \"57\"; it must be a number, such as 2.5, without "
          "quotation marks",
          "farm.toml:6: [farm]: time_zone is \"Europe/Londn\"; there is no such time zone; did "
          "you mean \"Europe/London\"?",
          "farm.toml:7: [farm]: day_start is an unknown key; did you mean \"day_starts\"?",
          "farm.toml:12: [[field]] 'top': station is \"yrad\"; there is no such station; did you "
          "mean \"yard\"?",
          "farm.toml:13: [[field]] 'top': soil is \"clay laom\"; there is no such texture class; "
          "did you mean \"clay loam\"?",
          "farm.toml:14: [[field]] 'top': drainage is \"modrate\"; it must be free, moderate, "
          "slow or poor; did you mean \"moderate\"?",
          "farm.toml:15: [[field]] 'top': crop is \"gras\"; there is no such crop; did you mean "
          "\"grass\"?",
      });
}

TEST_CASE("a problem leaves no farm") {
  const ConfigDirectory directory;
  directory.write("farm.toml", least_farm() + "spare = 1\n");
  const ConfigResult result = directory.read();
  CHECK_FALSE(result.farm.has_value());
  REQUIRE(result.problems.size() == 1);
  CHECK(result.problems[0].place.line == 19);
}

TEST_CASE("an empty file misses farm, station and field") {
  CHECK(problems_of("") == Lines{"farm.toml:1: there is no [farm]; add it",
                                 "farm.toml:1: there is no [[station]]; add one",
                                 "farm.toml:1: there is no [[field]]; add one"});
}

TEST_CASE("what is not TOML is reported with its line") {
  CHECK_THAT(problem_of("[farm]\nid = alder\n"), StartsWith("farm.toml:2: not valid TOML: "));
  CHECK_THAT(problem_of("[farm]\n\n[farm]\n"), StartsWith("farm.toml:3: not valid TOML: "));
  CHECK_THAT(problem_of("[farm]\nname = \"\xff\xfe\"\n"),
             StartsWith("farm.toml:2: not valid TOML"));
}

TEST_CASE("a file that is not there is reported") {
  const ConfigDirectory directory;
  CHECK(directory.problems("none.toml") ==
        Lines{"none.toml:1: cannot read none.toml: No such file or directory"});
  std::filesystem::create_directory(directory.path() / "folder.toml");
  CHECK(directory.problems("folder.toml") ==
        Lines{"folder.toml:1: cannot read folder.toml: not a file"});
}

TEST_CASE("a missing key that takes one of few words is told with them") {
  CHECK(problem_of(least_farm() + "[[material]]\nid = \"n\"\n") ==
        "farm.toml:19: [[material]] 'n': kind is missing: what it is; one of mineral fertiliser, "
        "slurry, solid manure or spray");
}

TEST_CASE("a time zone that is like none is told how they are named") {
  CHECK_THAT(problem_of(with(least_farm(), "Europe/London", "Great Britain")),
             Contains("they are named by continent and city, such as \"Europe/London\""));
  CHECK_THAT(problem_of(with(least_farm(), "Europe/London", "London")),
             Contains("did you mean \"Europe/London\"?"));
}

TEST_CASE("the broker's host has neither scheme nor port") {
  for (const char* bad : {"mqtt://localhost", "localhost:1883", "local host"}) {
    INFO(bad);
    CHECK_THAT(
        problem_of(least_farm() + "[mqtt]\nhost = \"" + bad + "\"\n"),
        StartsWith("farm.toml:20: [mqtt]: host is \"" + std::string(bad) + "\"; it must be"));
  }
  for (const char* good : {"localhost", "broker.example.org", "192.0.2.7", "2001:db8::7"}) {
    INFO(good);
    CHECK(problems_of(least_farm() + "[mqtt]\nhost = \"" + good + "\"\n").empty());
  }
}

TEST_CASE("missing keys are named at their table") {
  const Lines lines = problems_of("[farm]\n[[station]]\n[[field]]\nid = \"a\"\n[[machine]]\n");
  REQUIRE(lines.size() == 12);
  CHECK_THAT(lines[0], StartsWith("farm.toml:1: [farm]: id is missing: "));
  CHECK_THAT(lines[4], StartsWith("farm.toml:1: [farm]: time_zone is missing: a name of the IANA"));
  CHECK_THAT(lines[5], StartsWith("farm.toml:2: [[station]]: id is missing"));
  CHECK_THAT(lines[6], StartsWith("farm.toml:3: [[field]] 'a': station is missing"));
  CHECK_THAT(lines[7], StartsWith("farm.toml:3: [[field]] 'a': soil is missing"));
  CHECK_THAT(lines[8], StartsWith("farm.toml:3: [[field]] 'a': crop is missing"));
  CHECK_THAT(lines[11], StartsWith("farm.toml:5: [[machine]]: tyre_pressure_bar is missing"));
}

TEST_CASE("a present value of a wrong type is never replaced by the default") {
  check_named(
      {{"[mqtt]\nport = \"1883\"", "port is \"1883\"; it must be a whole number"},
       {"[mqtt]\nport = 1883.5", "port is 1883.5; it must be a whole number"},
       {"[mqtt]\nhost = 5", "host is 5; it must be a text in quotation marks"},
       {"[mqtt]\nhost = \"\"", "host is empty"},
       {"[http]\nport = true", "port is true; it must be a whole number"},
       {"[readings]\noldest_days = 2026-01-01", "oldest_days is a date"},
       {"[readings]\nsilent_after_h = [6]", "silent_after_h is a list; it must be a number"},
       {"[store]\npath = {}", "path is a table; it must be a text"},
       {"[forecast]\ntopic = 3", "topic is 3"}});
}

TEST_CASE("numbers that are none, or out of range, are reported with the range") {
  check_named({{"[mqtt]\nport = 0", "port is 0; it must be from 1 to 65535"},
               {"[mqtt]\nport = 65536", "port is 65536; it must be from 1 to 65535"},
               {"[http]\nport = -1", "port is -1; it must be from 1 to 65535"},
               {"[http]\nport = 9223372036854775807", "it must be from 1 to 65535"},
               {"[readings]\nsilent_after_h = inf", "silent_after_h is inf; it must be a finite"},
               {"[readings]\nsilent_after_h = nan", "silent_after_h is nan; it must be a finite"},
               {"[readings]\nsilent_after_h = 0", "silent_after_h is 0; it must be above 0 and at"},
               {"[readings]\noldest_days = nan", "oldest_days is nan"},
               {"[readings]\noldest_days = -inf", "oldest_days is -inf"}});
}

TEST_CASE("unknown keys are found at every level") {
  const std::string reading =
      "[[station]]\nid = \"b\"\n[[station.reading]]\ntopic = \"a/b\"\nquantity = \"rain\"\nunit = "
      "\"mm\"\nform = \"interval\"\n";
  CHECK_THAT(problem_of("spare = 1\n" + least_farm()),
             StartsWith("farm.toml:1: spare is an unknown key"));
  CHECK(problem_of(least_farm() + "[mqqt]\nport = 1\n") ==
        "farm.toml:19: mqqt is an unknown key; did you mean \"mqtt\"?");
  CHECK(problem_of(least_farm() + reading + "topik = \"x\"\n") ==
        "farm.toml:26: [[station]] 'b', reading: topik is an unknown key; did you mean \"topic\"?");
  CHECK_THAT(problem_of(with(least_farm(), "\"clay loam\"",
                             "{ sand_pct = 30, clay_pct = 35, peat_pct = 4 }")),
             StartsWith("farm.toml:14: [[field]] 'top', soil: peat_pct is an unknown key"));
  CHECK_THAT(problem_of(least_farm() + "[[material]]\nid = \"n\"\nkind = \"slurry\"\ncolour = 1\n"),
             StartsWith("farm.toml:22: [[material]] 'n': colour is an unknown key; known are: "));
}

TEST_CASE("one pair of brackets is not two") {
  CHECK_THAT(problem_of(least_farm() + "[machine]\nid = \"a\"\n"),
             StartsWith("farm.toml:19: machine is one table; write [[machine]]"));
  CHECK_THAT(problem_of(least_farm() + "[[mqtt]]\nport = 1\n"),
             StartsWith("farm.toml:19: mqtt is a list; write [mqtt]"));
}

TEST_CASE("a blank that only looks like one is shown, with what was meant") {
  CHECK_THAT(problem_of(with(least_farm(), "clay loam", "clay\u00a0loam")),
             Contains("soil is \"clay?loam\"; there is no such texture class; did you mean \"clay "
                      "loam\"?"));
}

TEST_CASE("a reading outside its station is told where it stands") {
  CHECK(problem_of(least_farm() + "[[reading]]\ntopic = \"w/rain\"\n") ==
        "farm.toml:19: reading stands in no station; write [[station.reading]], below its "
        "[[station]]");
}

TEST_CASE("large limits are written out") {
  CHECK_THAT(problem_of(with(least_farm(), "crop =", "area_ha = -6\ncrop =")),
             Contains("area_ha is -6; it must be above 0 and at most 100000 ha"));
}

TEST_CASE("the time a day starts is a time of day") {
  for (const char* bad : {"9:00", "24:00", "09.00"}) {
    const std::string text =
        with(least_farm(), "time_zone", "day_starts = \"" + std::string(bad) + "\"\ntime_zone");
    CHECK_THAT(problem_of(text), StartsWith("farm.toml:6: [farm]: day_starts is \""));
  }
}

TEST_CASE("an address to listen on is one") {
  CHECK_THAT(problem_of(least_farm() + "[http]\naddress = \"all\"\n"),
             StartsWith("farm.toml:20: [http]: address is \"all\"; it must be an address"));
}

TEST_CASE("files that are named are there, relative to the file that names them") {
  CHECK_THAT(problem_of(least_farm() + "[mqtt]\nuser = \"g\"\npassword_file = \"secret\"\n"),
             StartsWith("farm.toml:21: [mqtt]: password_file is secret; there is no such file"));
  const ConfigDirectory directory;
  // What only the broker may look into is not absent. Root may look anywhere, but for a loop.
  std::filesystem::create_symlink("loop", directory.path() / "loop");
  directory.write("farm.toml", least_farm() + "[mqtt]\nca_file = \"loop/cert.pem\"\n");
  CHECK(
      directory.problems() ==
      Lines{"farm.toml:20: [mqtt]: ca_file is loop/cert.pem; this user cannot get at it: Too many "
            "levels of symbolic links"});
  directory.write("farm.toml", least_farm() + "[http]\ntoken_file = \"keys/token\"\n");
  directory.write("keys/token", "word\n");
  const ConfigResult result = directory.read();
  REQUIRE(result.farm.has_value());
  CHECK(result.farm->http.token_file == directory.path() / "keys/token");
}

TEST_CASE("forecast names stand for quantities") {
  CHECK_THAT(problem_of(least_farm() +
                        "[forecast]\ntopic = \"f\"\n[forecast.parameters]\nt2m = \"temprature\"\n"),
             StartsWith("farm.toml:22: [forecast], parameters: t2m is \"temprature\"; it must be "
                        "rain, temperature, "));
  CHECK_THAT(problem_of(least_farm() + "[forecast]\n"),
             StartsWith("farm.toml:19: [forecast]: topic is missing"));
}

TEST_CASE("the hash changes with a word and not with the place") {
  const FarmConfig farm = farm_of(least_farm());
  CHECK(farm.hash.size() == 16);
  CHECK(farm_of(least_farm()).hash == farm.hash);
  CHECK(farm_of(with(least_farm(), "53.9", "53.8")).hash != farm.hash);
}

TEST_CASE("a name from the file cannot command the terminal its problem is told on") {
  const auto lines = problems_of(
      R"([[machine]]
id = "dr\u001b[2Jill\tx"
)");
  REQUIRE_FALSE(lines.empty());
  for (const std::string& line : lines)
    for (const char c : line) CHECK(static_cast<unsigned char>(c) >= 0x20);
}

TEST_CASE("a certificate for the broker stands with its key and a CA, and a host name alone") {
  ConfigDirectory directory;
  for (const char* file : {"ca.pem", "own.pem", "key.pem"}) directory.write(file, "x");
  const auto problems = [&](const std::string& tables) {
    directory.write("farm.toml", least_farm() + tables);
    return directory.problems();
  };
  CHECK(problems("[mqtt]\nca_file = \"ca.pem\"\ncertificate_file = \"own.pem\"\n"
                 "key_file = \"key.pem\"\n")
            .empty());
  const auto alone = problems("[mqtt]\nca_file = \"ca.pem\"\nkey_file = \"key.pem\"\n");
  REQUIRE(alone.size() == 1);
  CHECK_THAT(alone.front(), Catch::Contains("key_file stands alone"));
  const auto plain = problems("[mqtt]\ncertificate_file = \"own.pem\"\nkey_file = \"key.pem\"\n");
  REQUIRE(plain.size() == 1);
  CHECK_THAT(plain.front(), Catch::Contains("certificate_file stands without ca_file"));
  CHECK(problems("[http]\nhost_names = \"board.example.org\"\n").empty());
  for (const char* wrong : {"https://board.example.org", "board.example.org:8080", "*.example.org"})
    CHECK(problems("[http]\nhost_names = [\"" + std::string(wrong) + "\"]\n").size() == 1);
}
