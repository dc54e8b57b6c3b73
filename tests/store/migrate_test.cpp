#include "store/migrate.h"
#include "temp_folder.h"

#include <doctest/doctest.h>

#include <array>

using namespace fettle::store;
using fettle::FailureKind;

namespace {

constexpr int kOurs = 0x1234;
constexpr std::array kSteps = {"CREATE TABLE a(x INTEGER) STRICT;",
                               "ALTER TABLE a ADD COLUMN y TEXT; UPDATE a SET y = x || '!';"};

FailureKind kind_thrown(Database& database) {
    try {
        migrate(database, kOurs, kSteps);
    } catch (const Trouble& trouble) {
        return trouble.failure().kind;
    }
    return FailureKind::cancelled;
}

} // namespace

TEST_CASE("an empty file becomes the newest schema, and once more changes nothing") {
    TempFolder folder;
    Database database(folder / "a.db", Access::write);
    for (int round = 0; round < 2; ++round) {
        migrate(database, kOurs, kSteps);
        CHECK(database.user_version() == 2);
        CHECK(database.application_id() == kOurs);
    }
}

TEST_CASE("an old file keeps its rows on the way up") {
    TempFolder folder;
    Database database(folder / "a.db", Access::write);
    migrate(database, kOurs, std::span(kSteps).first(1));
    database.run("INSERT INTO a VALUES (5)");
    migrate(database, kOurs, kSteps);
    auto row = database.query("SELECT y FROM a");
    REQUIRE(row.next());
    CHECK(row.get<std::string>(0) == "5!");
}

TEST_CASE("a step that fails leaves the schema it started from") {
    TempFolder folder;
    Database database(folder / "a.db", Access::write);
    const std::array broken = {kSteps[0], "CREATE TABLE b(x INTEGER); THIS IS NOT SQL;"};
    CHECK_THROWS_AS(migrate(database, kOurs, broken), Trouble);
    CHECK(database.user_version() == 1);
    CHECK_FALSE(database.query("SELECT 1 FROM sqlite_schema WHERE name = 'b'").next());
}

TEST_CASE("a newer file and a stranger's file are refused untouched") {
    TempFolder folder;
    Database newer(folder / "newer.db", Access::write);
    migrate(newer, kOurs, kSteps);
    newer.run_script("PRAGMA user_version = 3");
    CHECK(kind_thrown(newer) == FailureKind::newer);
    CHECK(newer.user_version() == 3);

    Database stranger(folder / "stranger.db", Access::write);
    stranger.run_script("CREATE TABLE theirs(x); PRAGMA application_id = 99");
    CHECK(kind_thrown(stranger) == FailureKind::damaged);
    CHECK(stranger.application_id() == 99);
}
