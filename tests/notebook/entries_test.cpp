#include "fixture.h"

using namespace fettle;

TEST_CASE("an entry is kept whole and can be changed whole") {
    Desk desk;
    auto part = desk.part("H7", "hanger");
    auto task = desk.task("strip");
    auto photo = desk.photo("a.jpg");
    Entry entry{.day = must(parse_day("2026-03-07")),
                .hours = 2.5,
                .text = "Pin *free* at last.",
                .parts = {part.id},
                .tasks = {task},
                .photos = {{photo, Stage::after}},
                .results = {{.sheet = "shim.stack", .plugin_version = "1.0.0", .answer = "{}"}}};
    entry.id = must(write_entry(desk.book, entry));
    auto back = must(entry_by_id(desk.book, entry.id));
    CHECK(back.day == entry.day);
    CHECK(back.hours == 2.5);
    CHECK(back.text == entry.text);
    CHECK(back.parts == entry.parts);
    CHECK(back.tasks == entry.tasks);
    REQUIRE(back.photos.size() == 1);
    CHECK(back.photos[0].stage == Stage::after);
    REQUIRE(back.results.size() == 1);
    CHECK(back.results[0].sheet == "shim.stack");

    back.text = "Pin free.";
    back.photos.clear();
    must(write_entry(desk.book, back));
    back = must(entry_by_id(desk.book, entry.id));
    CHECK(back.text == "Pin free.");
    CHECK(back.photos.empty());
    CHECK(back.results.size() == 1);
    must(desk.book.undo());
    CHECK(must(entry_by_id(desk.book, entry.id)).photos.size() == 1);
}

TEST_CASE("entries are listed newest first, each with its own attachments") {
    Desk desk;
    auto part = desk.part("H7", "hanger");
    desk.entry("2026-03-01", "first");
    auto with_part = must(write_entry(
        desk.book, {.day = must(parse_day("2026-03-05")), .text = "second", .parts = {part.id}}));
    desk.entry("2026-03-05", "third");
    auto entries = must(list_entries(desk.book));
    REQUIRE(entries.size() == 3);
    CHECK(entries[0].text == "third");
    CHECK(entries[1].parts == std::vector{part.id});
    CHECK(entries[2].parts.empty());
    auto of_part = must(list_entries(desk.book, {.part = part.id}));
    REQUIRE(of_part.size() == 1);
    CHECK(of_part[0].id == with_part);
}

TEST_CASE("an empty entry and impossible hours are refused") {
    Desk desk;
    const auto day = must(parse_day("2026-03-07"));
    CHECK(holds(sentence(write_entry(desk.book, {.day = day, .text = " \n"})), "empty"));
    CHECK(
        holds(sentence(write_entry(desk.book, {.day = day, .hours = 25, .text = "x"})), "0 to 24"));
    CHECK(holds(sentence(write_entry(desk.book, {.day = day, .text = "x", .parts = {PartId{9}}})),
                "9"));
    CHECK(must(list_entries(desk.book)).empty());
}

TEST_CASE("removing an entry lets its photos and parts be, and can be undone") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    auto id = must(write_entry(
        desk.book,
        {.day = must(parse_day("2026-03-07")), .text = "x", .photos = {{photo, Stage::during}}}));
    must(add_result(desk.book, id, {.sheet = "shim.stack", .plugin_version = "1", .answer = "{}"}));
    must(remove_entry(desk.book, id));
    CHECK(must(list_entries(desk.book)).empty());
    CHECK(must(photo_by_id(desk.book, photo)).ties == 0);
    must(desk.book.undo());
    auto back = must(entry_by_id(desk.book, id));
    CHECK(back.photos.size() == 1);
    CHECK(back.results.size() == 1);
}
