#include "store/database.h"
#include "temp_folder.h"

#include <doctest/doctest.h>

using namespace fettle::store;
using fettle::FailureKind;
using fettle::PartId;

namespace {

struct Shelf {
    TempFolder folder;
    Database database{folder / "a.db", Access::write};
    Shelf() {
        database.run_script("CREATE TABLE shelf(id INTEGER PRIMARY KEY, name TEXT, weight REAL, "
                            "picture BLOB) STRICT");
    }
    int count() {
        auto row = database.query("SELECT count(*) FROM shelf");
        row.next();
        return row.get<int>(0);
    }
};

} // namespace

TEST_CASE("every kind of value comes back as it was bound") {
    Shelf shelf;
    const Blob picture{std::byte{0}, std::byte{255}, std::byte{7}};
    shelf.database.run("INSERT INTO shelf VALUES (?, ?, ?, ?)", PartId{42}, "Schäkel ½\"", 0.1,
                       picture);
    shelf.database.run("INSERT INTO shelf VALUES (?, ?, ?, ?)", 43, std::optional<std::string>(),
                       std::optional<double>(), nullptr);
    shelf.database.run("INSERT INTO shelf VALUES (?, ?, ?, ?)", 44, "", 0.0, Blob{});
    auto rows = shelf.database.query("SELECT id, name, weight, picture FROM shelf ORDER BY id");
    REQUIRE(rows.next());
    CHECK(rows.get<PartId>(0) == PartId{42});
    CHECK(rows.get<std::string>(1) == "Schäkel ½\"");
    CHECK(rows.get<double>(2) == 0.1);
    CHECK(rows.get<Blob>(3) == picture);
    REQUIRE(rows.next());
    CHECK(rows.is_null(1));
    CHECK(rows.get<std::optional<double>>(2) == std::nullopt);
    REQUIRE(rows.next());
    CHECK_FALSE(rows.is_null(1)); // an empty text is not nothing
    CHECK_FALSE(rows.is_null(3));
    CHECK_FALSE(rows.next());
}

TEST_CASE("a transaction that is not committed leaves nothing behind") {
    Shelf shelf;
    {
        Transaction transaction(shelf.database);
        shelf.database.run("INSERT INTO shelf(name) VALUES ('lost')");
    }
    CHECK(shelf.count() == 0);
    {
        Transaction transaction(shelf.database);
        shelf.database.run("INSERT INTO shelf(name) VALUES ('kept')");
        transaction.commit();
    }
    CHECK(shelf.count() == 1);
}

TEST_CASE("writing settings are the safe ones") {
    Shelf shelf;
    auto pragma = [&](const char* sql) {
        auto row = shelf.database.query(sql);
        REQUIRE(row.next());
        return row.get<std::string>(0);
    };
    CHECK(pragma("PRAGMA journal_mode") == "wal");
    CHECK(pragma("PRAGMA synchronous") == "3"); // EXTRA
    CHECK(pragma("PRAGMA foreign_keys") == "1");
}

TEST_CASE("trouble carries a sentence for a person and the library's own words") {
    Shelf shelf;
    try {
        shelf.database.run("INSERT INTO nowhere VALUES (1)");
        FAIL("a missing table must be trouble");
    } catch (const Trouble& trouble) {
        CHECK_FALSE(trouble.failure().sentence.empty());
        CHECK(trouble.failure().detail.find("nowhere") != std::string::npos);
    }
}

TEST_CASE("a file that is no database is damaged, not a crash") {
    TempFolder folder;
    write_file(folder / "a.db", std::string(4096, 'x'));
    try {
        Database database(folder / "a.db", Access::read);
        database.user_version();
        FAIL("garbage must not open");
    } catch (const Trouble& trouble) {
        CHECK(trouble.failure().kind == FailureKind::damaged);
    }
}
