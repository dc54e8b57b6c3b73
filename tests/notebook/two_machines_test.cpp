#include "notebook/drafts.h"
#include "notebook/photos.h"
#include "notebook/states.h"
#include "two_machines.h"

#include <sqlite3.h>

using namespace fettle;

namespace {

// The one difference there is.
Difference only_difference(const Notebook& book) {
    const auto all = must(list_differences(book));
    REQUIRE(all.size() == 1);
    return all.front();
}

void set_field(Notebook& book, const char* tag, const char* field, const char* text) {
    (void)must(set_part_field(book, tag, field, text));
}

std::string note_of(const Notebook& book, const char* tag) {
    return must(part_tagged(book, tag)).note;
}

} // namespace

TEST_CASE("what a new machine meets first makes a whole copy of the notebook there") {
    TwoMachines two;
    CHECK(all_of(two.garage) == all_of(two.house));
    CHECK(must(part_tagged(two.house, "H7")).name == "spring hanger");
    CHECK(two.house.next_undo().empty());
    check_sound(two.house);
}

TEST_CASE("a set that says where the files of photos lie leads to none of them") {
    TwoMachines two;
    must(add_photo(two.garage, {.hash = std::string(32, 'a'), .file = "photos/a.jpg"}));
    auto set = carried(two.garage, true);
    const TempFolder folder;
    must(two.garage.read([&](store::Database& database) {
        write_empty_state(database, folder / "none");
        write_empty_state(database, folder / "all");
        return 0;
    }));
    change_state(folder / "all", set.changes);
    open_state(folder / "all").run("UPDATE photos SET file = '/etc/passwd', in_place = 1");
    set.changes = changes_between_states(folder / "none", folder / "all");
    (void)met(two.house, set);
    const auto photos = must(list_photos(two.house));
    REQUIRE(photos.size() == 1);
    CHECK_FALSE(photos[0].in_place);
    CHECK(photos[0].file == "photos/" + std::string(32, 'a'));
    // Nor does a record lead there that came in some other way.
    Photo led = photos[0];
    for (const auto* leads : {"../a.jpg", "/etc/a.jpg", "photos/../../a.jpg", "photos/./a.jpg"}) {
        led.file = leads;
        CHECK(photo_file(two.house, led) == two.house.folder() / "photos/a.jpg");
    }
}

TEST_CASE("what each side writes goes to the other, and ids never meet") {
    TwoMachines two;
    const auto here = must(add_part(two.garage, {.tag = "A1", .name = "pin"}));
    const auto there = must(add_part(two.house, {.tag = "B1", .name = "bush"}));
    CHECK(here.id != there.id);
    must(keep_draft(two.house, {.text = "half a sentence"}));
    two.exchange();
    CHECK(all_of(two.garage) == all_of(two.house));
    CHECK(must(part_tagged(two.house, "A1")).id == here.id);
    CHECK(must(part_tagged(two.garage, "B1")).id == there.id);
    CHECK(must(kept_draft(two.garage)).blank()); // a draft stays where it is written
    CHECK(must(kept_draft(two.house)).text == "half a sentence");
}

TEST_CASE(
    "fields of one part changed on two machines are both taken, one field keeps both values") {
    TwoMachines two;
    set_field(two.garage, "H7", "place", "shelf 3");
    set_field(two.garage, "H7", "note", "bent");
    set_field(two.house, "H7", "cost", "12 GBP");
    set_field(two.house, "H7", "note", "cracked"); // the later one
    two.exchange();
    for (const auto* book : {&two.garage, &two.house}) {
        const auto part = must(part_tagged(*book, "H7"));
        CHECK(part.place == "shelf 3");
        CHECK(part.cost == Money{1200, "GBP"});
        CHECK(part.note == "cracked");
        const auto one = only_difference(*book);
        CHECK(one.of == "H7 spring hanger");
        CHECK(one.field == "note");
        CHECK(one.before == "nothing");
        const bool garage = book == &two.garage;
        CHECK(one.here.words == (garage ? "bent" : "cracked"));
        CHECK(one.there.words == (garage ? "cracked" : "bent"));
        CHECK(one.here.stands != garage);
    }
}

