#include "fixture.h"
#include "notebook/people.h"

using namespace fettle;

TEST_CASE("an act that fails half way leaves nothing of its first half") {
    Desk desk;
    const auto counter = desk.book.change_counter();
    auto failed = desk.book.act("two parts", [&](store::Database& database) -> Done {
        database.run("INSERT INTO makers(name) VALUES ('Orrinvale Forge')");
        return Failure{FailureKind::refused, "no"};
    });
    CHECK_FALSE(failed.ok());
    CHECK(must(list_makers(desk.book)).empty());
    CHECK(desk.book.change_counter() == counter);
    CHECK(desk.book.next_undo().empty());
}

TEST_CASE("trouble in the database rolls back and becomes a failure") {
    Desk desk;
    auto failed = desk.book.act("breaks", [&](store::Database& database) -> Done {
        database.run("INSERT INTO makers(name) VALUES ('Orrinvale Forge')");
        database.run("INSERT INTO parts(tag) VALUES (NULL)");
        return done();
    });
    CHECK_FALSE(failed.ok());
    CHECK(must(list_makers(desk.book)).empty());
    desk.part("H7", "hanger"); // and the notebook goes on
}

TEST_CASE("undo says what it took back, redo brings it again, a new act ends the redo") {
    Desk desk;
    desk.part("H7", "hanger");
    desk.part("S2", "shackle");
    CHECK(desk.book.next_undo() == "added part shackle");
    CHECK(must(desk.book.undo()) == "added part shackle");
    CHECK(must(desk.book.undo()) == "added part hanger");
    CHECK(must(list_parts(desk.book)).empty());
    CHECK(holds(sentence(desk.book.undo()), "nothing to undo"));
    CHECK(must(desk.book.redo()) == "added part hanger");
    CHECK(must(list_parts(desk.book)).front().tag == "H7");
    CHECK(desk.book.next_redo() == "added part shackle");
    desk.part("K1", "kingpin");
    CHECK(desk.book.next_redo().empty());
    CHECK(holds(sentence(desk.book.redo()), "nothing to redo"));
}

TEST_CASE("undo and redo survive closing the notebook") {
    Desk desk;
    auto part = desk.part("H7", "hanger");
    must(tie_photos(desk.book, {desk.photo("a.jpg")}, part.id, Stage::before));
    { auto closed = std::move(desk.book); }
    {
        auto book = must(Notebook::open(desk.folder / "book", store::Access::write));
        CHECK(must(book.undo()) == "tied 1 photo to H7");
        CHECK(must(ties_to(book, part.id)).empty());
    }
    auto book = must(Notebook::open(desk.folder / "book", store::Access::write));
    CHECK(must(book.redo()) == "tied 1 photo to H7");
    CHECK(must(ties_to(book, part.id)).size() == 1);
}

TEST_CASE("the acts of one step are undone together and redone together") {
    Desk desk;
    const auto step = must(desk.book.new_step());
    for (const char* hash : {"1", "2", "3"})
        must(add_photo(desk.book,
                       {.hash = hash, .file = "photos/x", .original_name = "x", .format = "PNG"},
                       step));
    CHECK(must(list_photos(desk.book)).size() == 3);
    must(desk.book.undo());
    CHECK(must(list_photos(desk.book)).empty());
    must(desk.book.redo());
    CHECK(must(list_photos(desk.book)).size() == 3);
}

TEST_CASE("the change counter moves with acts, undo and redo, and stands still while reading") {
    Desk desk;
    auto moved = [&, last = desk.book.change_counter()]() mutable {
        return std::exchange(last, desk.book.change_counter()) != desk.book.change_counter();
    };
    must(list_parts(desk.book));
    CHECK_FALSE(moved());
    desk.part("H7", "hanger");
    CHECK(moved());
    must(desk.book.undo());
    CHECK(moved());
    must(desk.book.redo());
    CHECK(moved());
}

TEST_CASE("an act that changes nothing leaves no line in history") {
    Desk desk;
    auto part = desk.part("H7", "hanger");
    must(set_part(desk.book, part));
    CHECK(desk.book.next_undo() == "added part hanger");
}
