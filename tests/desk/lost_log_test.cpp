// A notebook whose program ended without closing it, and whose log then came to harm.
#include "desk/check.h"
#include "desk/salvage.h"
#include "notebook/fixture.h"

#include <fstream>

using namespace fettle;
using store::Access;
namespace fs = std::filesystem;

namespace {

// A copy of a notebook that is open, as a kill leaves it, its last acts in the log alone.
struct KilledBook {
    TempFolder folder;
    fs::path book = folder / "killed", log = book / "notebook.db-wal";

    KilledBook() {
        Desk desk;
        { auto closed = std::move(desk.book); }
        auto open = must(Notebook::open(desk.folder / "book", Access::write));
        for (int number = 0; number < 30; ++number)
            must(add_part(open, {.tag = "N" + std::to_string(number), .name = "rivet"}));
        fs::copy(open.folder(), book, fs::copy_options::recursive);
        fs::remove(book / "notebook.db-shm");
        REQUIRE(fs::file_size(log) > 100'000);
    }

    std::size_t parts() const {
        auto open = must(Notebook::open(book, Access::read));
        return must(list_parts(open)).size();
    }
    // Sentences of a check, and nothing changed by it.
    std::string checked() const {
        const auto report = must(desk::check(book, {}));
        std::string text = std::to_string(report.wrong()) + " wrong\n";
        for (const auto& finding : report.findings)
            text += finding.sentence + ' ' + finding.advice + '\n';
        return text;
    }
    void turn_a_byte(std::size_t frame) const {
        std::fstream file(log, std::ios::binary | std::ios::in | std::ios::out);
        file.seekp(static_cast<std::streamoff>(32 + frame * (24 + 4096) + 24 + 3000));
        file.put('\x55');
    }
};

} // namespace

TEST_CASE("after a sudden end with a whole log everything is there and nothing is told") {
    const KilledBook killed;
    CHECK(killed.checked() == "0 wrong\n");
    CHECK(killed.parts() == 30);
    auto open = must(Notebook::open(killed.book, Access::write));
    CHECK(open.opening_notice().empty());
    CHECK(must(list_parts(open)).size() == 30);
}

TEST_CASE("a log deleted after a sudden end is told by a check and at the next opening, once") {
    const KilledBook killed;
    fs::remove(killed.log);
    CHECK(holds(killed.checked(), "1 wrong\nThe program ended without closing this notebook"));
    CHECK(killed.parts() == 0);
    {
        auto open = must(Notebook::open(killed.book, Access::write));
        CHECK(holds(open.opening_notice(), "notebook.db-wal, is not there any more"));
        must(add_part(open, {.name = "pin"}));
    }
    auto open = must(Notebook::open(killed.book, Access::write));
    CHECK(open.opening_notice().empty());
    CHECK(must(list_parts(open)).size() == 1);
}

TEST_CASE(
    "a damaged log is told, and kept with its database, from which salvaging saves the rest") {
    const KilledBook killed;
    killed.turn_a_byte(40);
    const auto damaged = file_text(killed.log);
    CHECK(
        holds(killed.checked(), "1 wrong\nThe log of the last acts, notebook.db-wal, is damaged"));
    CHECK(file_text(killed.log) == damaged);
    std::size_t left = 0;
    {
        auto open = must(Notebook::open(killed.book, Access::write));
        CHECK(holds(open.opening_notice(), "kept in " + (killed.book / "as-found-1").string()));
        left = must(list_parts(open)).size();
        CHECK(left < 30);
        must(add_part(open, {.name = "pin"}));
    }
    CHECK(file_text(killed.book / "as-found-1/notebook.db-wal") == damaged);
    CHECK(holds(killed.checked(), "0 wrong\nas-found-1 holds a database and its damaged log"));
    CHECK(killed.parts() == left + 1);

    const auto saved = must(desk::salvage(killed.book / "as-found-1", killed.folder / "saved", {}));
    CHECK(saved.missing_photos.empty());
    auto open = must(Notebook::open(saved.notebook, Access::read));
    CHECK(must(list_parts(open)).size() == 30); // all later pages were whole
    CHECK(must(desk::check(saved.notebook, {})).wrong() == 0);
}
