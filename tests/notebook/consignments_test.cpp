#include "fixture.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/runs.h"

using namespace fettle;

namespace {

Day day(const std::string& text) {
    return must(parse_day(text));
}

struct Batch : Desk {
    Part hanger = part("H7", "spring hanger");
    Part plates = lot("K2", "shackle plates", 8);
    Part pin = part("P3", "king pin");
    ConsignmentId id = must(keep_consignment(book, {.firm = "Saltash Row Blasting",
                                                    .purpose = "machining",
                                                    .carrier = "Fellgate Carriers",
                                                    .carrier_number = "FC 118"}));

    Part lot(const std::string& tag, const std::string& name, int pieces) {
        return must(add_part(book, {.tag = tag, .name = name, .quantity = pieces}));
    }
    void on(PartId part, int pieces = 0) {
        must(put_on(book, id, {.part = part, .pieces = pieces}));
    }
    void sent(const std::string& when, const std::string& due = {}) {
        must(send_consignment(book, id, day(when)));
        if (due.empty()) return;
        auto head = now();
        head.due_on = day(due);
        must(keep_consignment(book, head));
    }
    Consignment now() { return must(consignment_by_id(book, id)); }
    std::string standing(const std::string& today) { return standing_words(now(), day(today)); }
    std::string refused_on(PutOn wish) { return sentence(put_on(book, id, wish)); }
    std::string refused(const Receipt& receipt) { return sentence(receive(book, id, receipt)); }
    Condition condition(const Part& part) { return must(part_by_id(book, part.id)).condition; }
};

} // namespace

TEST_CASE("a consignment needs a firm and a purpose, and is due after it is sent") {
    Desk desk;
    CHECK(holds(sentence(keep_consignment(desk.book, {.purpose = "blasting"})), "firm"));
    CHECK(
        holds(sentence(keep_consignment(desk.book, {.firm = "Saltash Row Blasting"})), "purpose"));
    CHECK(holds(sentence(keep_consignment(desk.book, {.firm = "F",
                                                      .purpose = "blasting",
                                                      .sent_on = day("2026-03-03"),
                                                      .due_on = day("2026-03-02")})),
                "2 Mar 2026 is before"));
    CHECK(must(list_consignments(desk.book, day("2026-03-03"))).empty());
}

TEST_CASE("a consignment says how long it is out and when it is overdue") {
    Batch batch;
    CHECK(holds(sentence(send_consignment(batch.book, batch.id, day("2026-03-03"))), "Nothing"));
    batch.on(batch.hanger.id);
    CHECK(batch.standing("2026-03-03") == "packed, not sent yet");
    batch.sent("2026-03-03", "2026-03-20");
    CHECK(batch.standing("2026-03-03") == "out since today, due in 17 days");
    CHECK(batch.standing("2026-03-04") == "out 1 day, due in 16 days");
    CHECK(batch.standing("2026-03-20") == "out 17 days, due today");
    CHECK(batch.now().state(day("2026-03-20")) == ConsignmentState::out);
    CHECK(batch.standing("2026-03-25") == "out 22 days, overdue 5 days");
    CHECK(batch.now().state(day("2026-03-21")) == ConsignmentState::overdue);
    must(receive(batch.book, batch.id, {.items = {{batch.hanger.id}}, .on = day("2026-03-26")}));
    CHECK(batch.standing("2026-04-01") == "all back 26 Mar 2026");
}

TEST_CASE("a part that is out cannot be put on a second consignment, pieces that are left can") {
    Batch batch;
    batch.on(batch.hanger.id);
    batch.on(batch.plates.id, 6);
    const auto first = batch.id;
    batch.id = must(keep_consignment(batch.book, {.firm = "Hebble Lane", .purpose = "machining"}));
    CHECK(holds(batch.refused_on({.part = batch.hanger.id}),
                "H7 is out on consignment " + std::to_string(first.value)));
    CHECK(holds(batch.refused_on({.part = batch.plates.id, .pieces = 3}), "at most 2 can go"));
    CHECK(holds(batch.refused_on({.part = batch.plates.id, .pieces = 9}), "it holds 8"));
    batch.on(batch.plates.id); // what is left
    CHECK(batch.now().item(batch.plates.id)->quantity == 2);
    CHECK(holds(batch.refused_on({.part = batch.plates.id}), "on consignment 2 already"));
    CHECK(must(whereabouts(batch.book, batch.plates.id)).size() == 2);
}