TEST_CASE("a settled difference is carried on, also where both machines had met each other's set") {
    TwoMachines two;
    set_field(two.garage, "H7", "note", "bent");
    set_field(two.house, "H7", "note", "cracked");
    const auto from_garage = carried(two.garage), from_house = carried(two.house);
    (void)met(two.garage, from_house); // the sets cross
    (void)met(two.house, from_garage);
    CHECK(note_of(two.garage, "H7") == note_of(two.house, "H7"));
    must(settle_difference(two.garage, only_difference(two.garage).id, Settle::here));
    CHECK(note_of(two.garage, "H7") == "bent");
    two.exchange();
    CHECK(note_of(two.house, "H7") == "bent");
    CHECK(must(list_differences(two.house)).empty());
    CHECK(all_of(two.garage) == all_of(two.house));
    const auto settled = must(list_differences(two.house, true)).front();
    CHECK(holds(sentence(settle_with_text(two.house, settled.id, "x")), "settled already"));
}

TEST_CASE("an act after a meeting can be taken back, the meeting and what was before it cannot") {
    TwoMachines two;
    set_field(two.garage, "H7", "place", "shelf 3");
    set_field(two.house, "H7", "note", "cracked");
    (void)met(two.garage, carried(two.house));
    set_field(two.garage, "H7", "name", "rear spring hanger");
    CHECK_FALSE(must(two.garage.undo()).empty());
    CHECK(two.garage.next_undo().empty());
    const auto before = all_of(two.garage);
    CHECK(holds(sentence(two.garage.undo()), "is not taken back, nor is what was done before"));
    CHECK(all_of(two.garage) == before);
}

TEST_CASE("two parts with one tag are two parts, photos and contacts of both machines are one") {
    TwoMachines two;
    const auto pin =
        must(add_part(two.garage, {.tag = "P9", .name = "pin", .from = "Ansel Thrupp"}));
    const auto bush =
        must(add_part(two.house, {.tag = "p9", .name = "bush", .from = "Ansel Thrupp"}));
    Photo photo;
    photo.hash = std::string(32, 'a');
    photo.original_name = "IMG_1.jpg";
    photo.format = "JPEG";
    photo.file = "photos/here.jpg";
    const auto shown = must(add_photo(two.garage, photo));
    photo.file = "photos/there.jpg";
    must(tie_photos(two.house, {must(add_photo(two.house, photo))}, bush.id, Stage::before));
    must(tie_photos(two.garage, {shown}, pin.id, Stage::before));
    two.exchange();
    CHECK(all_of(two.garage) == all_of(two.house));
    for (const auto* book : {&two.garage, &two.house}) {
        const std::set<std::string> tags{must(part_by_id(*book, pin.id)).tag,
                                         must(part_by_id(*book, bush.id)).tag};
        CHECK((tags == std::set<std::string>{"P9", "p9-2"} ||
               tags == std::set<std::string>{"p9", "P9-2"}));
        CHECK(only_difference(*book).kind == DifferenceKind::same_tag);
        const auto photos = must(list_photos(*book));
        REQUIRE(photos.size() == 1);
        CHECK(must(ties_of_photo(*book, photos.front().id)).size() == 2);
        CHECK(must(list_people(*book)).size() == 1);
    }
    // Each machine knows its own copy of the file.
    CHECK(must(list_photos(two.garage)).front().file == "photos/here.jpg");
    CHECK(must(list_photos(two.house)).front().file == "photos/there.jpg");
}

TEST_CASE("what one side removes and the other uses is kept, and said") {
    TwoMachines two;
    const auto at = must(add_position(
        two.garage,
        {.vehicle = two.desk.drover, .group = "Front", .number = "F7", .name = "hanger"}));
    two.exchange();
    must(remove_position(two.garage, at));
    auto part = must(part_tagged(two.house, "H7"));
    part.position = at;
    must(set_part(two.house, part));
    two.exchange();
    for (const auto* book : {&two.garage, &two.house}) {
        CHECK(must(position_by_id(*book, at)).name == "hanger");
        CHECK(must(part_tagged(*book, "H7")).position == at);
        const auto one = only_difference(*book);
        CHECK(one.kind == DifferenceKind::removed);
        CHECK(one.of == "position F7 hanger");
    }
    must(settle_difference(two.house, only_difference(two.house).id, Settle::as_it_stands));
    // Removed and left alone on the other side: it goes.
    must(remove_entry(two.garage, two.desk.entry("2026-03-07", "a line")));
    two.exchange();
    CHECK(all_of(two.garage) == all_of(two.house));
}

