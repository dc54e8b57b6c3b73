// Money and People, and the narrowed find, as a person meets them.
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/measurements.h"
#include "ui/screens/money/money.h"
#include "ui/screens/people.h"
#include "ui/workroom_fixture.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::WorkroomTest;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kKeepIt{'K', true}, kAnew{'N'}, kFindKey{static_cast<int>(Key::f), true};

struct Till : Workshop {
    MoneyState money;
    PeopleState people;
    PositionId at = must(add_position(
        book, {.vehicle = drover, .group = "Suspension", .number = "F7", .name = "hanger"}));
    Part hanger = must(add_part(book, {.tag = "H7",
                                       .name = "hanger",
                                       .position = at,
                                       .from = "Ansel Thrupp",
                                       .cost = Money{1250, "GBP"},
                                       .acquired = must(parse_day("2026-01-10"))}));

    Driver begin() {
        return drive([this](Page& page) { draw_money(page, context, money); });
    }
    Driver meet() {
        return drive([this](Page& page) { draw_people(page, context, people); });
    }
};

} // namespace

TEST_CASE("a cost is written with its amount, day and part, changed by key and taken back") {
    Till till;
    auto driver = till.begin();
    CHECK(driver.value("money.row.0.GBP") == "12.50 GBP"); // the part's price, once
    driver.press(kAnew);
    driver.type("twenty");
    driver.press(kKeepIt);
    CHECK(holds(driver.expect_visible("cost.amount.error").label, "twenty"));
    driver.click("cost.amount");
    driver.press(Chord{'A', true});
    driver.type("20 GBP");
    driver.click("cost.on");
    driver.type("2026-02-03");
    driver.click("cost.what");
    driver.type("turning");
    driver.click("cost.of");
    driver.type("h7");
    driver.press(Key::enter);
    driver.press(kKeepIt);
    const auto costs = must(list_costs(till.book));
    REQUIRE(costs.size() == 1);
    CHECK(costs.front().part == till.hanger.id);
    CHECK(to_iso(costs.front().on) == "2026-02-03");
    driver.settle();
    CHECK(driver.value("money.row.0.GBP") == "32.50 GBP"); // 12.50 + 20.00
    CHECK(driver.value("money.cost.1.amount") == "20.00 GBP");
    driver.click("money.change");
    driver.click("cost.amount");
    driver.press(Chord{'A', true});
    driver.type("1500 JPY");
    driver.click("cost.keep");
    driver.settle();
    CHECK(driver.value("money.row.0.JPY") == "1500 JPY");
    CHECK(driver.value("money.row.0.GBP") == "12.50 GBP");
    must(till.book.undo());
    must(till.book.undo());
    driver.settle();
    CHECK_FALSE(driver.shows("money.cost.1"));
}

TEST_CASE("costs are put in the order of a column, and which columns are shown can be chosen") {
    Till till;
    for (const auto& [amount, what] : {std::pair{900, "glass"}, {2500, "blasting"}, {1200, "pins"}})
        must(keep_cost(
            till.book,
            {.on = must(parse_day("2026-02-03")), .amount = {amount, "GBP"}, .what = what}));
    auto driver = till.begin();
    const auto top = [&driver](int cost) {
        return driver.expect_visible("money.cost." + std::to_string(cost) + ".amount").rect.top;
    };
    driver.click("costs.head.amount");
    driver.settle();
    CHECK(top(1) < top(3)); // 9, 12, 25
    CHECK(top(3) < top(2));
    driver.click("costs.head.amount");
    driver.settle();
    CHECK(top(2) < top(3));
    CHECK(top(3) < top(1));
    CHECK(driver.shows("costs.head.of"));
    driver.click("costs.columns");
    driver.click("costs.columns.of");
    driver.settle();
    CHECK_FALSE(driver.shows("costs.head.of"));
}

TEST_CASE("an estimate is set, and what was spent is drawn against it with words") {
    Till till;
    auto driver = till.begin();
    driver.press(Chord{'E'});
    driver.type("10 GBP");
    driver.press(kKeepIt);
    driver.settle();
    CHECK(driver.value("money.row.0.GBP") == "12.50 GBP of 10.00 GBP, over by 2.50 GBP");
    CHECK(driver.value("money.bar.GBP.0") == "12.50 GBP, over by 2.50 GBP");
    driver.click("money.by.1"); // by part
    driver.settle();
    CHECK(driver.value("money.all.GBP") == "12.50 GBP");
    driver.click("money.row.0");
    CHECK(till.context.go->screen == "parts");
    CHECK(till.context.go->record == till.hanger.id.value);
}

