#include "fixture.h"
#include "notebook/clocks.h"
#include "notebook/record_faults.h"
#include "notebook/runs.h"
#include "notebook/search.h"
#include "notebook/sides.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace fettle;
using store::Access;

TEST_CASE("a fresh notebook has its folders, one vehicle and nothing to undo") {
    Desk desk;
    CHECK(std::filesystem::is_directory(desk.folder / "book/photos"));
    CHECK(std::filesystem::is_directory(desk.folder / "book/cache"));
    CHECK(must(list_vehicles(desk.book)).size() == 1);
    CHECK(desk.book.next_undo().empty());
}

TEST_CASE("another notebook to read on the same folder sees whole acts and cannot write") {
    Desk desk;
    auto also = must(desk.book.also_to_read());
    CHECK(must(list_parts(also)).empty());
    must(desk.book.act("added two parts", [&](store::Database&) -> Done {
        desk.part("H7", "spring hanger");
        CHECK(must(list_parts(also)).empty());
        desk.part("P6", "shackle pin");
        return done();
    }));
    CHECK(must(list_parts(also)).size() == 2);
    const auto held = must(also.read([&](store::Database&) {
        const auto before = must(list_parts(also)).size();
        desk.part("C2", "clamp");
        return std::pair(before, must(list_parts(also)).size());
    }));
    CHECK(held == std::pair<std::size_t, std::size_t>(2, 2)); // one state, whoever writes meanwhile
    CHECK(holds(sentence(add_part(also, {.name = "king pin"})), "for reading only"));
}

TEST_CASE("closing another notebook to read leaves the first one's hold on its database") {
    Desk desk;
    desk.part("H7", "spring hanger");
    { auto also = must(desk.book.also_to_read()); }
    // Another process, as locks of this one do not hold against itself.
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        try {
            store::Database other(desk.folder / "book/notebook.db", Access::write);
            other.gather(); // only where nobody else has it open
            _exit(0);
        } catch (const store::Trouble& trouble) {
            _exit(trouble.failure().kind == FailureKind::busy ? 7 : 1);
        }
    }
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    CHECK(WEXITSTATUS(status) == 7);
    desk.part("P6", "shackle pin");
    CHECK(must(list_parts(desk.book)).size() == 2);
}

TEST_CASE("a second notebook is not made over the first") {
    Desk desk;
    auto again = Notebook::create(desk.folder / "book", "Another");
    CHECK(again.failure().kind == FailureKind::refused);
    CHECK(must(list_vehicles(desk.book)).front().name == "Drover");
}

TEST_CASE("a blank vehicle name makes no notebook") {
    TempFolder folder;
    CHECK(holds(sentence(Notebook::create(folder / "book", "  ")), "vehicle name"));
    CHECK_FALSE(std::filesystem::exists(folder / "book/notebook.db"));
}

TEST_CASE("a folder without a notebook says how to make one") {
    TempFolder folder;
    for (auto path : {folder.path(), folder / "missing"}) {
        auto opened = Notebook::open(path, Access::write);
        CHECK(opened.failure().kind == FailureKind::not_found);
        CHECK(holds(sentence(opened), path.string()));
        CHECK(holds(sentence(opened), "fettlebook start"));
    }
}

TEST_CASE("one notebook is open for writing once, for reading as often as one likes") {
    Desk desk;
    CHECK(Notebook::open(desk.folder / "book", Access::write).failure().kind == FailureKind::busy);
    auto reader = Notebook::open(desk.folder / "book", Access::read);
    REQUIRE(reader.ok());
    desk.part("H7", "spring hanger");
    CHECK(must(list_parts(*reader)).size() == 1);
    CHECK(holds(sentence(add_part(*reader, {.name = "pin"})), "reading only"));
}

namespace {
// By fcntl(2): asked from another process, as one is never told of its own.
bool is_locked(const std::filesystem::path& file) {
    const pid_t child = fork();
    if (child == 0) {
        const int descriptor = open(file.c_str(), O_RDWR);
        struct flock lock = {};
        lock.l_type = F_WRLCK;
        if (descriptor < 0 || fcntl(descriptor, F_GETLK, &lock) != 0) _exit(2);
        _exit(lock.l_type == F_UNLCK ? 0 : 1);
    }
    int ended = 0;
    REQUIRE(waitpid(child, &ended, 0) == child);
    REQUIRE(WIFEXITED(ended));
    REQUIRE(WEXITSTATUS(ended) < 2);
    return WEXITSTATUS(ended) == 1;
}
} // namespace

