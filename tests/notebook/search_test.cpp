#include "fixture.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/credits.h"
#include "notebook/measurements.h"
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

namespace {

Day day(const char* text) {
    return must(parse_day(text));
}

// One record of each kind that holds the word "shackle"; what the filters pass is told beside.
struct Shackles : Desk {
    Part plate = must(add_part(book, {.tag = "K2",
                                      .name = "shackle plate",
                                      .maker = "Orrinvale Forge",
                                      .from = "Ansel Thrupp",
                                      .acquired = day("2026-01-15")}));
    PhotoId photo_ = photo("shackle.jpg", "2026-02-28T23:59:59");
    MarkId mark_ = must(keep_mark(book, {.photo = photo_,
                                         .region = {0, 0, 5, 5},
                                         .reading = "SHACKLE 3",
                                         .maker = "Pellworth Spindle"}));
    TaskId task_ = task("bush the shackle");
    EntryId entry_ = must(write_entry(book, {.day = day("2024-02-29"),
                                             .text = "shackle free",
                                             .parts = {plate.id},
                                             .results = {{.sheet = "shim.stack",
                                                          .plugin_version = "1",
                                                          .answer = R"({"sheet": {"title": "Shims"},
                                          "working": ["20 + 12 thou for the shackle"]})"}}}));
    PositionId position_ = must(add_position(
        book, {.vehicle = drover, .group = "Suspension", .number = "F4", .name = "Shackle"}));
    ConsignmentId out = must(keep_consignment(book, {.firm = "Shackle and Pin",
                                                     .purpose = "plating",
                                                     .carrier_number = "FC 20731",
                                                     .sent_on = day("2026-03-01")}));
    MeasurementId measured = must(keep_measurement(book, {.part = plate.id,
                                                          .feature = "shackle bore",
                                                          .day = day("2026-03-31"),
                                                          .sheet = "fit.wear",
                                                          .plugin_version = "1",
                                                          .answer = "{}",
                                                          .verdict = "replace",
                                                          .note = "taken cold"}));
    CostId cost_ = must(keep_cost(book, {.on = day("2026-12-31"),
                                         .amount = {100, "GBP"},
                                         .what = "shackle paint",
                                         .part = plate.id}));
    HelpId help_ = must(note_help(book, "Ansel Thrupp", {.what = "held the shackle"}));

    Shackles() { must(put_on(book, out, {.part = plate.id, .without_evidence = "none"})); }

    std::vector<std::string> kinds(FindFilter filter, const std::string& words = "shackle") {
        filter.words = words;
        std::vector<std::string> found;
        for (const auto& one : must(find(book, filter)))
            found.emplace_back(word(one.kind));
        std::ranges::sort(found);
        return found;
    }
};

using Kinds = std::vector<std::string>;

} // namespace

TEST_CASE("the one search finds every kind of record") {
    Shackles desk;
    // Two contacts: the firm by its name, and Ansel by what was told of him.
    CHECK(desk.kinds({}) == Kinds{"consignment", "contact", "contact", "cost", "entry", "mark",
                                  "measurement", "part", "photo", "position", "result", "task"});
    CHECK(desk.kinds({}, "fc 20731") == Kinds{"consignment"});
    CHECK(desk.kinds({}, "plating") == Kinds{"consignment"});
    CHECK(desk.kinds({}, "replace") == Kinds{"measurement"});
    CHECK(desk.kinds({}, "taken cold") == Kinds{"measurement"});
    CHECK(desk.kinds({}, "ansel") == Kinds{"contact"});
    CHECK(desk.kinds({}, "orrin") == Kinds{"part"});
    CHECK(desk.kinds({}, "12 thou") == Kinds{"result"});
    const auto found = must(find(desk.book, "bore replace"));
    REQUIRE(found.size() == 1);
    CHECK(found.front().title == "shackle bore of K2, replace");
    CHECK(found.front().within == desk.plate.id.value);
    const auto worked = must(find(desk.book, "20 + 12"));
    REQUIRE(worked.size() == 1);
    CHECK(worked.front().title == "Shims");
    CHECK(worked.front().within == desk.entry_.value);
}

TEST_CASE("finds are narrowed by kind, part and maker, and listed without words too") {
    Shackles desk;
    CHECK(desk.kinds({.kind = FoundKind::cost}) == Kinds{"cost"});
    CHECK(desk.kinds({.part = desk.plate.id}) ==
          Kinds{"consignment", "contact", "cost", "entry", "measurement", "part", "result"});
    const auto maker = [&](const char* name) {
        const auto makers = must(list_makers(desk.book));
        return std::ranges::find(makers, name, &Maker::name)->id;
    };
    CHECK(desk.kinds({.maker = maker("Orrinvale Forge")}) ==
          desk.kinds({.part = desk.plate.id})); // the only part of theirs
    CHECK(desk.kinds({.maker = maker("Pellworth Spindle")}) == Kinds{"mark", "photo"});
    // By hand, the newest first: cost, measurement, consignment, part, entry and its result,
    // contact.
    Kinds listed;
    for (const auto& one : must(find(desk.book, FindFilter{.part = desk.plate.id})))
        listed.emplace_back(word(one.kind));
    CHECK(listed ==
          Kinds{"cost", "measurement", "consignment", "part", "entry", "result", "contact"});
}

TEST_CASE("finds are narrowed by days of the calendar, both ends counted in") {
    // ISO 8601 calendar dates: 2024 is a leap year, 2026 is none (the Gregorian rule).
    Shackles desk;
    CHECK(desk.kinds({.from = day("2026-03-31"), .to = day("2026-03-31")}) == Kinds{"measurement"});
    CHECK(desk.kinds({.from = day("2026-02-28"), .to = day("2026-03-01")}) ==
          Kinds{"consignment", "mark", "photo"}); // a second before midnight is that day still
    CHECK(desk.kinds({.from = day("2026-04-01")}) == Kinds{"cost"});
    CHECK(desk.kinds({.to = day("2024-02-29")}) == Kinds{"entry", "result"});
    CHECK(desk.kinds({.to = day("2024-02-28")}) == Kinds{});
    CHECK_FALSE(parse_day("2026-02-29").ok());
    CHECK_FALSE(parse_day("2026-13-01").ok());
    CHECK(holds(sentence(find(
                    desk.book,
                    FindFilter{.words = "x", .from = day("2026-03-02"), .to = day("2026-03-01")})),
                "2 Mar 2026 is after the last, 1 Mar 2026"));
}

TEST_CASE("the search follows contacts renamed, what they did, and costs taken back") {
    Shackles desk;
    auto contacts = must(list_contacts(desk.book));
    Contact firm = *std::ranges::find(contacts, "Shackle and Pin", &Contact::name);
    firm.name = "Pin and Plate";
    must(keep_contact(desk.book, firm));
    CHECK(desk.kinds({}, "shackle and pin") == Kinds{});
    CHECK(desk.kinds({}, "pin and plate") == Kinds{"consignment", "contact"});
    must(desk.book.undo());
    CHECK(desk.kinds({}, "shackle and pin") == Kinds{"consignment", "contact"});
    must(remove_help(desk.book, desk.help_));
    CHECK(desk.kinds({}, "held") == Kinds{});
    must(desk.book.undo());
    CHECK(desk.kinds({}, "held") == Kinds{"contact"});
    must(remove_cost(desk.book, desk.cost_));
    CHECK(desk.kinds({}, "paint") == Kinds{});
    must(desk.book.undo());
    CHECK(desk.kinds({}, "paint") == Kinds{"cost"});
}

TEST_CASE("words that very many records hold find the newest of them, and rarer ones the nearest") {
    Desk desk;
    must(desk.book.act("filled", [&](store::Database&) -> Done {
        for (int i = 0; i < 1100; ++i)
            desk.photo("shed " + std::to_string(10000 + i) + ".jpg");
        return done();
    }));
    const auto found = must(find(desk.book, "shed", 3));
    REQUIRE(found.size() == 3);
    CHECK(found[0].title == "shed 11099.jpg");
    CHECK(found[2].title == "shed 11097.jpg");
    desk.entry("2026-03-07", "swept the shed, and looked for the pin that fell there last week");
    desk.part("H7", "pin");
    CHECK(must(find(desk.book, "pin")).front().title == "H7 pin"); // the shorter text is nearer
    CHECK(must(find(desk.book, "shed pin")).size() == 1);
}