TEST_CASE("needs that would go round in a circle together lose the later one, and it is said") {
    TwoMachines two;
    const auto paint = two.desk.task("paint"), blast = two.desk.task("blast");
    two.exchange();
    (void)must(keep_task(two.garage, {.id = paint, .title = "paint", .needs = {blast}}));
    (void)must(keep_task(two.house, {.id = blast, .title = "blast", .needs = {paint}}));
    two.exchange();
    for (const auto* book : {&two.garage, &two.house}) {
        CHECK(must(task_by_id(*book, paint)).needs == std::vector{blast});
        CHECK(must(task_by_id(*book, blast)).needs.empty());
        CHECK(only_difference(*book).kind == DifferenceKind::circle);
    }
}

TEST_CASE(
    "a set met twice, an older one, one from here and one whose start is not held change nothing") {
    TwoMachines two;
    set_field(two.house, "H7", "note", "one");
    const auto older = carried(two.house);
    set_field(two.house, "H7", "note", "two");
    const auto newer = carried(two.house);
    (void)met(two.garage, newer);
    const auto before = all_of(two.garage);
    CHECK(holds(sentence(check_set(two.garage, newer.told)), "met already"));
    CHECK(holds(sentence(check_set(two.garage, older.told)), "older than the one last met"));
    CHECK(holds(sentence(check_set(two.house, newer.told)), "carried from here"));
    auto unknown = carried(two.house).told;
    unknown.from = new_name();
    CHECK(holds(sentence(check_set(two.garage, unknown)), "carry OUT --everything"));
    unknown = carried(two.house).told;
    ++unknown.schema;
    CHECK(check_set(two.garage, unknown).failure().kind == FailureKind::newer);
    // Everything can be met whatever is known.
    (void)met(two.garage, carried(two.house, true));
    CHECK(all_of(two.garage) == before);
}

TEST_CASE("a third copy that stands in for the second, and another notebook, are refused") {
    TwoMachines two;
    const auto start = carried(two.garage, true);
    auto third = begun(two.desk.folder / "third", start);
    auto fourth = begun(two.desk.folder / "fourth", start);
    (void)met(two.garage, carried(third));
    CHECK(holds(sentence(check_set(two.garage, carried(fourth).told)), "third copy"));
    Desk other;
    CHECK(holds(sentence(check_set(other.book, start.told)), "never shared a beginning"));
}

TEST_CASE("SQLite itself makes the sender's state of the base and the changeset in the set") {
    TwoMachines two;
    two.exchange();
    std::mt19937 dice(7);
    int tokens = 1;
    hurry(two.garage);
    Hand hand(two.garage, dice, tokens);
    for (int act = 0; act < 60; ++act)
        hand.act();
    const auto set = carried(two.garage);
    REQUIRE_FALSE(set.told.from.empty());
    const auto file = two.desk.folder / "base.db";
    std::filesystem::copy_file(two.desk.folder / "house/met" / (set.told.from + ".db"), file);
    sqlite3* raw = nullptr;
    REQUIRE(sqlite3_open(file.c_str(), &raw) == SQLITE_OK);
    auto conflict = [](void*, int, sqlite3_changeset_iter*) { return SQLITE_CHANGESET_ABORT; };
    CHECK(sqlite3changeset_apply(raw, int(set.changes.size()),
                                 const_cast<std::byte*>(set.changes.data()), nullptr, conflict,
                                 nullptr) == SQLITE_OK);
    sqlite3_close(raw);
    must(two.garage.read([&](store::Database& live) {
        live.run("ATTACH DATABASE ? AS made", file.string());
        for (const auto& table : recorded_tables()) {
            std::string columns;
            auto column =
                live.query("SELECT name FROM pragma_table_info(?) ORDER BY cid", table.name);
            while (column.next())
                if (!field_of(table, column.get<std::string>(0)).empty())
                    columns += (columns.empty() ? "\"" : ", \"") + column.get<std::string>(0) + '"';
            const std::string sent = "SELECT " + columns + " FROM main." + table.name;
            const std::string made = "SELECT " + columns + " FROM made." + table.name;
            CHECK_FALSE(live.query(made + " EXCEPT " + sent).next());
            CHECK_FALSE(live.query(sent + " EXCEPT " + made).next());
        }
        return 0;
    }));
}

TEST_CASE("whatever two people do and however it is carried, both copies end equal, nothing lost") {
    int differences = 0;
    for (unsigned seed = 1; seed <= 3; ++seed)
        differences += live_on_two_machines(seed, 120);
    CHECK(differences > 10); // or the dice would not try it
}
