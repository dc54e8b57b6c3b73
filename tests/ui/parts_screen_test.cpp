#include "ui/screens/parts/parts.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kNew{'N'}, kAdd{'K', true};

struct Bench : Workshop {
    SideWork work{[] {}};
    PartsState parts;
    Driver begin() {
        return drive([this](Page& page) { draw_parts(page, context, work, parts); });
    }
    std::size_t count() { return must(list_parts(book)).size(); }
};

} // namespace

TEST_CASE("a part with a wrong cost is refused beside the field and nothing is added") {
    Bench bench;
    auto driver = bench.begin();
    driver.press(kNew);
    driver.type("spring hanger"); // the caret is in the name
    driver.click("parts.form.condition.2");
    driver.click("parts.form.cost");
    driver.type("twelve");
    driver.press(kAdd);
    CHECK(holds(driver.expect_visible("parts.form.cost.error").label, "twelve"));
    CHECK(bench.count() == 0);

    // Mended, it is added and its page opens.
    driver.click("parts.form.cost");
    driver.press(Chord{'A', true});
    driver.type("12.50 GBP");
    driver.press(kAdd);
    REQUIRE(bench.count() == 1);
    const Part part = must(list_parts(bench.book)).front();
    CHECK(part.name == "spring hanger");
    CHECK(part.condition == Condition::cleaned);
    CHECK(part.cost == Money{1250, "GBP"});
    CHECK(driver.expect_visible("part.name").label == "spring hanger");
    must(bench.book.undo());
    CHECK(bench.count() == 0);
}

TEST_CASE("a blank name and a tag in use are refused beside their fields") {
    Bench bench;
    bench.part("H7", "spring hanger");
    auto driver = bench.begin();
    driver.press(kNew);
    driver.press(kAdd);
    CHECK(holds(driver.expect_visible("parts.form.name.error").label, "name"));
    driver.click("parts.form.name");
    driver.type("another hanger");
    driver.click("parts.form.tag");
    driver.type("h7");
    driver.press(kAdd);
    CHECK(holds(driver.expect_visible("parts.form.tag.error").label, "h7"));
    CHECK(bench.count() == 1);
}

TEST_CASE("the position is chosen by a few letters of its number or name") {
    Bench bench;
    const auto position = must(add_position(
        bench.book,
        {.vehicle = bench.drover, .group = "Rear", .number = "41-7", .name = "spring hanger"}));
    auto driver = bench.begin();
    driver.press(kNew);
    driver.type("hanger off the heap");
    driver.click("parts.form.position");
    driver.type("41");
    driver.press(Key::enter);
    driver.press(kAdd);
    CHECK(must(list_parts(bench.book)).front().position == position);
}

TEST_CASE("condition and decision are set by their words, other fields where they stand") {
    Bench bench;
    const auto hanger = bench.part("H7", "spring hanger");
    auto driver = bench.begin();
    driver.press(Key::enter); // the frame is on the first row
    REQUIRE(driver.shows("part.name"));
    driver.click("part.condition.2");
    driver.click("part.decision.1");
    Part part = must(part_by_id(bench.book, hanger.id));
    CHECK(part.condition == Condition::cleaned);
    CHECK(part.decision == Decision::reuse);
    driver.reveal("part.edit.place");
    driver.click("part.edit.place");
    driver.type("shelf 3");
    driver.press(Key::enter);
    CHECK(must(part_by_id(bench.book, hanger.id)).place == "shelf 3");
    driver.reveal("part.edit.quantity");
    driver.click("part.edit.quantity");
    driver.press(Chord{'A', true});
    driver.type("none");
    driver.press(Key::enter);
    driver.reveal("part.edit.quantity");
    CHECK(holds(driver.expect_visible("part.edit.quantity.error").label, "none"));
    CHECK(must(part_by_id(bench.book, hanger.id)).quantity == 1);
    driver.press(Key::escape);
    driver.settle();
    CHECK(driver.shows("parts.row.1"));
}

TEST_CASE("the list holds only parts with the words typed, and an empty one says what it is for") {
    Bench bench;
    {
        auto driver = bench.begin();
        CHECK(driver.shows("parts.empty"));
        driver.click("parts.empty.step");
        CHECK(driver.shows("parts.form.name"));
    }
    bench.parts = {};
    bench.part("H7", "spring hanger");
    bench.part("B1", "brake drum with a name so long that it cannot stand beside its condition");
    auto driver = bench.begin();
    CHECK(driver.shows("parts.row.1"));
    driver.press(Chord{'F'});
    driver.type("drum");
    driver.settle();
    CHECK_FALSE(driver.shows("parts.row.1"));
    CHECK(driver.shows("parts.row.2"));
}

