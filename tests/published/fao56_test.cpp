#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "tests/published/published_check.hpp"

// Every example of FAO-56 that concerns what is built, one test each, named and judged by the rows
// of fao56.json: against the print within its rounding, and against the same sum without rounding.
namespace gley::published {
namespace {

constexpr double exact_tolerance = 1e-9;  // the exact values stand to ten decimals

const std::vector<PublishedCheck>& checks() {
  static const std::vector<PublishedCheck> read =
      read_checks(GLEY_SOURCE_DIR "/tests/published/fao56.json");
  return read;
}

const Calculations& calculations() {
  static const Calculations all = [] {
    Calculations joined = fao56_weather();
    joined.merge(fao56_crop());
    joined.merge(fao56_ten_days());
    return joined;
  }();
  return all;
}

std::string name_of(const PublishedCheck& check) {
  return "FAO-56 " + check.page + ", Eq. " + check.equations + ": " + check.what + " (" + check.id +
         ")";
}

void compare(const PrintedValue& value, const Series& got) {
  REQUIRE(got.size() == value.printed.size());
  for (std::size_t i = 0; i < got.size(); ++i) {
    INFO(value.name << " place " << i + 1 << ", " << value.unit << ": got " << got[i]
                    << ", printed " << value.printed[i] << ", exact " << value.exact[i]);
    CHECK(std::fabs(got[i] - value.exact[i]) <= exact_tolerance);
    if (!value.print_is_wrong[i]) {
      CHECK(std::fabs(got[i] - value.printed[i]) <= value.tolerance);
    }
  }
}

class ExampleTest : public Catch::ITestInvoker {
 public:
  explicit ExampleTest(const PublishedCheck& check) : check_(check) {}
  void invoke() const override {
    const Results results = calculations().at(check_.id)(check_.inputs);
    CHECK(results.size() == check_.values.size());
    for (const PrintedValue& value : check_.values) compare(value, results.at(value.name));
  }

 private:
  const PublishedCheck& check_;
};

/// One test for each row of the data file, so that none can be left out.
int register_examples() {
  for (const PublishedCheck& check : checks()) {
    const std::string name = name_of(check);
    const Catch::AutoReg one(new ExampleTest(check), CATCH_INTERNAL_LINEINFO, Catch::StringRef(),
                             Catch::NameAndTags(name, "[fao56]"));
  }
  return static_cast<int>(checks().size());
}

const int registered = register_examples();

void print_row(const PublishedCheck& check, const PrintedValue& value, const Series& got) {
  for (std::size_t i = 0; i < got.size(); ++i) {
    const std::string place = got.size() > 1 ? " " + std::to_string(i + 1) : "";
    std::printf("%-11s %-10s %-18s %14.8f %10g %16.10f %9.1e%s\n", check.id.c_str(),
                check.page.c_str(), (value.name + place).c_str(), got[i], value.printed[i],
                value.exact[i], got[i] - value.exact[i],
                value.print_is_wrong[i] ? "  print wrong" : "");
  }
}

}  // namespace

TEST_CASE("the data of FAO-56 and the calculations name the same examples") {
  CHECK(registered > 0);
  CHECK(calculations().size() == checks().size());
  for (const PublishedCheck& check : checks()) CHECK(calculations().count(check.id) == 1);
}

TEST_CASE("a table of all examples of FAO-56", "[.report]") {
  std::printf("%-11s %-10s %-18s %14s %10s %16s %9s\n", "example", "page", "value", "computed",
              "printed", "exact", "less exact");
  for (const PublishedCheck& check : checks()) {
    const Results results = calculations().at(check.id)(check.inputs);
    for (const PrintedValue& value : check.values) {
      print_row(check, value, results.at(value.name));
    }
  }
}

}  // namespace gley::published
