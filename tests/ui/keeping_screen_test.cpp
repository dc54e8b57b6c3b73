// Safe keeping as a person meets it: backing up, checking, giving everything out, restoring.
#include "desk/backup.h"
#include "ui/workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kKeepingKey{'G', true};

struct SafeKeeping : WorkroomTest {
    std::filesystem::path zip = folder / "b.zip";

    SafeKeeping() {
        part("H7", "spring hanger");
        driver().press(kKeepingKey);
        driver().settle();
    }
    // Presses it, waits for the outcome and gives its words.
    std::string outcome_of(const std::string& key) {
        driver().reveal(key);
        driver().click(key);
        REQUIRE(bench->until([&] {
            return bench->stage.reg().find("keeping.done") != nullptr ||
                   bench->stage.reg().find("keeping.trouble") != nullptr;
        }));
        return bench->said("keeping.done") + bench->said("keeping.trouble");
    }
};

} // namespace

TEST_CASE_FIXTURE(SafeKeeping, "a backup is made by a press, verified, remembered and restored") {
    CHECK(holds(bench->said("keeping.last"), "No backup has been made yet"));
    CHECK(holds(driver().expect_visible("keeping.file").value, ".zip")); // a name is proposed
    bench->type_into("keeping.file", (book.folder() / "b.zip").string());
    CHECK(holds(outcome_of("keeping.back_up"), "lies within the notebook"));
    bench->type_into("keeping.file", "  ");
    driver().click("keeping.back_up");
    driver().settle();
    CHECK(holds(bench->said("keeping.file.error"), "Type a file"));
    bench->type_into("keeping.file", zip.string());
    CHECK(holds(outcome_of("keeping.back_up"), "read through again and found whole"));
    CHECK(std::filesystem::exists(zip));
    CHECK(holds(bench->said("keeping.last"), zip.string()));
    CHECK(desk::last_backup(book.folder())->file == zip);

    bench->type_into("keeping.from", zip.string());
    bench->type_into("keeping.to", (folder / "r").string());
    CHECK(holds(outcome_of("keeping.restore"), (folder / "r").string()));
    const auto there = must(Notebook::open(folder / "r", store::Access::read));
    CHECK(must(list_parts(there)).front().tag == "H7");
}

TEST_CASE_FIXTURE(SafeKeeping, "the Bench asks for a backup until there is one") {
    driver().press(Key::f2);
    driver().settle();
    driver().reveal("bench.backup");
    driver().click("bench.backup");
    driver().settle();
    bench->type_into("keeping.file", zip.string());
    CHECK(holds(outcome_of("keeping.back_up"), "found whole"));
    driver().press(Key::f2);
    driver().settle();
    CHECK_FALSE(driver().shows("bench.backup"));
}

TEST_CASE_FIXTURE(SafeKeeping, "a check lists what is wrong with what to do, and mends") {
    CHECK(holds(outcome_of("keeping.check"), "0 photos: nothing is wrong"));
    CHECK_FALSE(driver().shows("keeping.mend"));
    photo("gone.jpg"); // a record without a file
    must(book.write_aside([](store::Database& database) {
        database.run("UPDATE words SET text = 'lost' WHERE rowid = 17"); // the part's: 1 * 16 + 1
    }));
    CHECK(holds(outcome_of("keeping.check"), "2 things wrong"));
    const auto found = [&] { // all sentences with their advice
        std::string all;
        for (const char* key : {"keeping.finding.0.words", "keeping.finding.1.words"}) {
            driver().reveal(key);
            const auto& noted = driver().expect_visible(key);
            all += noted.label + noted.value;
        }
        return all;
    };
    CHECK(holds(found(), "gone.jpg"));
    CHECK(holds(found(), "index of words"));
    CHECK(holds(outcome_of("keeping.mend"), "1 thing wrong"));
    CHECK(holds(found(), "It was made anew."));
}

TEST_CASE_FIXTURE(SafeKeeping, "everything is written as files into the folder that is typed") {
    bench->type_into("keeping.folder", (folder / "data").string());
    CHECK(holds(outcome_of("keeping.data_out"), "rows of"));
    CHECK(holds(file_text(folder / "data/jsonl/parts.jsonl"), "spring hanger"));
    CHECK(holds(outcome_of("keeping.data_out"), "not empty"));
}
