// A month of a rebuild in the window: what a person would press, click and type, and what the
// notebook holds after it.
#include "notebook/consignments.h"
#include "notebook/parts.h"
#include "notebook/tasks.h"
#include "workroom_fixture.h"

#include <fstream>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kKeep{'K', true};

struct Month : WorkroomTest {
    void go_to(const std::string& screen) {
        driver().click("screens." + screen);
        driver().settle();
    }
    void choose(const std::string& key) {
        driver().reveal(key);
        driver().click(key);
        driver().settle();
    }
    void fill(const std::string& key, const std::string& text) {
        bench->type_into(key, text);
        driver().settle();
    }
    std::string said(const std::string& key) {
        driver().reveal(key);
        return driver().value(key);
    }

    // Added on Parts, as a person fills its form.
    struct Filled {
        std::string name, position, pieces, cost, from;
    };
    PartId add(const Filled& part) {
        go_to("parts");
        if (driver().shows("part.name")) driver().press(Key::escape); // back to all of them
        driver().settle();
        driver().press(Chord{'N'});
        driver().settle();
        driver().type(part.name);
        fill("parts.form.position", part.position);
        driver().press(Key::enter);
        if (!part.pieces.empty()) fill("parts.form.quantity", part.pieces);
        if (!part.cost.empty()) fill("parts.form.cost", part.cost);
        if (!part.from.empty()) {
            fill("parts.form.from", part.from);
            driver().press(Key::enter);
        }
        driver().press(kKeep);
        driver().settle();
        for (const Part& one : must(list_parts(book)))
            if (one.name == part.name) return one.id;
        FAIL("the part \"" << part.name << "\" is not there");
        return {};
    }
    Part now(PartId id) { return must(part_by_id(book, id)); }
    Consignment consignment() { return must(consignment_by_id(book, ConsignmentId{1})); }
};

void put_on(Month& month, const std::string& letters) {
    month.driver().type(letters);
    month.driver().press(Key::enter);
    month.driver().settle();
}

// The pins and the hanger go to be machined; due a week ago.
void send_out(Month& month) {
    auto& driver = month.driver();
    month.go_to("sent_out");
    driver.press(Chord{'N'});
    driver.settle();
    driver.type("Hebble Lane");
    driver.press(Key::enter);
    month.fill("consignment.purpose", "machining");
    month.fill("consignment.carrier", "Fellgate Carriers");
    month.fill("consignment.value", "90 GBP");
    driver.press(kKeep);
    driver.settle();
    put_on(month, "hanger");
    put_on(month, "pins");
    driver.press(Key::escape);
    driver.press(Chord{'S'});
    driver.settle();
    const Consignment sent = month.consignment();
    CHECK(sent.items.size() == 2);
    CHECK(sent.sent_on == today());
}

// The hanger and two of the four pins come back; the others are claimed for, and given up.
void comes_back_short(Month& month, PartId hanger, PartId pins) {
    auto& driver = month.driver();
    driver.press(Chord{'R'});
    driver.settle();
    month.choose("sent_out.condition.3"); // cleaned
    driver.click("sent_out.tag");
    driver.type(month.now(hanger).tag);
    driver.press(Key::enter);
    driver.settle();
    CHECK(month.now(hanger).condition == Condition::cleaned);
    month.fill("sent_out.pieces", "2");
    month.choose("sent_out.item.1." + month.now(pins).tag + ".came");
    CHECK(month.consignment().item(pins)->missing() == 2);
    driver.press(Key::escape);
    driver.settle();
    const std::string standing = "sent_out.item.1." + month.now(pins).tag + ".standing";
    CHECK(driver.expect_visible(standing).label == "2 of 4 missing");

    driver.press(Chord{'M'});
    const auto claim = month.book.folder() / "papers/consignment-1-claim.pdf";
    REQUIRE(month.bench->until([&] { return std::filesystem::exists(claim); }));
    CHECK(file_text(claim).starts_with("%PDF"));
    month.choose("sent_out.item.1." + month.now(pins).tag + ".settle");
    driver.type("lost by the carrier, paid");
    driver.press(Key::enter);
    driver.settle();
    CHECK(month.consignment().state(today()) == ConsignmentState::over);
}

