#include "daemon/store/schema.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "daemon/store/store_error.hpp"
#include "tests/scratch_directory.hpp"

using namespace gley::daemon;
using Catch::Matchers::Contains;
using gley::tests::ScratchDirectory;

namespace {

std::string failure_to_open(const std::filesystem::path& file) {
  try {
    auto database = open_store(file, Durability::process);
  } catch (const StoreError& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("a_new_store_has_the_schema_of_this_program") {
  const ScratchDirectory directory;
  const auto database = open_store(directory / "farm.db", Durability::power);
  CHECK(database.number("PRAGMA user_version") == schema_version);
  CHECK(database.number("SELECT count(*) FROM reading") == 0);
  // PRAGMA synchronous: 2 is FULL, 1 is NORMAL (SQLite manual).
  CHECK(database.number("PRAGMA synchronous") == 2);
}

TEST_CASE("a_store_opened_again_keeps_what_it_holds") {
  const ScratchDirectory directory;
  open_store(directory / "farm.db", Durability::process)
      .execute("INSERT INTO derived VALUES('a', 'b', 'c', 'd')");
  const auto database = open_store(directory / "farm.db", Durability::process);
  CHECK(database.number("SELECT count(*) FROM derived") == 1);
  CHECK(database.number("PRAGMA synchronous") == 1);
}

TEST_CASE("a_store_of_a_newer_program_is_refused_unharmed") {
  const ScratchDirectory directory;
  open_store(directory / "farm.db", Durability::process).execute("PRAGMA user_version = 99");
  CHECK_THAT(failure_to_open(directory / "farm.db"),
             Contains("farm.db: written by a newer gleyd (schema 99"));
  CHECK(Database(directory / "farm.db", Durability::process).number("PRAGMA user_version") == 99);
}

TEST_CASE("a_database_of_another_program_is_refused_unharmed") {
  const ScratchDirectory directory;
  Database(directory / "other.db", Durability::process).execute("CREATE TABLE theirs(a)");
  CHECK_THAT(failure_to_open(directory / "other.db"), Contains("a database of another program"));
  const Database other(directory / "other.db", Durability::process);
  CHECK(other.number("SELECT count(*) FROM sqlite_master") == 1);
}

TEST_CASE("a_file_that_is_no_database_is_named") {
  const ScratchDirectory directory;
  std::ofstream(directory / "notes.db") << std::string(5000, 'x');
  CHECK_THAT(failure_to_open(directory / "notes.db"), Contains("notes.db: file is not a database"));
  CHECK_THAT(failure_to_open(directory / "absent/farm.db"),
             Contains("absent/farm.db: unable to open database file; there is no folder " +
                      (directory / "absent").string()));
}

TEST_CASE("a_migration_that_fails_leaves_no_half_of_itself") {
  const ScratchDirectory directory;
  {
    Database database(directory / "farm.db", Durability::process);
    // One table of the schema is in the way; the application id makes the file ours.
    database.execute("CREATE TABLE derived(a); PRAGMA application_id = 0x676c6579");
  }
  CHECK_THAT(failure_to_open(directory / "farm.db"), Contains("derived already exists"));
  const Database database(directory / "farm.db", Durability::process);
  CHECK(database.number("SELECT count(*) FROM sqlite_master") == 1);
  CHECK(database.number("PRAGMA user_version") == 0);
}

TEST_CASE("a_store_of_the_first_version_is_taken_over_with_all_it_holds") {
  const ScratchDirectory directory;
  {
    std::ifstream dump(GLEY_TEST_DATA "/store/schema-1.sql");
    REQUIRE(dump);
    const std::string sql((std::istreambuf_iterator<char>(dump)), {});
    Database(directory / "farm.db", Durability::process).execute(sql);
  }
  const auto database = open_store(directory / "farm.db", Durability::process);
  CHECK(database.number("PRAGMA user_version") == schema_version);
  CHECK(database.number("SELECT count(*) FROM reading") == 1);
  CHECK(database.number("SELECT count(*) FROM loaded_day") == 2);
  CHECK(database.number("SELECT count(*) FROM forecast") == 1);
  CHECK(database.number("SELECT count(*) FROM alert") == 1);
  CHECK(database.number("SELECT count(*) FROM forecast_day") == 0);
}

TEST_CASE("a_copy_of_the_store_is_whole_and_never_overwrites") {
  const ScratchDirectory directory;
  auto database = open_store(directory / "farm.db", Durability::process);
  database.execute("INSERT INTO derived VALUES('a', 'b', 'c', 'd')");
  database.copy_to(directory / "copy.db");
  const auto copy = open_store(directory / "copy.db", Durability::process);
  CHECK(copy.number("SELECT count(*) FROM derived") == 1);
  CHECK_THROWS_WITH(database.copy_to(directory / "copy.db"), Contains("copy.db: exists already"));
  CHECK_THROWS_WITH(database.copy_to(directory / "absent/copy.db"),
                    Contains("absent/copy.db: cannot be written; there is no folder "));
}