TEST_CASE("people are listed with what they did, told of, and left out of the credits") {
    Till till;
    auto driver = till.meet();
    const std::string ansel = "people.row.1";
    CHECK(driver.expect_visible(ansel + ".deed.0").label == "H7 hanger");
    driver.press(Chord{'T'});
    driver.click("people.did.1"); // lent
    driver.click("people.what");
    driver.type("a spring clamp");
    driver.click("people.on");
    driver.type("soon");
    driver.press(kKeepIt);
    CHECK(holds(driver.expect_visible("people.on.error").label, "soon"));
    driver.click("people.on");
    driver.press(Chord{'A', true});
    driver.type("2026-03-07");
    driver.press(Key::enter);
    driver.settle();
    CHECK(driver.expect_visible(ansel + ".deed.0").label == "a spring clamp");
    driver.click("people.view.1");
    driver.settle();
    CHECK(driver.value("people.credit.0") == "lent a spring clamp; sold H7 hanger");
    driver.click("people.view.0");
    driver.settle();
    driver.click("people.in_credits");
    driver.settle();
    CHECK(driver.value(ansel) == "not in the credits");
    CHECK(must(credits(till.book)).empty());
    driver.press(kAnew);
    driver.type("Ansel Thrupp");
    driver.press(kKeepIt);
    driver.settle();
    CHECK(must(list_contacts(till.book)).size() == 1);
    driver.click("people.row.1.deed.1");
    CHECK(till.context.go->screen == "parts");
}

TEST_CASE("what is found is narrowed below the field and opens where it lives") {
    WorkroomTest test;
    const Part part = test.part("H7", "spring hanger");
    must(keep_consignment(test.book, {.firm = "Hanger and Sons",
                                      .purpose = "plating",
                                      .carrier_number = "FC 20731",
                                      .sent_on = must(parse_day("2026-03-01"))}));
    must(keep_cost(test.book, {.on = must(parse_day("2026-03-05")),
                               .amount = {100, "GBP"},
                               .what = "hanger paint",
                               .part = part.id}));
    auto& driver = test.driver();
    const auto& bench = test.bench;
    driver.press(kFindKey);
    CHECK(driver.shows("find.hint"));
    driver.type("hanger");
    driver.settle();
    CHECK(driver.shows("find.3")); // part, consignment, contact, cost
    driver.click("find.kind.9");   // cost
    driver.settle();
    CHECK(driver.expect_visible("find.0").label == "hanger paint");
    CHECK_FALSE(driver.shows("find.1"));
    driver.click("find.0");
    driver.settle(5);
    CHECK(driver.shows("money.cost.1"));
    CHECK(driver.shows("money.change"));
    // By keys alone: the kinds go round with Alt K, Enter opens the first.
    driver.press(kFindKey);
    for (int i = 0; i < 10; ++i) // contact, result, everything, part ... consignment
        driver.press(Chord{'K', false, false, true});
    driver.settle();
    CHECK(driver.expect_visible("find.0").label == "consignment 1 to Hanger and Sons");
    bench->type_into("find.from", "2026-03-02");
    CHECK(driver.shows("find.nothing"));
    bench->type_into("find.from", "2026-03-01");
    driver.press(Key::enter);
    driver.settle(5);
    CHECK(driver.shows("sent_out.row.1"));
    CHECK_FALSE(driver.shows("find.0"));
}

TEST_CASE("a position that is found opens on its page, by pointer and by keys") {
    WorkroomTest test;
    const auto vehicle = must(list_vehicles(test.book)).front().id;
    for (const auto& [number, name] : {std::pair{"F7", "spring hanger"}, {"A1", "king pin"}})
        must(add_position(test.book,
                          {.vehicle = vehicle, .group = "Axle", .number = number, .name = name}));
    auto& driver = test.driver();
    driver.press(kFindKey);
    driver.type("king");
    driver.settle();
    driver.click("find.0");
    driver.settle(5);
    CHECK(holds(driver.expect_visible("position.name").label, "king pin"));
    driver.press(kFindKey);
    driver.press(Chord{'A', true});
    driver.type("spring");
    driver.settle();
    driver.press(Key::enter);
    driver.settle(5);
    CHECK(holds(driver.expect_visible("position.name").label, "spring hanger"));
}

TEST_CASE("what cannot narrow a find says so beside its field") {
    WorkroomTest test;
    test.part("H7", "spring hanger");
    auto& driver = test.driver();
    driver.press(kFindKey);
    driver.settle();
    test.bench->type_into("find.part", "Z9");
    CHECK(holds(driver.expect_visible("find.part.error").label, "Z9"));
    test.bench->type_into("find.part", "h7");
    CHECK(driver.expect_visible("find.0").label == "H7 spring hanger");
    test.bench->type_into("find.to", "30 Feb 2026");
    CHECK(holds(driver.expect_visible("find.to.error").label, "30 Feb 2026"));
    test.bench->type_into("find.maker", "Nobody");
    CHECK(holds(driver.expect_visible("find.maker.error").label, "Nobody"));
}

TEST_CASE("a mark shows its crop among what is found") {
    WorkroomTest test;
    const PhotoId photo = test.photo("stamp.jpg");
    must(keep_mark(test.book, {.photo = photo, .region = {0, 0, 80, 40}, .reading = "QM 1127"}));
    test.driver().press(kFindKey);
    test.driver().type("1127");
    test.driver().settle();
    CHECK(test.driver().shows("find.0.crop"));
    test.driver().click("find.0.crop");
    test.driver().settle(5);
    CHECK(test.driver().shows("marks.mark.1"));
}
