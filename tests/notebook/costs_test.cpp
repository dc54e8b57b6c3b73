#include "fixture.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"

using namespace fettle;

namespace {

Day day(const char* text) {
    return must(parse_day(text));
}

// A parts list of two groups, and records that money was spent on. Expected sums are worked by hand
// beside each.
struct Purchases : Desk {
    PositionId hanger_at = must(add_position(
        book, {.vehicle = drover, .group = "Suspension", .number = "F7", .name = "hanger"}));
    PositionId pin_at = must(add_position(
        book, {.vehicle = drover, .group = "Front axle", .number = "A1", .name = "king pin"}));
    Part hanger = must(add_part(book, {.tag = "H7",
                                       .name = "hanger",
                                       .position = hanger_at,
                                       .cost = Money{1250, "GBP"},
                                       .quantity = 3, // the price is that of the lot
                                       .acquired = day("2026-01-10")}));
    Part pin = must(add_part(book, {.tag = "P3", .name = "king pin", .position = pin_at}));
    Part rags = must(add_part(book, {.tag = "R1", .name = "rags", .cost = Money{500, "EUR"}}));

    CostId cost(const char* on, const char* amount, const char* what, Cost of = {}) {
        of.on = day(on);
        of.amount = must(parse_money(amount));
        of.what = what;
        return must(keep_cost(book, of));
    }
    // "label: spent" a line.
    std::string told(CostBy by) {
        std::string text;
        const auto table = must(cost_table(book, by));
        for (const CostRow& row : table.rows)
            text += row.label + ": " + to_words(row.spent) + "\n";
        return text + "= " + to_words(table.spent);
    }
};

} // namespace

TEST_CASE("costs stand by part, task, consignment, group and month with the same total each") {
    Purchases desk;
    const TaskId ream =
        must(keep_task(desk.book, {.title = "ream the bush",
                                   .positions = {{desk.hanger_at, Condition::cleaned}}}));
    const auto out = must(keep_consignment(
        desk.book, {.firm = "Saltash Row", .purpose = "blasting", .sent_on = day("2026-02-01")}));
    must(put_on(desk.book, out, {.part = desk.hanger.id}));
    must(put_on(desk.book, out, {.part = desk.pin.id}));
    desk.cost("2026-02-03", "20.00 GBP", "turning", {.part = desk.pin.id});
    desk.cost("2026-02-28", "0.75 GBP", "cutting oil", {.task = ream});
    desk.cost("2026-03-01", "31.10 GBP", "blasting", {.consignment = out});
    desk.cost("2026-03-02", "9.99 EUR", "gloves");
    // By hand: 12.50 + 20.00 + 0.75 + 31.10 = 64.35 GBP; 5.00 + 9.99 = 14.99 EUR.
    const std::string total = "= 14.99 EUR, 64.35 GBP";
    CHECK(desk.told(CostBy::part) == "H7 hanger: 12.50 GBP\nP3 king pin: 20.00 GBP\n"
                                     "R1 rags: 5.00 EUR\nno part: 9.99 EUR, 31.85 GBP\n" +
                                         total);
    CHECK(desk.told(CostBy::task) ==
          "ream the bush: 0.75 GBP\nno task: 14.99 EUR, 63.60 GBP\n" + total);
    CHECK(desk.told(CostBy::consignment) == "consignment 1 to Saltash Row, blasting: 31.10 GBP\n"
                                            "no consignment: 14.99 EUR, 33.25 GBP\n" +
                                                total);
    // The task's position is of one group; the consignment holds parts of two.
    CHECK(desk.told(CostBy::group) == "Suspension: 13.25 GBP\nFront axle: 20.00 GBP\n"
                                      "several groups: 31.10 GBP\nno group: 14.99 EUR\n" +
                                          total);
    CHECK(desk.told(CostBy::month) == "2026-01: 12.50 GBP\n2026-02: 20.75 GBP\n"
                                      "2026-03: 9.99 EUR, 31.10 GBP\nno date: 5.00 EUR\n" +
                                          total);
}