// Without its locks another program may take the log away under the one that writes
// (sqlite.org/howtocorrupt.html, 2.2: locks cancelled by a close elsewhere in the process).
TEST_CASE("a notebook opened again in the same program leaves the locks of the first") {
    Desk desk;
    const auto database = desk.folder / "book/notebook.db";
    desk.part("H7", "spring hanger");
    REQUIRE(is_locked(database));
    for (const Access access : {Access::read, Access::write}) {
        { auto again = Notebook::open(desk.folder / "book", access); }
        CHECK(is_locked(database));
    }
    { auto closed = std::move(desk.book); }
    CHECK_FALSE(is_locked(database));
}

namespace {
void refused_untouched(const std::filesystem::path& book) {
    const auto listing = [&] {
        std::string text;
        for (const auto& entry : std::filesystem::directory_iterator(book))
            text += entry.path().filename().string() + '\n';
        return text;
    };
    const auto before = file_text(book / "notebook.db"), files = listing();
    for (auto access : {Access::read, Access::write}) {
        auto opened = Notebook::open(book, access);
        CHECK(opened.failure().kind == FailureKind::newer);
        CHECK(holds(sentence(opened), "99"));
    }
    CHECK(file_text(book / "notebook.db") == before);
    CHECK(listing() == files);
}
} // namespace

TEST_CASE("a notebook of a later version is refused and left as it was") {
    Desk desk;
    { auto closed = std::move(desk.book); }
    {
        store::Database database(desk.folder / "book/notebook.db", Access::write);
        database.run_script("PRAGMA user_version = 99; PRAGMA wal_checkpoint(TRUNCATE)");
    }
    refused_untouched(desk.folder / "book");
    // The same where its number stands in the log alone.
    Desk killed;
    {
        store::Database database(killed.folder / "book/notebook.db", Access::write);
        database.run_script("PRAGMA user_version = 99");
        std::filesystem::copy(killed.folder / "book", killed.folder / "left",
                              std::filesystem::copy_options::recursive);
    }
    refused_untouched(killed.folder / "left");
}

namespace {
// Each table's rows by the columns it had when the notebook was stored, read by plain SQL.
std::map<std::string, std::vector<std::string>> columns_of(store::Database& database) {
    std::map<std::string, std::vector<std::string>> columns;
    auto rows = database.query(
        "SELECT m.name, c.name FROM sqlite_schema AS m, pragma_table_info(m.name) AS c WHERE "
        "m.type = 'table' AND m.name NOT LIKE 'words%' AND m.name NOT LIKE 'sqlite%' ORDER BY 1, "
        "2");
    while (rows.next())
        columns[rows.get<std::string>(0)].push_back(rows.get<std::string>(1));
    return columns;
}

std::string rows_of(store::Database& database, const std::string& table,
                    const std::vector<std::string>& columns) {
    std::string quoted;
    for (const auto& column : columns)
        quoted += (quoted.empty() ? "quote(" : " || ' | ' || quote(") + column + ')';
    std::string text;
    auto rows = database.query("SELECT " + quoted + " AS line FROM " + table + " ORDER BY line");
    while (rows.next())
        text += rows.get<std::string>(0) + '\n';
    return text;
}

std::filesystem::path put_stored(const TempFolder& folder, int schema) {
    std::filesystem::create_directories(folder / "book/photos");
    std::filesystem::copy_file(FETTLEBOOK_SOURCE_DIR "/tests/notebook/data/schema" +
                                   std::to_string(schema) + ".db",
                               folder / "book/notebook.db");
    return folder / "book";
}

// A notebook as a program of that schema left it, opened by today's.
Notebook stored(const TempFolder& folder, int schema) {
    return must(Notebook::open(put_stored(folder, schema), Access::write));
}
} // namespace

TEST_CASE("every value of a notebook stored with an earlier schema is there after it is opened") {
    for (int schema = 1; schema <= 6; ++schema) {
        CAPTURE(schema);
        const TempFolder folder;
        const auto file = put_stored(folder, schema) / "notebook.db";
        std::map<std::string, std::vector<std::string>> columns;
        std::map<std::string, std::string> before;
        {
            store::Database database(file, Access::read);
            columns = columns_of(database);
            for (const auto& [table, names] : columns)
                before[table] = rows_of(database, table, names);
        }
        REQUIRE(before.at("parts").size() > 10);
        auto book = must(Notebook::open(folder / "book", Access::write));
        must(book.read([&](store::Database& database) {
            for (const auto& [table, names] : columns) {
                CAPTURE(table);
                CHECK(rows_of(database, table, names) == before[table]);
            }
            return Nothing{};
        }));
        CHECK(must(record_faults(book)).empty());
    }
}