// Fitting waits for both positions, named by their numbers.
TaskId plan_the_fitting(Month& month) {
    auto& driver = month.driver();
    month.go_to("tasks");
    driver.press(Chord{'N'});
    driver.settle();
    driver.type("fit the hanger");
    for (const char* number : {"41-7", "41-9"}) {
        month.fill("task.positions", number);
        driver.press(Key::enter);
        driver.settle();
    }
    month.fill("task.hours", "3");
    driver.press(kKeep);
    driver.settle();
    return must(list_tasks(month.book, today())).front().task.id;
}

TaskStanding standing(Month& month, TaskId id) {
    for (const TaskStanding& one : must(list_tasks(month.book, today())))
        if (one.task.id == id) return one;
    FAIL("the task is not there");
    return {};
}

// With two new pins the position is filled, the task is ready, and a key marks it done.
void replace_and_fit(Month& month, TaskId fitting) {
    auto& driver = month.driver();
    CHECK_FALSE(standing(month, fitting).ready());
    const PartId fresh = month.add({"new pins", "41-9", "2", "24.60 GBP", "Hebble Lane"});
    month.choose("part.condition.2"); // cleaned
    CHECK(month.now(fresh).condition == Condition::cleaned);
    month.go_to("tasks");
    const std::string row = "tasks.row." + std::to_string(fitting.value);
    driver.expect_visible(row);
    CHECK(standing(month, fitting).ready());
    month.choose(row);         // its page
    driver.press(Key::escape); // out of the field, and back to the list
    driver.press(Key::escape);
    driver.settle();
    driver.press(Chord{'D'});
    driver.settle();
    CHECK(must(task_by_id(month.book, fitting)).state == TaskState::done);
}

// The parts list comes from a file; one row is wrong and nothing is taken in until it is mended.
void take_in_the_list(Month& month) {
    auto& driver = month.driver();
    const auto file = month.folder / "list.csv";
    std::ofstream(file, std::ios::binary) << "Group,Number,Name,Quantity\r\n"
                                             "Rear spring,41-7,spring hanger,1\r\n"
                                             "Rear spring,41-9,shackle pin,four\r\n";
    month.go_to("parts");
    driver.press(Chord{'P'});
    driver.settle();
    driver.click("positions.empty.step");
    driver.type(file.string());
    driver.press(Key::enter);
    driver.settle();
    CHECK(holds(driver.expect_visible("positions.import.trouble.0").label, "four"));
    CHECK_FALSE(driver.expect_visible("positions.import.take").enabled);
    while (driver.shows("positions.import.take")) {
        driver.press(Key::escape);
        driver.settle();
    }
    std::ofstream(file, std::ios::binary) << "Group,Number,Name,Quantity\r\n"
                                             "Rear spring,41-7,spring hanger,1\r\n"
                                             "Rear spring,41-9,shackle pin,4\r\n";
    driver.click("positions.empty.step");
    driver.type(file.string());
    driver.press(Key::enter);
    driver.settle();
    driver.press(kKeep);
    driver.settle();
    CHECK(must(list_positions(month.book, month.drover)).size() == 2);
    driver.press(Key::escape);
    driver.settle();
}

// What the machining cost, and that with the price of the pins it comes out right.
void pay_the_bill(Month& month) {
    auto& driver = month.driver();
    month.go_to("money");
    driver.press(Chord{'N'});
    driver.settle();
    driver.type("31.40 GBP");
    month.fill("cost.what", "machining");
    month.fill("cost.of", "Hebble");
    driver.press(Key::enter);
    driver.press(kKeep);
    driver.settle();
    // 24.60 for the new pins and 31.40, both of the rear spring.
    CHECK(month.said("money.row.0.GBP") == "56.00 GBP");
    CHECK(month.said("money.all.GBP") == "56.00 GBP");
}

} // namespace

TEST_CASE("a month of a rebuild goes through the window, from the parts list to what it cost") {
    Month month;
    take_in_the_list(month);
    const PartId hanger = month.add({"hanger off the lorry", "41-7", "", "", ""});
    const PartId pins = month.add({"pins off the lorry", "41-9", "4", "", ""});
    const TaskId fitting = plan_the_fitting(month);
    send_out(month);
    CHECK(holds(waits_in_words(standing(month, fitting)), "Hebble Lane"));
    comes_back_short(month, hanger, pins);
    replace_and_fit(month, fitting);
    pay_the_bill(month);
}
