#include "desk/take_in.h"
#include "ui/saturday.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
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
    bench->type_into("book.part", "h7");
    REQUIRE(bench->until([&] { return bench->said("book.page_number").ends_with("of 4"); }));
    bench->type_into("book.part", "ZZ");
    REQUIRE(bench->until_shown("book.out.error"));
    CHECK(holds(bench->said("book.out.error"), "ZZ"));
    bench->type_into("book.part", "");
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