TEST_CASE("receiving ticks items off by pieces, and what is missing stays until it is settled") {
    Batch batch;
    batch.on(batch.hanger.id);
    batch.on(batch.plates.id);
    batch.sent("2026-03-03");
    must(receive(batch.book, batch.id,
                 {.items = {{batch.hanger.id}, {batch.plates.id, 6}}, .on = day("2026-03-20")}));
    auto now = batch.now();
    CHECK(standing_words(*now.item(batch.hanger.id)) == "back 20 Mar 2026");
    CHECK(standing_words(*now.item(batch.plates.id)) == "2 of 8 missing");
    CHECK(now.state(day("2026-03-21")) == ConsignmentState::out);

    must(settle_item(batch.book, batch.id, batch.plates.id, "lost by the carrier, paid",
                     day("2026-04-02")));
    now = batch.now();
    CHECK(now.state(day("2026-04-03")) == ConsignmentState::over);
    CHECK(now.settled_on == day("2026-04-02"));
    CHECK(standing_words(*now.item(batch.plates.id)) ==
          "missing, settled: 2 of 8 lost by the carrier, paid");
    CHECK(holds(sentence(put_on(batch.book, batch.id, {.part = batch.pin.id})), "is over"));
    // It turns up all the same.
    must(receive(batch.book, batch.id, {.items = {{batch.plates.id}}, .on = day("2026-04-09")}));
    CHECK(batch.now().item(batch.plates.id)->missing() == 0);
    CHECK(batch.now().item(batch.plates.id)->settled_how.empty());
    // Undo, one act after the other, leads back to the missing plates.
    must(batch.book.undo());
    CHECK(must(batch.book.undo()) ==
          "settled 2 pieces of K2 of consignment 1: lost by the carrier, "
          "paid");
    CHECK(batch.now().item(batch.plates.id)->awaited());
    CHECK_FALSE(batch.now().settled_on.has_value());
}

TEST_CASE("what cannot have come back is refused with one sentence, and nothing is ticked off") {
    Batch batch;
    batch.on(batch.hanger.id);
    batch.on(batch.plates.id);
    CHECK(holds(batch.refused({.items = {{batch.hanger.id}}, .on = day("2026-03-20")}),
                "not sent yet"));
    batch.sent("2026-03-03");
    CHECK(holds(
        batch.refused({.items = {{batch.hanger.id}, {batch.pin.id}}, .on = day("2026-03-20")}),
        "P3 is not on consignment 1: it holds H7, K2"));
    CHECK(holds(batch.refused({.items = {{batch.plates.id, 9}}, .on = day("2026-03-20")}),
                "9 pieces of K2"));
    CHECK(holds(batch.refused({.items = {{batch.hanger.id}}, .on = day("2026-03-02")}),
                "before the day of sending"));
    CHECK(holds(
        batch.refused({.items = {{batch.hanger.id}, {batch.hanger.id}}, .on = day("2026-03-20")}),
        "named twice"));
    CHECK(holds(batch.refused({.items = {}, .on = day("2026-03-20")}), "name the tags"));
    for (const auto& item : batch.now().items)
        CHECK(item.back == 0);
    must(receive(batch.book, batch.id, {.items = {{batch.hanger.id}}, .on = day("2026-03-20")}));
    CHECK(holds(batch.refused({.items = {{batch.hanger.id}}, .on = day("2026-03-21")}),
                "back already, since 20 Mar 2026"));
    auto head = batch.now();
    for (const auto& later : {std::optional<Day>(), std::optional(day("2026-03-21"))}) {
        head.sent_on = later;
        CHECK(holds(sentence(keep_consignment(batch.book, head)), "H7 came on 20 Mar 2026"));
    }
    CHECK(holds(sentence(send_consignment(batch.book, batch.id, day("2026-03-21"))), "H7 came on"));
    CHECK(holds(sentence(take_off(batch.book, batch.id, batch.hanger.id)), "came back"));
    CHECK(
        holds(sentence(settle_item(batch.book, batch.id, batch.plates.id, " ", day("2026-03-21"))),
              "reason why K2"));
}

TEST_CASE("the condition in which parts come back becomes theirs, with the day") {
    Batch batch;
    batch.on(batch.hanger.id);
    batch.on(batch.plates.id);
    batch.sent("2026-03-03");
    must(receive(
        batch.book, batch.id,
        {.items = {{batch.hanger.id}}, .on = day("2026-03-20"), .condition = Condition::cleaned}));
    CHECK(batch.condition(batch.hanger) == Condition::cleaned);
    CHECK(batch.condition(batch.plates) == Condition::as_found);
    const auto steps = must(list_condition_steps(batch.book, batch.hanger.id));
    REQUIRE_FALSE(steps.empty());
    const auto cleaned = std::ranges::find(steps, Condition::cleaned, &ConditionStep::condition);
    REQUIRE(cleaned != steps.end());
    CHECK(cleaned->on == day("2026-03-20"));
    must(batch.book.undo());
    CHECK(batch.condition(batch.hanger) == Condition::as_found);
    CHECK(must(list_condition_steps(batch.book, batch.hanger.id)).size() == 1);
}

