// The tables held against the changes kept in history. What was altered is altered here by SQL
// behind the notebook's back, so what has to be told is known from what was done.
#include "fixture.h"
#include "notebook/ties.h"
#include "notebook/written_rows.h"

using namespace fettle;

namespace {

std::vector<std::string> faults(const Notebook& book, std::size_t most = 20) {
    return must(book.read(
        [&](store::Database& database) { return faults_against_changes(database, most); }));
}

void behind_its_back(Notebook& book, const std::string& sql) {
    REQUIRE(book.write_aside([&](store::Database& database) {
                    database.run_script("PRAGMA foreign_keys = OFF");
                    database.run(sql);
                })
                .ok());
}

using Sentences = std::vector<std::string>;

} // namespace

TEST_CASE("rows that were added, changed often, removed and taken back are as they were written") {
    Desk desk;
    Part hanger = desk.part("H7", "spring hanger");
    for (const char* name : {"rear hanger", "rear spring hanger", "hanger, rear"}) {
        hanger.name = name;
        must(set_part(desk.book, hanger));
    }
    const auto photo = desk.photo("a.jpg");
    must(tie_photos(desk.book, {photo}, hanger.id, Stage::before));
    desk.entry("2026-03-07", "Freed the pin.");
    must(desk.book.undo());
    desk.part("H8", "the other one");
    must(desk.book.undo());
    desk.part("H9", "a third");
    CHECK(faults(desk.book) == Sentences{});
}

TEST_CASE(
    "a value that is not the one written last is told by row and column, older ones are not") {
    Desk desk;
    Part hanger = desk.part("H7", "spring hanger");
    hanger.name = "rear spring hanger";
    must(set_part(desk.book, hanger));
    const auto row = "Row " + std::to_string(hanger.id.value) + " of parts";
    // As it was before: a value that was written, and not last.
    behind_its_back(desk.book, "UPDATE parts SET name = 'spring hanger'");
    CHECK(faults(desk.book) == Sentences{row + ": its name is not what was written last."});
    // The tag was written when the part was added, and never since.
    behind_its_back(desk.book, "UPDATE parts SET tag = 'H8'");
    CHECK(faults(desk.book) == Sentences{row + ": its name is not what was written last.",
                                         row + ": its tag is not what was written last."});
    CHECK(faults(desk.book, 1).size() == 1);
}

TEST_CASE("rows that are gone are counted by table, also such as have a key of two columns") {
    Desk desk;
    const auto first = desk.task("clean it");
    desk.task("paint it", {first});
    desk.part("H7", "spring hanger");
    Part changed = desk.part("H8", "spring hanger");
    changed.name = "the other one";
    must(set_part(desk.book, changed));
    behind_its_back(desk.book, "DELETE FROM parts");
    behind_its_back(desk.book, "DELETE FROM task_needs");
    CHECK(faults(desk.book) == Sentences{"2 of the rows written into parts are not there.",
                                         "1 of the rows written into task_needs are not there."});
}

TEST_CASE("a row that was removed must not stand there again, but for one written since") {
    Desk desk;
    const auto first = desk.task("clean it");
    const auto second = desk.task("paint it", {first});
    must(keep_task(desk.book, {.id = second, .title = "paint it"}));
    CHECK(faults(desk.book) == Sentences{});
    const auto again = "INSERT INTO task_needs(task_id, needs_id) VALUES (" +
                       std::to_string(second.value) + ", " + std::to_string(first.value) + ")";
    behind_its_back(desk.book, again);
    CHECK(faults(desk.book) ==
          Sentences{"Row " + std::to_string(second.value) + "," + std::to_string(first.value) +
                    " of task_needs was removed and stands there again."});
    behind_its_back(desk.book, "DELETE FROM task_needs");
    must(keep_task(desk.book, {.id = second, .title = "paint it", .needs = {first}}));
    CHECK(faults(desk.book) == Sentences{});
}

TEST_CASE("what was written before a meeting does not count, what was written after it does") {
    Desk desk;
    desk.part("H7", "spring hanger");
    Part pin = desk.part("KP", "king pin");
    behind_its_back(desk.book,
                    "UPDATE history SET met = 1 WHERE id = (SELECT max(id) FROM history)");
    pin.name = "left king pin";
    must(set_part(desk.book, pin));
    behind_its_back(desk.book, "UPDATE parts SET tag = tag || 'x'");
    CHECK(faults(desk.book) == Sentences{});
    behind_its_back(desk.book, "UPDATE parts SET name = 'right'");
    CHECK(faults(desk.book) == Sentences{"Row " + std::to_string(pin.id.value) +
                                         " of parts: its name is not what was written last."});
}

TEST_CASE("changes that cannot be read are named by their act, and nothing is held against them") {
    Desk desk;
    desk.part("H7", "spring hanger");
    desk.part("H8", "the other one");
    behind_its_back(desk.book, "UPDATE parts SET name = 'none of these'");
    behind_its_back(desk.book, "UPDATE history SET words = 'added it', changes = x'54' "
                               "WHERE id = (SELECT min(id) FROM history WHERE met = 0)");
    CHECK(
        faults(desk.book) ==
        Sentences{"The changes kept of \"added it\" are damaged: that act cannot be taken back."});
}
