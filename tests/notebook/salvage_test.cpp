// Damage to a notebook's database: what is told, and what can be saved.
#include "damage.h"
#include "notebook/salvage.h"
#include "store/page_rows.h"
#include "store/soundness.h"

using namespace fettle;
using store::Access;

using notebook_tests::Evening;

namespace {

namespace fs = std::filesystem;

std::string rows_of(const fs::path& folder, const std::string& table) {
    return must(must(Notebook::open(folder, Access::read)).read([&](store::Database& database) {
        return notebook_tests::detail::rows_of(database, table);
    }));
}

} // namespace

TEST_CASE("rows read off the pages are those that SQLite reads, in every table") {
    const Evening evening;
    auto pages = must(store::PageRows::read(evening.file));
    CHECK_FALSE(pages.roots().damaged);
    store::Database database(evening.file, Access::read);
    for (const auto& name : store::table_names(database)) {
        CAPTURE(name);
        const auto table = store::table_of(database, name);
        const auto raw = pages.table(pages.roots().tables.at(name));
        CHECK(raw.damaged == 0);
        std::size_t at = 0;
        store::each_row(database, table, [&](std::span<const store::Cell> cells) {
            if (at >= raw.rows.size()) return false;
            const auto& row = raw.rows[at++];
            for (std::size_t column = 0; column < row.cells.size(); ++column) {
                const auto& cell = row.cells[column];
                if (cell == cells[column]) continue;
                const bool is_number =
                    cell == store::Cell() && cells[column] == store::Cell(row.number);
                const auto* whole = std::get_if<std::int64_t>(&cell);
                const auto* real = std::get_if<double>(&cells[column]);
                CHECK((is_number || (whole && real && double(*whole) == *real)));
            }
            return true;
        });
        CHECK(raw.rows.size() == std::size_t(store::row_count(database, table)));
    }
    for (const auto& [name, root] : pages.roots().tables)
        if (name.starts_with("words_")) pages.table(root); // of the index of words
    CHECK(pages.stray_pages().empty());
}

TEST_CASE("bytes turned and files cut at random are told or change nothing") {
    const Evening evening;
    evening.put(evening.bytes);
    REQUIRE(evening.outcome() == Evening::Outcome::equal);
    int equal = 0, told = 0;
    for (std::uint32_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        evening.put(notebook_tests::damaged_by(seed, evening.bytes));
        const auto outcome = evening.outcome();
        CHECK(outcome != Evening::Outcome::silent);
        ++(outcome == Evening::Outcome::equal ? equal : told);
    }
    MESSAGE("seeds 1 to 200: " << equal << " changed nothing, " << told << " were told");
}

TEST_CASE("a notebook that is whole is salvaged whole") {
    const Evening evening;
    const auto out = evening.folder / "out";
    const auto salvaged = must(salvage_record(evening.file, out));
    for (const auto& notice : salvaged.notices)
        MESSAGE(notice);
    CHECK(salvaged.is_whole());
    for (const char* table : {"parts", "entries", "entry_parts", "photos", "ties", "tasks",
                              "consignments", "contacts", "condition_steps", "vehicles"})
        CHECK(rows_of(out, table) == rows_of(evening.book, table));
    CHECK(file_text(evening.file) == evening.bytes);
    CHECK(must(record_faults(must(Notebook::open(out, Access::read)))).empty());
}

TEST_CASE("a page wiped costs at most its own rows, and most come back from history") {
    const Evening evening;
    const std::size_t page = 4096;
    int whole = 0, less = 0, refused = 0;
    for (std::size_t at = 0; at < evening.bytes.size(); at += 8 * page) {
        CAPTURE(at / page + 1);
        std::string damaged = evening.bytes;
        for (std::size_t byte = 0; byte < page; ++byte)
            damaged[at + byte] = char(0xa5);
        evening.put(damaged);
        const auto out = evening.folder / ("out" + std::to_string(at));
        auto salvaged = salvage_record(evening.file, out);
        CHECK(file_text(evening.file) == damaged);
        if (!salvaged) {
            ++refused;
            MESSAGE(salvaged.failure().sentence << salvaged.failure().detail);
            continue;
        }
        evening.put(evening.bytes);
        const bool equal = rows_of(out, "parts") == rows_of(evening.book, "parts") &&
                           rows_of(out, "entries") == rows_of(evening.book, "entries") &&
                           rows_of(out, "ties") == rows_of(evening.book, "ties");
        ++(equal ? whole : less);
        CHECK((equal || !salvaged->is_whole())); // what is lost is told
    }
    MESSAGE(whole << " whole, " << less << " with losses, " << refused << " refused");
    CHECK(refused == 0);
    CHECK(whole > 10 * less);
}

TEST_CASE("a log of the last acts that is deleted is missed, not made up for") {
    const Evening evening;
    evening.put(evening.bytes);
    {
        auto open = must(Notebook::open(evening.book, Access::write));
        must(add_part(open, {.tag = "Z1", .name = "written into the log"}));
        const auto as_it_was = file_text(evening.file);
        fs::copy_file(evening.file, evening.folder / "before.db");
        CHECK(as_it_was == evening.bytes); // the act stands in the log alone
    }
    evening.put(file_text(evening.folder / "before.db"));
    auto open = must(Notebook::open(evening.book, Access::read));
    CHECK(Evening::records_of(open) == evening.content);
    CHECK(must(record_faults(open)).empty());
}
