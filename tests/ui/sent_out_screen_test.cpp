#include "notebook/condition_steps.h"
#include "notebook/evidence.h"
#include "notebook/runs.h"
#include "ui/screens/parts/parts.h"
#include "ui/screens/sent_out/sent_out.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kNew{'N'}, kReceive{'R'}, kSend{'S'}, kPut{'P'}, kList{'L'}, kKeep{'K', true};

struct Yard : Workshop {
    SideWork work{[] {}};
    SentOutState state;
    Part hanger = part("H7", "spring hanger");
    Part plates = must(add_part(book, {.tag = "K2", .name = "shackle plates", .quantity = 8}));

    Driver begin() {
        return drive([this](Page& page) { draw_sent_out(page, context, work, state); });
    }
    ConsignmentId sent(const std::string& purpose = "machining") {
        const auto id = must(keep_consignment(book, {.firm = "Saltash Row", .purpose = purpose}));
        must(put_on(book, id, {.part = hanger.id, .without_evidence = "none"}));
        must(put_on(book, id, {.part = plates.id, .without_evidence = "none"}));
        must(send_consignment(book, id, std::chrono::sys_days(today()) - std::chrono::days(12)));
        return id;
    }
    Consignment now() { return must(consignment_by_id(book, ConsignmentId{1})); }
};

} // namespace

TEST_CASE("a consignment for blasting is made, and a part not photographed is held back") {
    Yard yard;
    auto driver = yard.begin();
    CHECK(driver.shows("sent_out.empty"));
    driver.press(kNew);
    driver.type("Saltash Row");
    driver.click("consignment.usual.0"); // blasting
    CHECK(driver.value("consignment.finish") == "yes");
    driver.click("consignment.due");
    driver.type("soon");
    driver.press(kKeep);
    CHECK(holds(driver.expect_visible("consignment.due.error").label, "soon"));
    driver.click("consignment.due");
    driver.press(Chord{'A', true});
    driver.type("today");
    driver.press(kKeep);
    REQUIRE(must(list_consignments(yard.book, today())).size() == 1);
    CHECK(yard.now().destroys_finish);

    driver.type("hang"); // the line for parts stands open
    driver.press(Key::enter);
    CHECK(yard.now().items.empty());
    CHECK(holds(driver.expect_visible("sent_out.lacks.0").label, "original finish"));
    CHECK(holds(driver.expect_visible("sent_out.lacks.2").label, "both sides"));
    driver.click("sent_out.reason");
    driver.type("rusted through");
    driver.click("sent_out.without");
    REQUIRE(yard.now().items.size() == 1);
    CHECK(yard.now().items[0].note == "Sent without evidence: rusted through");
    CHECK(holds(driver.expect_visible("sent_out.item.1.H7.lacks").label, "photograph first"));
    driver.press(Key::escape);
    driver.press(kSend);
    CHECK(yard.now().sent_on == today());
    CHECK(driver.value("sent_out.row.1") == "out since today, due today");
}

TEST_CASE("items are ticked off by typing a tag, and the condition goes to the part") {
    Yard yard;
    yard.sent();
    auto driver = yard.begin();
    CHECK(driver.value("sent_out.row.1") == "out 12 days");
    driver.press(kReceive);
    driver.settle();
    driver.type("h7");
    driver.click("sent_out.condition.3"); // cleaned
    driver.click("sent_out.tag");
    driver.press(Key::enter);
    CHECK(yard.now().item(yard.hanger.id)->back == 1);
    CHECK(must(part_by_id(yard.book, yard.hanger.id)).condition == Condition::cleaned);
    CHECK(must(list_condition_steps(yard.book, yard.hanger.id)).back().on == today());
    // Six of the eight by pointer.
    driver.click("sent_out.pieces");
    driver.type("six");
    driver.click("sent_out.item.1.K2.came");
    CHECK(holds(driver.expect_visible("sent_out.tag.error").label, "six"));
    driver.click("sent_out.pieces");
    driver.press(Chord{'A', true});
    driver.type("6");
    driver.click("sent_out.item.1.K2.came");
    CHECK(driver.expect_visible("sent_out.item.1.K2.standing").label == "2 of 8 missing");
    // What is missing stays until it is settled in words.
    driver.click("sent_out.item.1.K2.settle");
    driver.type("lost by the carrier");
    driver.press(Key::enter);
    CHECK(yard.now().item(yard.plates.id)->settled_how == "lost by the carrier");
    CHECK(yard.now().state(today()) == ConsignmentState::over);
    must(yard.book.undo());
    driver.settle();
    CHECK(driver.expect_visible("sent_out.item.1.K2.standing").label == "2 of 8 missing");
}

