#include "desk/take_in.h"
#include "notebook/consignments.h"
#include "notebook/vehicles.h"
#include "ui/saturday.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workbench;
using fettle::ui::testing::WorkroomTest;

namespace {

struct Building : WorkroomTest {
    std::filesystem::path out = folder / "out/book.pdf";

    Building() {
        const auto all = fettle::ui::testing::saturday_pictures(folder / "made");
        const auto taken = must(desk::take_in(book, {.paths = {all[0]}})).taken;
        const auto hanger = part("H7", "spring hanger");
        must(write_entry(book, {.day = must(parse_day("2026-03-07")),
                                .text = "Off at last.",
                                .parts = {hanger.id},
                                .photos = {{taken[0], Stage::before}}}));
        driver().press({'B', true});
        driver().settle();
        REQUIRE(bench->until_shown("book.page"));
    }
};

} // namespace

TEST_CASE_FIXTURE(Building, "the screen shows the pages of the book and turns them by keys") {
    auto& drive = driver();
    CHECK(bench->said("book.page_number") == "page 1 of 5"); // title, contents, three chapters
    drive.press(Key::page_down);
    drive.settle();
    CHECK(bench->said("book.page_number") == "page 2 of 5");
    drive.press(Key::end);
    drive.settle();
    CHECK(bench->said("book.page_number") == "page 5 of 5");
    drive.click("book.before");
    drive.settle();
    CHECK(bench->said("book.page_number") == "page 4 of 5");
    // What is left out leaves its pages out, and what is written meanwhile comes in.
    drive.click("book.with.part histories");
    REQUIRE(bench->until([&] { return bench->said("book.page_number").ends_with("of 4"); }));
    must(write_entry(book, {.day = must(parse_day("2026-04-07")), .text = "Back on."}));
    REQUIRE(bench->until([&] { return bench->said("book.page_number").ends_with("of 5"); }));
    bench->type_into("book.from", "2026-04-01");
    REQUIRE(bench->until([&] { return bench->said("book.page_number").ends_with("of 4"); }));
    bench->type_into("book.from", "");
    bench->type_into("book.from", "yore");
    REQUIRE(bench->until_shown("book.out.error"));
    CHECK(holds(bench->said("book.out.error"), "yore"));
}

TEST_CASE_FIXTURE(Building, "the book is written beside the window, and its report says where") {
    auto& drive = driver();
    drive.press(Chord{'W'});
    drive.settle();
    CHECK(holds(bench->said("book.out.error"), "~/book.pdf"));
    bench->type_into("book.out", out.string());
    drive.press(Key::enter);
    REQUIRE(bench->until_shown("report"));
    CHECK(bench->said("report") == "5 pages with 1 photo written to " + out.string());
    CHECK(file_text(out).starts_with("%PDF-1."));
    drive.click("report.close");
    bench->type_into("book.out", (folder / "html").string());
    drive.click("book.write");
    REQUIRE(bench->until_shown("report"));
    CHECK(bench->said("report") ==
          "the book with 1 photo written to " + (folder / "html").string());
    CHECK(std::filesystem::exists(folder / "html/index.html"));
}

TEST_CASE_FIXTURE(Building,
                  "a dossier is asked for by tag or number, or from the page of its part") {
    auto& drive = driver();
    drive.click("book.about.1");
    drive.settle();
    CHECK(bench->said("book.out.error") == "Type the tag of the part.");
    bench->type_into("book.part", "ZZ");
    REQUIRE(bench->until([&] { return holds(bench->said("book.out.error"), "ZZ"); }));
    bench->type_into("book.part", "h7");
    REQUIRE(bench->until([&] { return bench->said("book.chapter.3") == "What is known of it"; }));
    CHECK(bench->said("book.out.error").empty());
    drive.click("book.about.2");
    bench->type_into("book.consignment", "soon");
    CHECK(holds(bench->said("book.out.error"), "\"soon\" is not accepted"));

    const auto hanger = must(part_tagged(book, "H7")).id;
    const auto sent = must(keep_consignment(book, {.firm = "Saltash Row", .purpose = "machining"}));
    must(put_on(book, sent, {.part = hanger}));
    drive.press(Key::f7);
    drive.click("sent_out.dossier");
    drive.settle();
    CHECK(drive.value("book.consignment") == "1");
    bench->type_into("book.out", out.string());
    drive.press(Key::enter);
    REQUIRE(bench->until_shown("report"));
    CHECK(holds(bench->said("report"), " written to " + out.string()));

    drive.press(Key::f5);
    bench->room->show({"parts", hanger.value});
    drive.settle();
    drive.press({'B'});
    drive.settle();
    CHECK(drive.value("book.part") == "H7");
}

TEST_CASE_FIXTURE(Building,
                  "what was done since a day is told, and the next telling begins there") {
    auto& drive = driver();
    drive.click("book.about.3");
    drive.settle();
    CHECK(bench->said("book.out.error") == "Type the first day of what is to be told.");
    bench->type_into("book.from", "2026-03-01");
    bench->type_into("book.to", "2026-03-31");
    REQUIRE(bench->until_shown("book.page"));
    const auto told = folder / "march";
    bench->type_into("book.out", told.string());
    drive.press(Key::enter);
    REQUIRE(bench->until_shown("report"));
    CHECK(bench->said("report") ==
          "what was done with 1 photo written to " + (told / "since.md").string());
    CHECK(holds(file_text(told / "since.md"), "Off at last."));
    CHECK(bench->said("book.told") == "last told until 31 Mar 2026");

    // Another window, later: it knows where the telling ended.
    bench = std::make_unique<Workbench>(book, sheets);
    driver().press({'B', true});
    driver().settle();
    driver().click("book.about.3");
    driver().settle();
    CHECK(driver().value("book.from") == "31 Mar 2026");
}

TEST_CASE_FIXTURE(Building, "one of several vehicles is chosen, and the book is of it alone") {
    CHECK_FALSE(bench->stage.reg().find("book.vehicle.0"));
    must(add_vehicle(book, {.name = "Orrinvale trailer"}));
    REQUIRE(bench->until_shown("book.vehicle.2"));
    CHECK(bench->said("book.vehicle.2") == "Orrinvale trailer");
    driver().click("book.vehicle.2");
    // Nothing is written of the trailer: only title and contents, and no chapter about the lorry.
    REQUIRE(bench->until([&] { return bench->said("book.page_number").ends_with("of 1"); }));
    driver().click("book.vehicle.1");
    REQUIRE(bench->until([&] { return bench->said("book.page_number").ends_with("of 5"); }));
}

TEST_CASE_FIXTURE(Building, "a book that is stopped while it is written leaves no file") {
    const auto all = fettle::ui::testing::saturday_pictures(folder / "more");
    const auto taken = must(desk::take_in(book, {.paths = {all.begin() + 1, all.begin() + 25}}));
    std::vector<PhotoAtStage> photos;
    for (const PhotoId id : taken.taken)
        photos.push_back({id, Stage::during});
    must(write_entry(book, {.day = must(parse_day("2026-03-08")), .photos = photos}));
    driver().settle();
    bench->type_into("book.out", out.string());
    driver().click("book.write");
    REQUIRE(bench->until_shown("work.stop"));
    driver().click("work.stop");
    REQUIRE(bench->until([&] { return !bench->stage.reg().find("work.stop"); }));
    CHECK_FALSE(bench->stage.reg().find("report"));
    CHECK_FALSE(std::filesystem::exists(out));
    CHECK(std::filesystem::is_empty(out.parent_path()));
}
