// The rebuild at a glance, on a notebook small enough to be counted by hand.
#include "fixture.h"
#include "notebook/costs.h"
#include "notebook/missing.h"
#include "notebook/rebuild.h"

using namespace fettle;

namespace {

Day day(const char* text) {
    return must(parse_day(text));
}

struct Yard : Desk {
    PositionId at(const char* group, const char* number, const char* name, int quantity = 1,
                  VehicleId on = {}) {
        return must(add_position(book, {.vehicle = on ? on : drover,
                                        .group = group,
                                        .number = number,
                                        .name = name,
                                        .quantity = quantity}));
    }
    void worked(const char* on, std::optional<double> hours) {
        must(write_entry(book, {.day = day(on), .hours = hours, .text = "work"}));
    }
    void paid(const char* on, const char* amount) {
        must(keep_cost(book, {.on = day(on), .amount = must(parse_money(amount)), .what = "oil"}));
    }
    Rebuild read(VehicleId vehicle = {}) { return must(read_rebuild(book, vehicle)); }
};

std::string hours_of(const Rebuild& rebuild) {
    std::string said;
    for (const MonthHours& month : rebuild.hours)
        said += to_iso(month.month) + " " + hours_in_words(month.hours) + "; ";
    return said;
}

std::string spent_of(const Rebuild& rebuild) {
    std::string said;
    for (const MonthSpent& month : rebuild.spent)
        said += to_iso(month.month) + " " + to_words(month.spent) + "; ";
    return said;
}

} // namespace

TEST_CASE("an empty notebook has nothing at a glance") {
    Yard yard;
    CHECK(yard.read().nothing_yet());
    CHECK(yard.read().positions == Shares{});
}

TEST_CASE("hours stand in their months over a year's end and a leap February, the empty ones too") {
    Yard yard;
    yard.worked("2023-12-31", 2.5);
    yard.worked("2024-02-29", 1.25);
    yard.worked("2024-02-01", 0.5);
    yard.worked("2024-04-30", std::nullopt);
    yard.worked("2023-11-30", std::nullopt);
    yard.worked("2023-12-01", 4);
    const Rebuild rebuild = yard.read();
    // By hand: December 2.5 + 4, February 1.25 + 0.5; November and April have entries, no hours.
    CHECK(hours_of(rebuild) ==
          "2023-11 0 h; 2023-12 6.5 h; 2024-01 0 h; 2024-02 1.75 h; 2024-03 0 h; 2024-04 0 h; ");
    CHECK(rebuild.hours[0].entries == 1);
    CHECK(rebuild.hours[2].entries == 0);
    CHECK(rebuild.hours[3].entries == 2);
    CHECK(rebuild.all_hours == 8.25); // exact in binary
    CHECK(to_words(rebuild.hours[3].month) == "Feb 2024");
    // What a book has read already gives the same.
    const auto again = hours_by_month(must(list_entries(yard.book)));
    CHECK(again.size() == 6);
    CHECK(sum_of(again) == 8.25);
}

TEST_CASE("money stands in its months by the rules of Money, and what has no day by itself") {
    Yard yard;
    yard.paid("2024-12-31", "10.00 GBP");
    yard.paid("2025-02-28", "3.50 EUR");
    yard.paid("2025-02-01", "0.75 GBP");
    must(add_part(yard.book, {.tag = "P1",
                              .name = "pump",
                              .cost = Money{1250, "GBP"},
                              .quantity = 3, // the price is that of the lot
                              .acquired = day("2025-02-14")}));
    must(add_part(yard.book, {.tag = "P2", .name = "rags", .cost = Money{500, "EUR"}}));
    const Rebuild rebuild = yard.read();
    // By hand: February 0.75 + 12.50 GBP.
    CHECK(spent_of(rebuild) == "2024-12 10.00 GBP; 2025-01 ; 2025-02 3.50 EUR, 13.25 GBP; ");
    CHECK(to_words(rebuild.undated) == "5.00 EUR");
    CHECK(to_words(rebuild.all_spent) == "8.50 EUR, 23.25 GBP");
    Purse sum = rebuild.undated;
    for (const MonthSpent& month : rebuild.spent)
        for (const Money& money : month.spent.amounts())
            must(sum.add(money));
    for (const CostBy by : kCostBy)
        CHECK(sum.amounts() == must(cost_table(yard.book, by)).spent.amounts());
}