TEST_CASE("of a lot that went in part, the pieces at home keep the lot's condition") {
    Batch batch;
    batch.on(batch.plates.id, 6);
    batch.sent("2026-03-03");
    must(receive(
        batch.book, batch.id,
        {.items = {{batch.plates.id}}, .on = day("2026-03-20"), .condition = Condition::cleaned}));
    CHECK(batch.condition(batch.plates) == Condition::as_found);
    CHECK(batch.now().item(batch.plates.id)->condition_back == Condition::cleaned);
    // All eight went, six came: those at hand are cleaned.
    batch.id = must(keep_consignment(batch.book, {.firm = "F", .purpose = "machining"}));
    batch.on(batch.plates.id);
    batch.sent("2026-03-21");
    must(receive(batch.book, batch.id,
                 {.items = {{batch.plates.id, 6}},
                  .on = day("2026-03-30"),
                  .condition = Condition::finished}));
    CHECK(batch.condition(batch.plates) == Condition::finished);
}

TEST_CASE("a part knows where it is, and a consignment that is overdue comes first") {
    Batch batch;
    batch.on(batch.hanger.id);
    batch.sent("2026-03-03", "2026-03-20");
    const auto away = must(whereabouts(batch.book, batch.hanger.id));
    REQUIRE(away.size() == 1);
    CHECK(away_words(away[0], day("2026-03-10")) ==
          "with Saltash Row Blasting since 3 Mar 2026 for machining, due 20 Mar 2026");
    CHECK(holds(away_words(away[0], day("2026-03-21")), "overdue since 20 Mar 2026"));
    const auto first = batch.id;
    batch.id = must(keep_consignment(
        batch.book, {.inward = true, .firm = "Corriemuir Bushes", .purpose = "bought"}));
    batch.on(batch.plates.id);
    batch.sent("2026-03-01", "2026-04-20");
    CHECK(batch.standing("2026-03-08") == "on its way 7 days, due in 43 days");
    const auto all = must(list_consignments(batch.book, day("2026-03-25")));
    REQUIRE(all.size() == 2);
    CHECK(all[0].id == first);
    must(settle_consignment(batch.book, first, "scrapped by mistake, paid", day("2026-03-26")));
    CHECK(must(list_consignments(batch.book, day("2026-03-27")))[1].id == first);
    CHECK(must(batch.book.undo()) == "settled consignment 1: scrapped by mistake, paid");
    CHECK(must(list_consignments(batch.book, day("2026-03-27")))[0].id == first);
}

TEST_CASE("photos of tags taken after the sending show what has arrived, and become papers") {
    Batch batch;
    batch.on(batch.hanger.id);
    batch.on(batch.plates.id);
    batch.sent("2026-03-03");
    const auto packing = batch.photo("packing.jpg", "2026-03-02T10:00:00");
    const auto arrival = batch.photo("arrival.jpg", "2026-03-20T10:00:00");
    must(note_tags(batch.book, packing, {"H7", "K2"}));
    must(note_tags(batch.book, arrival, {"h7", "P3"}));
    const auto seen = must(photos_of_arrival(batch.book, batch.id));
    REQUIRE(seen.size() == 1);
    CHECK(seen[0].photo == arrival);
    CHECK(seen[0].parts == std::vector{batch.hanger.id}); // P3 is not on it
    must(receive(batch.book, batch.id,
                 {.items = {{batch.hanger.id}}, .on = day("2026-03-20"), .paper = arrival}));
    CHECK(batch.now().papers == std::vector{arrival});
    CHECK(must(photos_of_arrival(batch.book, batch.id)).empty());
    must(batch.book.undo());
    CHECK(batch.now().papers.empty());
}

TEST_CASE("each change of condition is kept with its day, a slip of the same day is not") {
    Desk desk;
    auto part = must(add_part(
        desk.book, {.tag = "H7", .name = "hanger", .acquired = must(parse_day("2026-01-10"))}));
    must(set_condition(desk.book, part.id, Condition::stripped, must(parse_day("2026-01-24"))));
    must(set_part_field(desk.book, "H7", "condition", "finished"));
    must(set_part_field(desk.book, "H7", "condition", "cleaned"));
    const auto steps = must(list_condition_steps(desk.book, part.id));
    REQUIRE(steps.size() == 3);
    CHECK(steps[0].condition == Condition::as_found);
    CHECK(steps[0].on == must(parse_day("2026-01-10")));
    CHECK(steps[1].condition == Condition::stripped);
    CHECK(steps[2].condition == Condition::cleaned);
    CHECK(steps[2].on == today());
    must(desk.book.undo());
    CHECK(must(list_condition_steps(desk.book, part.id)).back().condition == Condition::finished);
}