namespace {
// The tags in the order of their rows.
std::string order(Bench& bench) {
    std::vector<std::pair<float, std::string>> rows;
    for (const Part& part : must(list_parts(bench.book)))
        if (const Noted* row = bench.stage.reg().find("parts.row." + std::to_string(part.id.value)))
            rows.emplace_back(row->rect.top, part.tag);
    std::ranges::sort(rows);
    std::string said;
    for (const auto& [top, tag] : rows)
        said += tag + " ";
    return said;
}
} // namespace

TEST_CASE("a head orders the parts by its column and turns them round, what is blank last") {
    Bench bench;
    const auto add = [&](const char* tag, const char* name, const char* cost, const char* day,
                         Condition condition) {
        auto part = bench.part(tag, name);
        if (*cost) part.cost = must(parse_money(cost));
        if (*day) part.acquired = must(parse_day(day));
        part.condition = condition;
        must(set_part(bench.book, part));
    };
    add("H2", "spring hanger", "9.50 GBP", "", Condition::fitted);
    add("H10", "axle", "", "7 Mar 2026", Condition::as_found);
    add("B1", "Drum", "100.00 GBP", "8 Jan 2026", Condition::cleaned);
    auto driver = bench.begin();
    CHECK(order(bench) == "B1 H10 H2 "); // as the letters come
    driver.click("parts.head.tag");      // which it was by: turned round
    CHECK(order(bench) == "H10 H2 B1 ");
    driver.click("parts.head.tag");
    CHECK(order(bench) == "B1 H2 H10 "); // as they count
    driver.click("parts.head.name");
    CHECK(order(bench) == "H10 B1 H2 ");
    driver.click("parts.head.condition");
    CHECK(order(bench) == "H10 B1 H2 ");
    driver.click("parts.head.condition");
    CHECK(order(bench) == "H2 B1 H10 ");
    CHECK(holds(driver.expect_visible("parts.head.condition").label, "↑"));

    CHECK_FALSE(driver.shows("parts.head.cost"));
    driver.click("parts.columns");
    driver.click("parts.columns.place");
    driver.click("parts.columns.cost");
    driver.click("parts.columns.acquired");
    CHECK_FALSE(driver.shows("parts.head.place"));
    driver.click("parts.head.cost");
    CHECK(order(bench) == "H2 B1 H10 ");
    CHECK(driver.expect_visible("parts.row.1.cost").label == "9.50 GBP");
    driver.click("parts.head.cost");
    CHECK(order(bench) == "B1 H2 H10 ");
    driver.click("parts.head.acquired");
    CHECK(order(bench) == "B1 H10 H2 ");
}

TEST_CASE("columns that do not fit give way, and none runs into its neighbour") {
    Bench bench;
    bench.part("ABCDEFGH-1234567", "a name as long as the column and on");
    auto driver = bench.begin();
    for (const char* column : {"position", "maker", "origin", "from", "cost", "acquired"}) {
        if (!driver.shows("parts.columns.maker")) driver.click("parts.columns");
        driver.click(std::string("parts.columns.") + column);
    }
    for (const float width : {1900.0F, 1280.0F, 900.0F, 500.0F, 320.0F}) {
        CAPTURE(width);
        bench.stage.resize(width, 800);
        driver.settle();
        std::vector<Rect> heads;
        for (const auto& key : bench.stage.reg().keys())
            if (key.starts_with("parts.head.")) heads.push_back(bench.stage.reg().find(key)->rect);
        std::ranges::sort(heads, {}, &Rect::left);
        REQUIRE(!heads.empty());
        for (std::size_t i = 1; i < heads.size(); ++i)
            CHECK(heads[i - 1].right <= heads[i].left);
        CHECK(heads.back().right <= width);
        CHECK(heads.size() == (width > 1500 ? 11 : heads.size()));
    }
    CHECK_FALSE(driver.shows("parts.head.acquired"));
}

TEST_CASE("a key puts the part into the entry being written") {
    Bench bench;
    const auto hanger = bench.part("H7", "spring hanger");
    lead_to(bench.parts, {"parts", hanger.id.value});
    auto driver = bench.begin();
    driver.press(Chord{'E'});
    CHECK(bench.draft.parts == std::vector{hanger.id});
    CHECK(bench.context.draft_edited);
}