TEST_CASE("a photo of tags taken since offers to tick off what it shows") {
    Yard yard;
    yard.sent();
    const auto photo = yard.real_photo("arrival.jpg", 320, 240, [] {
        auto day = to_iso(today());
        std::ranges::replace(day, '-', ':');
        return day + " 10:00:00";
    }());
    must(note_tags(yard.book, photo, {"K2", "H7"}));
    auto driver = yard.begin();
    driver.click("sent_out.arrival." + std::to_string(photo.value) + ".came");
    CHECK(yard.now().state(today()) == ConsignmentState::over);
    CHECK(yard.now().papers == std::vector{photo});
    CHECK(driver.shows("sent_out.paper.1." + std::to_string(photo.value)));
}

TEST_CASE("papers are chosen among the photos taken since, and put aside the same way") {
    Yard yard;
    yard.sent();
    const auto photo = yard.photo("receipt.jpg", to_iso(today()) + "T10:00:00");
    yard.photo("long ago.jpg", "2020-01-01T10:00:00");
    auto driver = yard.begin();
    driver.press(Chord{'A'});
    const std::string key = "sent_out.lately." + std::to_string(photo.value);
    CHECK_FALSE(driver.shows("sent_out.lately." + std::to_string(photo.value + 1)));
    driver.click(key);
    CHECK(yard.now().papers == std::vector{photo});
    driver.settle();
    driver.click(key);
    CHECK(yard.now().papers.empty());
}

TEST_CASE("the packing list is written into the notebook's folder, and the screen says where") {
    Yard yard;
    yard.sent();
    auto driver = yard.begin();
    driver.press(kList);
    yard.work.settle();
    driver.settle();
    const auto file = yard.book.folder() / "papers/consignment-1-packing-list.pdf";
    CHECK(holds(driver.expect_visible("sent_out.written").label, file.string()));
    CHECK(file_text(file).starts_with("%PDF"));
}

TEST_CASE("a part that is out cannot be put on again, and the line says so") {
    Yard yard;
    yard.sent();
    must(keep_consignment(yard.book, {.firm = "Hebble Lane", .purpose = "machining"}));
    auto driver = yard.begin(); // what is being packed comes first
    driver.press(kPut);
    driver.type("h7");
    driver.press(Key::enter);
    CHECK(holds(driver.expect_visible("sent_out.part.error").label, "H7 is out on consignment 1"));
}

TEST_CASE("the page of a part says with whom it is, and keeps what its photos show") {
    Yard yard;
    yard.sent("blasting");
    const auto one = yard.photo("a.jpg", "2026-01-15T19:27:00");
    must(tie_photos(yard.book, {one}, yard.hanger.id, fettle::Stage::as_found));
    PartsState parts;
    lead_to(parts, {"parts", yard.hanger.id.value});
    auto driver = yard.drive([&](Page& page) { draw_parts(page, yard.context, yard.work, parts); });
    CHECK(holds(driver.expect_visible("part.away.1").value, "with Saltash Row since"));
    driver.reveal("part.evidence.1");
    CHECK(holds(driver.expect_visible("part.evidence.1").value, "marks: none read"));
    driver.reveal("part.evidence.1.none");
    driver.click("part.evidence.1.none");
    driver.reveal("part.evidence.1.because");
    driver.click("part.evidence.1.because");
    driver.type("cast without");
    driver.press(Key::enter);
    CHECK(must(evidence_of(yard.book, yard.hanger.id))[1].none_because == "cast without");
    const std::string side = "part.shows." + std::to_string(one.value) + ".3";
    driver.reveal(side);
    driver.click(side);
    CHECK(must(evidence_of(yard.book, yard.hanger.id))[3].said == std::vector{one});
    driver.reveal("part.consignment.1");
    driver.click("part.consignment.1");
    REQUIRE(yard.context.go.has_value());
    CHECK(yard.context.go->screen == "sent_out");
}
