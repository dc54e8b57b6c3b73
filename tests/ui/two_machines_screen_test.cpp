// Two machines as a person meets them: what is carried to a file, met from one, and settled.
#include "desk/two_machines.h"
#include "notebook/differences.h"
#include "notebook/parts.h"
#include "ui/workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kOpen{'M', true}, kCarryIt{'C'}, kMeetIt{'N'};

void set_field(Notebook& book, const char* field, const char* text) {
    REQUIRE(set_part_field(book, "H7", field, text).ok());
}

struct GarageAndHouse : WorkroomTest {
    std::filesystem::path set = folder / "set", house = folder / "house";

    GarageAndHouse() { (void)part("H7", "spring hanger"); }

    // Writes at the other machine, and carries it to the file.
    void written_there(const char* field, const char* text) {
        auto there = must(Notebook::open(house, store::Access::write));
        set_field(there, field, text);
        (void)must(desk::carry(there, {.file = set}));
    }
    void began_there() {
        (void)must(desk::carry(book, {.file = set}));
        (void)must(desk::meet_in(house, {.file = set}));
    }
    void type_path(const Chord& chord) {
        driver().press(chord);
        driver().type(set.string());
        driver().press(Key::enter);
    }
};

} // namespace

TEST_CASE("the page of two machines says what it is for, and carries to a file that is typed") {
    GarageAndHouse test;
    test.driver().press(kOpen);
    CHECK(test.driver().shows("machines.empty"));
    test.driver().press(kCarryIt);
    test.driver().press(Key::enter);
    CHECK(holds(test.driver().expect_visible("machines.path.error").label, "Type the file"));
    test.driver().type(test.set.string());
    test.driver().press(Key::enter);
    REQUIRE(test.bench->until_shown("report"));
    CHECK(holds(test.bench->said("report"), "carried everything"));
    (void)must(desk::meet_in(test.house, {.file = test.set}));
    CHECK(must(part_tagged(must(Notebook::open(test.house, store::Access::read)), "H7")).name ==
          "spring hanger");
}

TEST_CASE("a difference is met, shown side by side and settled by a press") {
    GarageAndHouse test;
    test.began_there();
    set_field(test.book, "note", "bent at the eye");
    test.written_there("note", "cracked at the root");
    test.driver().press(kOpen);
    test.type_path(kMeetIt);
    REQUIRE(test.bench->until_shown("machines.leave"));
    const auto one = must(list_differences(test.book)).front();
    const std::string key = "machines.difference." + std::to_string(one.id.value);
    CHECK(test.driver().value(key + ".here") == "bent at the eye");
    CHECK(test.driver().value(key + ".there") == "cracked at the root");
    CHECK(must(part_tagged(test.book, "H7")).note == "cracked at the root");
    test.driver().click(key + ".here.take");
    test.driver().settle();
    CHECK(must(part_tagged(test.book, "H7")).note == "bent at the eye");
    CHECK(must(list_differences(test.book)).empty());
    CHECK(test.driver().shows("machines.none"));
}

TEST_CASE("another text is typed for a difference, by keys alone") {
    GarageAndHouse test;
    test.began_there();
    set_field(test.book, "note", "bent");
    test.written_there("note", "cracked");
    test.driver().press(kOpen);
    test.type_path(kMeetIt);
    REQUIRE(test.bench->until_shown("machines.leave"));
    test.driver().press(Chord{'E'});
    test.driver().press(Chord{'A', true});
    test.driver().type("bent and cracked");
    test.driver().press(Key::enter);
    test.driver().settle();
    CHECK(must(part_tagged(test.book, "H7")).note == "bent and cracked");
    CHECK(test.driver().shows("machines.none"));
}

TEST_CASE("a file that is no set says so in the bottom line, and nothing is changed") {
    GarageAndHouse test;
    test.began_there();
    std::ofstream(test.set) << "not a set";
    const auto counter = test.book.change_counter();
    test.driver().press(kOpen);
    test.type_path(kMeetIt);
    REQUIRE(test.bench->until_shown("trouble"));
    CHECK(holds(test.bench->said("trouble"), "not a set"));
    CHECK(test.book.change_counter() == counter);
}
