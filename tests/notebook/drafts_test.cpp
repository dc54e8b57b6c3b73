#include "fixture.h"
#include "notebook/drafts.h"

using namespace fettle;

TEST_CASE("a draft survives closing, stays out of undo, and goes when dropped") {
    Desk desk;
    EntryDraft draft{.day = "today",
                     .hours = "1 1/2",
                     .text = "half a sen",
                     .photos = {{desk.photo("a.jpg"), Stage::before}},
                     .sheets = {{"shim.stack", {{"target", "31.5 thou"}, {"tin", "20; 8; 3.5"}}}}};
    const auto words = desk.book.next_undo();
    must(keep_draft(desk.book, draft));
    CHECK(desk.book.next_undo() == words);
    { auto closed = std::move(desk.book); }
    auto book = must(Notebook::open(desk.folder / "book", store::Access::write));
    auto back = must(kept_draft(book));
    CHECK(back.text == draft.text);
    CHECK(back.hours == draft.hours);
    CHECK(back.sheets == draft.sheets);
    CHECK(back.photos.front().stage == Stage::before);
    must(drop_draft(book));
    CHECK(must(kept_draft(book)).blank());
}

TEST_CASE("half a character at the cursor does not lose the draft") {
    Desk desk;
    must(keep_draft(desk.book, {.text = "Schraube \xC3"}));
    CHECK(holds(must(kept_draft(desk.book)).text, "Schraube"));
}

TEST_CASE("a draft that cannot be read is said to be so and left in its place") {
    Desk desk;
    must(desk.book.write_aside([](store::Database& database) {
        database.run("INSERT INTO drafts VALUES ('entry', '{\"text\":', 'now')");
    }));
    CHECK(kept_draft(desk.book).failure().kind == FailureKind::damaged);
    CHECK(kept_draft(desk.book).failure().kind == FailureKind::damaged);
}

TEST_CASE("the watched folder is kept beside history and goes when it is blank") {
    Desk desk;
    CHECK(must(watched_folder(desk.book)).empty());
    must(keep_watched_folder(desk.book, "/home/x/phone"));
    CHECK(must(watched_folder(desk.book)) == "/home/x/phone");
    CHECK(desk.book.next_undo().empty());
    must(keep_watched_folder(desk.book, ""));
    CHECK(must(watched_folder(desk.book)).empty());
}
