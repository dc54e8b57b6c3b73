#include "fixture.h"
#include "notebook/marks_compared.h"
#include "notebook/people.h"

using namespace fettle;

namespace {

PhotoId photo_in(Notebook& book, const std::string& hash) {
    return must(add_photo(book, {.hash = hash,
                                 .file = "photos/" + hash,
                                 .original_name = hash,
                                 .width = 400,
                                 .height = 300}));
}

MarkId mark_on(Desk& desk, PartId part, const std::string& reading, const std::string& maker,
               const std::string& hash) {
    return must(keep_mark(desk.book, {.photo = photo_in(desk.book, hash),
                                      .region = {1, 1, 9, 9},
                                      .reading = reading,
                                      .maker = maker,
                                      .part = part}));
}

} // namespace

TEST_CASE("readings are alike but for case, blanks and signs nobody could read") {
    CHECK(compare_readings("OV 36", "ov36") == Likeness::same_reading);
    CHECK(compare_readings("O? 36", "OV 36") == Likeness::near_reading);
    CHECK(compare_readings("OV 36 ", "OV 38") == Likeness::near_reading);
    CHECK(compare_readings("QM 1936 A", "QM 1936") == Likeness::near_reading); // dropped: one of 7
    CHECK_FALSE(compare_readings("OV", "QV"));                                 // half of it
    CHECK_FALSE(compare_readings("OV 36", "QM 36"));
    CHECK_FALSE(compare_readings("", "OV"));
    CHECK_FALSE(compare_readings("OV", "   "));
}

TEST_CASE("where else a mark has been seen, the nearest first, itself left out") {
    Desk desk;
    const auto hanger = desk.part("H7", "hanger").id, pin = desk.part("P9", "pin").id;
    const auto asked = mark_on(desk, hanger, "OV 36", "Orrinvale Forge", "a");
    const auto maker_only = mark_on(desk, pin, "19", "Orrinvale Forge", "b");
    const auto near = mark_on(desk, pin, "O? 36", "", "c");
    const auto same = mark_on(desk, pin, "ov 36", "Orrinvale Forge", "d");
    const auto reading = mark_on(desk, pin, "OV36", "Pellworth Spindle", "e");
    mark_on(desk, pin, "QM", "Quernmore Motor Works", "f");
    const auto like = must(marks_like(desk.book, "OV 36", "Orrinvale Forge", asked));
    REQUIRE(like.size() == 4);
    CHECK(like[0].mark.id == same);
    CHECK(like[0].how == Likeness::same_reading_and_maker);
    CHECK(like[1].mark.id == reading);
    CHECK(like[2].mark.id == near);
    CHECK(like[3].mark.id == maker_only);
    CHECK(like[3].how == Likeness::same_maker);
    CHECK(must(marks_like(desk.book, "", "", {})).empty());
}

TEST_CASE("a part with a mark that is not told for its vehicle is listed until it is held") {
    Desk desk;
    const auto drover = must(vehicle_named(desk.book, "Drover"));
    const auto other = must(add_vehicle(desk.book, {.name = "Heavy Drover"}));
    const auto position = must(add_position(
        desk.book, {.vehicle = drover.id, .group = "Springs", .number = "12", .name = "hanger"}));
    auto hanger = desk.part("H7", "hanger");
    hanger.position = position;
    must(set_part(desk.book, hanger));
    mark_on(desk, hanger.id, "OV 36", "Orrinvale Forge", "a");
    const auto stray = desk.part("P9", "pin").id; // for no vehicle
    mark_on(desk, stray, "OV 36", "Orrinvale Forge", "b");
    // Nothing told: nothing disagrees.
    CHECK(must(disagreeing_parts(desk.book)).empty());
    must(set_makers_on(desk.book, drover, {"Quernmore Motor Works", "Pellworth Spindle"}));
    const Vehicle heavy = must(vehicle_named(desk.book, "Heavy Drover"));
    CHECK(heavy.id == other);
    must(set_makers_on(desk.book, heavy, {"Orrinvale Forge"}));
    const auto found = must(disagreeing_parts(desk.book));
    REQUIRE(found.size() == 1);
    CHECK(found[0].part.tag == "H7");
    CHECK(found[0].vehicle.id == drover.id);
    REQUIRE(found[0].fits.size() == 1);
    CHECK(found[0].fits[0].id == other);
    CHECK(found[0].sentence() == "marked OV 36 by Orrinvale Forge (likely), whose marks are not "
                                 "told for Drover; they belong on Heavy Drover");
    must(hold_for(desk.book, hanger.id, heavy));
    const auto held = must(part_by_id(desk.book, hanger.id));
    CHECK(held.vehicle == other);
    CHECK(held.decision == Decision::hold);
    CHECK_FALSE(held.position);
    CHECK(must(disagreeing_parts(desk.book)).empty());
    CHECK(desk.book.next_undo() == "held H7 for Heavy Drover");
    must(desk.book.undo());
    CHECK(must(disagreeing_parts(desk.book)).size() == 1);
    must(set_makers_on(desk.book, drover, {"Orrinvale Forge"}));
    CHECK(must(makers_on(desk.book, drover.id)) == std::vector<std::string>{"Orrinvale Forge"});
    CHECK(must(disagreeing_parts(desk.book)).empty());
    CHECK(holds(sentence(set_makers_on(desk.book, drover, {" "})), "maker's name"));
}