TEST_CASE("groups are fitted, there and missing as the positions and the missing list count") {
    Yard yard;
    const auto hanger = yard.at("Axle", "A1", "hanger");
    const auto bolts = yard.at("Axle", "A2", "bolt", 8);
    const auto pins = yard.at("Axle", "A3", "pin", 2);
    const auto pump = yard.at("Engine", "E1", "pump");
    yard.at("Engine", "E2", "gasket", 4);
    const auto plug = yard.at("Engine", "E3", "plug");
    must(add_part(
        yard.book,
        {.tag = "H7", .name = "hanger", .position = hanger, .condition = Condition::fitted}));
    // Five of ten bolts are in their place, three more are needed and there.
    must(add_part(yard.book,
                  {.tag = "B1", .name = "bolt", .position = bolts, .quantity = 10, .used = 5}));
    must(add_part(yard.book,
                  {.tag = "N1", .name = "pin", .position = pins, .condition = Condition::fitted}));
    must(add_part(yard.book, {.tag = "E1",
                              .name = "pump",
                              .position = pump,
                              .condition = Condition::fitted,
                              .decision = Decision::replace}));
    must(add_part(yard.book,
                  {.tag = "G1", .name = "plug", .position = plug, .condition = Condition::scrap}));
    const Rebuild rebuild = yard.read();
    REQUIRE(rebuild.groups.size() == 2);
    // By hand. Axle: the hanger is fitted, the bolts are all there, one pin of two lacks.
    CHECK(rebuild.groups[0].label == "Axle");
    CHECK(rebuild.groups[0].first == hanger);
    CHECK(rebuild.groups[0].positions == Shares{1, 1, 1});
    CHECK(rebuild.groups[0].pieces == Shares{1 + 5 + 1, 3, 1});
    // Engine: one is to be replaced, one is scrap, of the gaskets there is none.
    CHECK(rebuild.groups[1].positions == Shares{0, 0, 3});
    CHECK(rebuild.groups[1].pieces == Shares{0, 0, 6});
    CHECK(to_words(rebuild.positions) == "1 fitted, 1 there, 4 missing");
    CHECK(rebuild.pieces.all() == 17); // 1 + 8 + 2 + 1 + 4 + 1
    const auto missing = must(list_missing(yard.book));
    int pieces = 0;
    for (const MissingLine& line : missing)
        pieces += line.fill.missing();
    CHECK(rebuild.positions.missing == int(missing.size()));
    CHECK(rebuild.pieces.missing == pieces);
    CHECK(rebuild.positions.all() == int(must(list_positions(yard.book, yard.drover)).size()));
}

TEST_CASE("groups of several vehicles are told apart, and one vehicle's stand alone") {
    Yard yard;
    const auto donor = must(add_vehicle(yard.book, {.name = "Donor"}));
    yard.at("Axle", "1", "pin", 1, donor);
    const auto ours = yard.at("Axle", "1", "pin");
    // What is held for another vehicle fills no place on ours.
    must(add_part(yard.book, {.tag = "P1", .name = "pin", .position = ours, .vehicle = donor}));
    const Rebuild all = yard.read();
    REQUIRE(all.groups.size() == 2);
    CHECK(all.groups[0].label == "Axle of Drover");
    CHECK(all.groups[1].label == "Axle of Donor");
    CHECK(all.positions == Shares{0, 0, 2});
    const Rebuild one = yard.read(donor);
    REQUIRE(one.groups.size() == 1);
    CHECK(one.groups[0].label == "Axle");
    CHECK(one.groups[0].vehicle == donor);
}