TEST_CASE("a notebook stored with schema 1 opens with everything in place") {
    const TempFolder folder;
    auto book = stored(folder, 1);
    CHECK(must(vehicle_named(book, "Quernmore Drover")).year == 1936);
    CHECK(must(part_tagged(book, "H7")).name == "rear spring hanger");
    CHECK(must(list_entries(book)).front().text == "Shackle pin seized; heat and patience.");
    // What schema 2 brought: the words of old records are found too.
    auto hits = must(find(book, "shackle"));
    REQUIRE(hits.size() == 1);
    CHECK(hits.front().kind == FoundKind::entry);
}

TEST_CASE("a notebook stored with schema 2 opens with everything in place") {
    const TempFolder folder;
    auto book = stored(folder, 2);
    CHECK(must(part_tagged(book, "H7")).name == "rear spring hanger");
    CHECK(must(ties_of_photo(book, PhotoId{1})).front().stage == Stage::before);
    CHECK(must(find(book, "shackle")).size() == 1);
    // What schema 3 brought: times as the camera wrote them, and their order.
    auto photo = must(photo_by_id(book, PhotoId{1}));
    REQUIRE(photo.taken_by_camera.has_value());
    CHECK(to_iso(*photo.taken_by_camera) == "2026-03-07T19:42:05+01:00");
    CHECK(photo.taken == photo.taken_by_camera);
    CHECK(photo.taken_from == TakenFrom::camera);
    CHECK_FALSE(must(photo_by_id(book, PhotoId{3})).taken_by_camera.has_value());
    CHECK(must(list_photos(book)).back().id == PhotoId{3}); // without a time
    CHECK(must(list_cameras(book)).size() == 2);
    must(set_clock(book, must(camera_called(book, "TL0004")), {std::chrono::hours(1), {}}));
    CHECK(to_iso(*must(photo_by_id(book, PhotoId{2})).taken) == "2026-03-07T18:40:00");
    CHECK(must(propose_runs(book)).tied_by_tag == 0);
}

TEST_CASE("a notebook stored with schema 3 opens with everything in place") {
    const TempFolder folder;
    auto book = stored(folder, 3);
    CHECK(must(list_photos(book)).size() == 3);
    CHECK(must(part_tagged(book, "P9")).name == "rear spring pin");
    const auto marks = must(list_marks(book));
    REQUIRE(marks.size() == 1);
    CHECK(marks.front().reading == "QM");
    CHECK(marks.front().region == Region{10, 10, 20, 20});
    CHECK(must(find(book, "hanger")).size() == 2); // the part, and the task that fits it
    // What was done before the schema changed is not taken back by it.
    CHECK(book.next_undo().empty());
}

TEST_CASE("a notebook stored with schema 4 opens with everything in place") {
    const TempFolder folder;
    auto book = stored(folder, 4);
    CHECK(must(part_tagged(book, "C2")).used == 7);
    CHECK(must(list_entries(book)).front().hours == 2);
    CHECK(must(find(book, "clamp")).size() == 1);
    // What schema 5 brought: it was never carried, and is numbered as before.
    const auto told = must(sides_of(book));
    CHECK(told.sides.empty());
    CHECK(must(add_part(book, {.name = "rear spring pin"})).id == PartId{3});
    CHECK(must(book.undo()) == "added part rear spring pin");
    CHECK(book.next_undo().empty());
}

TEST_CASE("a notebook stored with schema 5 opens with everything in place") {
    const TempFolder folder;
    auto book = stored(folder, 5);
    CHECK(must(part_tagged(book, "H7")).place == "box under the bench");
    CHECK(must(list_entries(book)).front().text == "Shackle pin seized; heat and patience.");
    CHECK(must(find(book, "shackle")).size() == 1);
    CHECK(must(sides_of(book)).sides.size() == 2); // itself, and the one it met
    CHECK(book.next_undo() == "added task Fit the hanger");
    // What schema 6 brought is indexes: what was done under schema 5 holds as it stands.
    CHECK(must(book.read([](store::Database& database) {
        return database.query("SELECT 1 FROM sqlite_schema WHERE name = 'photos_near'").next();
    })));
    CHECK(must(book.undo()) == "added task Fit the hanger");
    CHECK(must(find(book, "fit hanger")).empty());
    CHECK(must(book.redo()) == "added task Fit the hanger");
    CHECK(must(find(book, "fit hanger")).size() == 1);
}

TEST_CASE("a notebook stored with schema 6 opens with everything in place") {
    const TempFolder folder;
    auto book = stored(folder, 6);
    CHECK(must(part_tagged(book, "H7")).place == "box under the bench");
    CHECK(must(part_tagged(book, "P6")).name == "shackle pin");
    CHECK(must(find(book, "shackle")).size() == 2);
    CHECK(must(book.undo()) == "added part shackle pin");
    CHECK(must(book.undo()) == "added task Fit the hanger"); // of schema 5
}
