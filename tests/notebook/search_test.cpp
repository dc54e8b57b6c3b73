#include "fixture.h"
#include "notebook/search.h"

#include <algorithm>

using namespace fettle;

TEST_CASE("one search finds parts, tasks, entries, marks and photos by the beginnings of words") {
    Desk desk;
    desk.part("H7", "spring hanger");
    desk.task("ream the hanger bush");
    desk.entry("2026-03-07", "Hanger blasted, Öler found");
    must(keep_mark(
        desk.book,
        {.photo = desk.photo("hanger.jpg"), .region = {0, 0, 5, 5}, .reading = "HANGER 3"}));
    std::vector<std::string> kinds;
    for (const auto& found : must(find(desk.book, "hang")))
        kinds.emplace_back(word(found.kind));
    std::ranges::sort(kinds);
    CHECK(kinds == std::vector<std::string>{"entry", "mark", "part", "photo", "task"});
    CHECK(must(find(desk.book, "h7")).front().title == "H7 spring hanger");
    CHECK(must(find(desk.book, "oler")).size() == 1); // accents do not matter
    CHECK(must(find(desk.book, "hanger ream")).size() == 1);
    CHECK(must(find(desk.book, "  ")).empty());
}

TEST_CASE("the search follows changes, removal, undo and redo") {
    Desk desk;
    auto id = desk.entry("2026-03-07", "shackle seized");
    CHECK(must(find(desk.book, "seized")).size() == 1);
    must(write_entry(desk.book,
                     {.id = id, .day = must(parse_day("2026-03-07")), .text = "shackle free"}));
    CHECK(must(find(desk.book, "seized")).empty());
    must(desk.book.undo());
    CHECK(must(find(desk.book, "seized")).size() == 1);
    must(desk.book.undo());
    CHECK(must(find(desk.book, "seized")).empty());
    must(desk.book.redo());
    must(desk.book.redo());
    CHECK(must(find(desk.book, "free")).size() == 1);
}

TEST_CASE("signs of the query language are words like any other") {
    Desk desk;
    desk.part("H7", "hanger");
    for (const char* words :
         {"\"", "AND", "NEAR(", "hanger*", "-hanger", "name:x", "(", "'; DROP"}) {
        CAPTURE(words);
        CHECK(find(desk.book, words).ok());
    }
}