TEST_CASE("what was spent stands against the estimate of its group, each currency for itself") {
    Purchases desk;
    const auto reckon = [&](const char* group, const char* amount) {
        return set_estimate(desk.book, {desk.drover, group, must(parse_money(amount))});
    };
    must(reckon("Suspension", "10 GBP"));
    must(reckon("Suspension", "40 EUR"));
    must(reckon("Front axle", "25 GBP"));
    auto table = must(cost_table(desk.book, CostBy::group));
    REQUIRE(table.rows.size() == 3); // and what has no group
    CHECK(to_words(table.rows[0].estimate) == "40.00 EUR, 10.00 GBP");
    CHECK(to_words(table.rows[1].estimate) == "25.00 GBP");
    CHECK(to_words(table.estimate) == "40.00 EUR, 35.00 GBP");
    CHECK(against_words(1250, 1000, "GBP") == "over by 2.50 GBP");
    CHECK(against_words(0, 4000, "EUR") == "40.00 EUR left");
    CHECK(against_words(7, 7, "JPY") == "as reckoned");
    must(reckon("Suspension", "12 GBP")); // instead of the 10
    CHECK(must(list_estimates(desk.book)).size() == 3);
    must(reckon("Suspension", "0 EUR"));
    CHECK(must(list_estimates(desk.book)).size() == 2);
    must(desk.book.undo());
    CHECK(must(list_estimates(desk.book)).size() == 3);
    CHECK(holds(sentence(reckon("Gearbox", "5 GBP")), "accepted are Suspension, Front axle"));
}

TEST_CASE("groups are told apart by their vehicle where several have a parts list") {
    Purchases desk;
    const auto other = must(add_vehicle(desk.book, {.name = "Donor"}));
    const auto at = must(add_position(
        desk.book, {.vehicle = other, .group = "Suspension", .number = "1", .name = "hanger"}));
    must(add_part(desk.book,
                  {.tag = "D1", .name = "hanger", .position = at, .cost = Money{100, "GBP"}}));
    CHECK(desk.told(CostBy::group) == "Suspension of Drover: 12.50 GBP\n"
                                      "Suspension of Donor: 1.00 GBP\n"
                                      "no group: 5.00 EUR\n= 5.00 EUR, 13.50 GBP");
}

TEST_CASE("a cost is changed, removed and brought back") {
    Purchases desk;
    const CostId id = desk.cost("2026-02-03", "20 GBP", "turning",
                                {.part = desk.pin.id, .paid_to = "Hebble Lane"});
    Cost cost = must(cost_by_id(desk.book, id));
    CHECK(cost.of == "P3 king pin");
    CHECK(cost.paid_to == "Hebble Lane");
    cost.amount = {2400, "GBP"};
    must(keep_cost(desk.book, cost));
    CHECK(must(list_costs(desk.book)).front().amount == Money{2400, "GBP"});
    must(remove_cost(desk.book, id));
    CHECK(must(list_costs(desk.book)).empty());
    CHECK(desk.book.next_undo() == "removed the cost of turning, 24.00 GBP");
    must(desk.book.undo());
    CHECK(must(list_costs(desk.book)).front().amount == Money{2400, "GBP"});
    must(desk.book.undo());
    CHECK(must(list_costs(desk.book)).front().amount == Money{2000, "GBP"});
}

TEST_CASE("a cost that cannot be is refused with its field") {
    Purchases desk;
    const TaskId task = desk.task("ream");
    const Day on = day("2026-02-03");
    const Money pound{100, "GBP"};
    CHECK(holds(sentence(keep_cost(desk.book, {.on = on, .amount = pound, .what = " "})),
                "What the cost was for"));
    CHECK(holds(sentence(keep_cost(desk.book, {.on = on, .amount = {0, "GBP"}, .what = "oil"})),
                "0.00 GBP"));
    CHECK(holds(sentence(keep_cost(
                    desk.book,
                    {.on = on, .amount = pound, .what = "oil", .part = desk.pin.id, .task = task})),
                "one part, one task or one consignment"));
    CHECK(holds(sentence(keep_cost(
                    desk.book,
                    {.on = on, .amount = pound, .what = "oil", .consignment = ConsignmentId{9}})),
                "consignment \"9\""));
    CHECK(must(list_costs(desk.book)).empty());
    CHECK(remove_cost(desk.book, CostId{9}).failure().kind == FailureKind::not_found);
}

TEST_CASE("a sum too large to be added up is refused with a sentence") {
    // 2^63 - 1 is 9223372036854775807, by the definition of the type.
    Purse purse;
    must(purse.add({9'223'372'036'854'775'807, "GBP"}));
    CHECK(holds(sentence(purse.add({1, "GBP"})), "92233720368547758.07 GBP and 0.01 GBP"));
    CHECK(purse.in("GBP") == 9'223'372'036'854'775'807);
    must(purse.add({1, "EUR"}));
    CHECK(to_words(purse) == "0.01 EUR, 92233720368547758.07 GBP");
    Purchases desk;
    for (int i = 0; i < 2; ++i)
        must(keep_cost(desk.book, {.on = day("2026-01-01"),
                                   .amount = {9'000'000'000'000'000'000, "GBP"},
                                   .what = "a fortune"}));
    CHECK(holds(sentence(cost_table(desk.book, CostBy::month)), "too large to be added up"));
}
