// thread.engagement and thread.repair as the host meets them: unsafe results, properties, pictures.
#include "plugins/torque_sheet.h"
#include "screw_threads/designation.h"
#include "screw_threads/words.h"
#include "thread/profile.h"

#include <algorithm>

using namespace fettle::test;
namespace screw = fettle::screw;

namespace {

// A row of the comparison of repair ways.
std::size_t row_of(const SheetAnswer& answer, const char* way) {
    const auto& rows = answer.words.at("ways");
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i][0] == way) return i;
    }
    FAIL("no row for the way");
    return 0;
}

} // namespace

TEST_CASE("the engagement asked for is that of torque.tighten for the same bolt and part") {
    const Sheet engagement("thread.engagement");
    const Sheet tighten("torque.tighten");
    for (const char* into : {"steel", "cast iron", "aluminium"}) {
        TypedById typed = {{"thread", Typed::of("M12")},
                           {"grade", Typed::of("ISO 8.8")},
                           {"into", Typed::of(into)}};
        CHECK(engagement.number(typed, "needed") ==
              doctest::Approx(
                  tighten.number(with(typed, "surface", Typed::of("oiled")), "engagement")));
    }
}

TEST_CASE("a bolt in weaker metal wants more thread, and too little of it is stopped") {
    const Sheet sheet("thread.engagement");
    const TypedById typed = sheet.presets();
    const SheetAnswer answer = sheet.answer(typed);
    const auto& rows = answer.tables.at("materials");
    REQUIRE(rows.size() == 4);
    CHECK(rows[1][2] < rows[3][2]); // steel, aluminium
    CHECK(rows[3][2] < rows[2][2]); // grey iron
    const double needed = answer.numbers.at("needed");
    const auto there = [&](double length) {
        return sheet.answer(with(typed, "have", Typed::of(length)));
    };
    CHECK(there(0.98 * needed).has_note(FETTLE_STOP, "too short"));
    CHECK_FALSE(there(1.02 * needed).has_note(FETTLE_STOP));
    CHECK(there(needed).numbers.at("reserve") == doctest::Approx(1));
    CHECK(there(2 * needed).numbers.at("strip_load") ==
          doctest::Approx(2 * there(needed).numbers.at("strip_load")));
    CHECK(answer.numbers.at("turns") / answer.numbers.at("diameters") ==
          doctest::Approx(6)); // 3/8 x 16
}

TEST_CASE("the bolt breaks at the load of its standard") {
    // ISO 898-1 (seen): M12 8.8 breaks at 67.4 kN.
    const Sheet sheet("thread.engagement");
    const double load = sheet.number(kM12, "bolt_breaks");
    CHECK(std::abs(load - 67.4e3) < 0.1e3);
}

TEST_CASE("wear on bolt or hole takes strength, wear within the tolerance does not") {
    const Sheet sheet("thread.engagement");
    TypedById typed = with(kM12, "into", Typed::of("aluminium"));
    typed["have"] = Typed::of(0.02);
    check_monotonic(sheet, typed, "bolt_major", {0.0109, 0.0112, 0.0114, 0.0116}, "needed", -1);
    typed["into"] = Typed::of("steel");
    check_monotonic(sheet, with(typed, "into_strength", Typed::of(900e6)), "hole_minor",
                    {0.0106, 0.0108, 0.0110}, "strip_load", -1);
    CHECK(sheet.number(with(typed, "bolt_major", Typed::of(0.012)), "needed") ==
          sheet.number(typed, "needed"));
    CHECK(sheet(with(typed, "bolt_major", Typed::of(0.0125))).refused_field == "bolt_major");
    CHECK(sheet(with(typed, "hole_minor", Typed::of(0.012))).refused_field == "hole_minor");
    CHECK(sheet(with(typed, "grade", Typed::of("strength typed"))).refused_field ==
          "tensile_strength");
}

TEST_CASE("an insert is tapped by the published rule and holds more in weak metal than before") {
    const Sheet sheet("thread.repair");
    TypedById typed = sheet.presets();
    typed["thread"] = Typed::of("M10");
    typed["grade"] = Typed::of("ISO 8.8");
    typed["hole_now"] = Typed::of(0.0098);
    typed["drills"] = Typed::of("metric");
    typed["length"] = Typed::of(0.025);
    const SheetAnswer answer = sheet.answer(typed);
    // DIN 8140, EG M10 (memory): major 11.948 mm, drill 10.4 mm.
    CHECK(std::abs(answer.numbers.at("tap_major") - 11.948e-3) < 2e-6);
    CHECK(std::abs(answer.numbers.at("drill") - 10.4e-3) < 1e-6);
    CHECK(answer.texts.at("drill_name") == "10.4 mm");
    CHECK(answer.texts.at("thread_after") == "M10x1.5");
    CHECK(answer.numbers.at("strip_load") > answer.numbers.at("strip_before"));
    CHECK(answer.numbers.at("wall") == doctest::Approx(0.014 - 0.011948 / 2).epsilon(1e-3));
    CHECK(answer.has_working("1.2990"));
}

TEST_CASE("a wall too thin or broken through is stopped, one of half a diameter is not") {
    const Sheet sheet("thread.repair");
    const TypedById typed = sheet.presets();
    const double d = 0.375 * kInch;
    const double tapped = sheet.number(typed, "tap_major") / 2;
    const auto at = [&](double wall) {
        return sheet.answer(with(typed, "edge", Typed::of(tapped + wall)));
    };
    CHECK(at(-0.0005).has_note(FETTLE_STOP, "breaks through"));
    CHECK(at(0.3 * d).has_note(FETTLE_STOP, "too thin"));
    CHECK(at(0.45 * d).has_note(FETTLE_CAUTION, "Little metal"));
    CHECK_FALSE(at(0.45 * d).has_note(FETTLE_STOP));
    CHECK_FALSE(at(0.55 * d).has_note(FETTLE_CAUTION));
    // Steel stands a thinner one.
    const TypedById steel = with(typed, "into", Typed::of("steel"));
    CHECK_FALSE(
        sheet.answer(with(steel, "edge", Typed::of(tapped + 0.3 * d))).has_note(FETTLE_STOP));
}

TEST_CASE("a mended hole too short for its bolt is stopped") {
    const Sheet sheet("thread.repair");
    const TypedById typed = sheet.presets();
    const double needed = sheet.number(typed, "needed");
    CHECK(sheet.answer(with(typed, "length", Typed::of(0.97 * needed)))
              .has_note(FETTLE_STOP, "too short"));
    CHECK_FALSE(
        sheet.answer(with(typed, "length", Typed::of(1.03 * needed))).has_note(FETTLE_STOP));
    // Length needed does not hang on the length there is.
    CHECK(sheet.number(with(typed, "length", Typed::of(0.03)), "needed") ==
          doctest::Approx(needed));
}

TEST_CASE("tapping a torn hole again is stopped when too little thread is left") {
    const Sheet sheet("thread.repair");
    TypedById typed = with(sheet.presets(), "way", Typed::of("drill and tap again"));
    // Torn to 9.0 mm, (9.525 - 9.0)/(1.280654 x 1.5875) = 26 % is left.
    typed["hole_now"] = Typed::of(0.009);
    const SheetAnswer torn = sheet.answer(typed);
    CHECK(std::abs(torn.numbers.at("thread_share") - 0.258) < 0.001);
    CHECK(torn.has_note(FETTLE_STOP, "full thread"));
    typed["hole_now"] = Typed::of(0.0079);
    CHECK_FALSE(sheet.answer(typed).has_note(FETTLE_STOP, "full thread"));
    typed["hole_now"] = Typed::of(0.0096); // wider than the bolt
    CHECK(sheet(typed).refused_field == "way");
}

TEST_CASE("the next thread up is the next of its series that still finds metal") {
    const Sheet sheet("thread.repair");
    TypedById typed = with(sheet.presets(), "way", Typed::of("next thread up"));
    typed["hole_now"] = Typed::of(0.3125 * kInch); // 5/16 in: 7/16 BSW is drilled 9.25 mm
    struct Row {
        const char* thread;
        double hole; // m
        const char* next;
        const char* grade;
    };
    for (const Row& row :
         {Row{"3/8-16 BSW", 0.0095, "7/16-14 BSW", "BS letter R"},
          Row{"3/8-20 BSF", 0.0095, "7/16-18 BSF", "BS letter R"},
          Row{"5/16-24 UNF", 0.0078, "3/8-24 UNF", "SAE 5"},
          Row{"M8", 0.0079, "M10x1.5", "ISO 8.8"}, Row{"M8x1", 0.0079, "M9x1", "ISO 8.8"},
          Row{"3/8-16 BSW", 0.0118, "9/16-12 BSW", "BS letter R"}}) {
        CAPTURE(std::string(row.thread));
        typed["thread"] = Typed::of(row.thread);
        typed["hole_now"] = Typed::of(row.hole);
        typed["grade"] = Typed::of(row.grade);
        CHECK(sheet.answer(typed).texts.at("thread_after") == row.next);
    }
}

TEST_CASE("all four ways are compared, and a bush's own wall is judged") {
    const Sheet sheet("thread.repair");
    TypedById typed = with(sheet.presets(), "hole_now", Typed::of(0.0088));
    const SheetAnswer answer = sheet.answer(typed);
    CHECK(answer.words.at("ways").size() == 4);
    CHECK(answer.words.at("ways")[row_of(answer, "wire-thread insert")][8] == "holds");
    CHECK(answer.words.at("ways")[row_of(answer, "drill and tap again")][8] ==
          "no: Too little thread");
    typed["way"] = Typed::of("solid bush");
    typed["bush_od"] = Typed::of(0.375 * kInch + 2.2 * kInch / 16);
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP, "bush's own wall"));
    typed["bush_od"] = Typed::of(0.016);
    CHECK_FALSE(sheet.answer(typed).has_note(FETTLE_STOP, "bush's own wall"));
    typed["bush_od"] = Typed::of(0.0096);
    CHECK(sheet(typed).refused_field == "bush_od");
}

TEST_CASE("nonsense about the hole is refused by its field") {
    const Sheet sheet("thread.repair");
    const TypedById typed = sheet.presets();
    CHECK(sheet(with(typed, "hole_now", Typed::of(0.002))).refused_field == "hole_now");
    CHECK(sheet(with(typed, "hole_now", Typed::of(0.15))).refused_field == "hole_now");
    CHECK(sheet(with(typed, "edge", Typed::of(0.004))).refused_field == "edge");
    CHECK(sheet(with(typed, "thread", Typed::of("G 1/2"))).refused_field == "thread");
    CHECK(sheet(with(typed, "thread", Typed::of("G 1/2"))).refusal.find("pipe") !=
          std::string::npos);
}

TEST_CASE("the drawn profile has the crest, root and flank of its form") {
    for (const char* name : {"3/8-16 BSW", "3/8-16 UNC", "0BA", "1/4-26 BSC", "M10"}) {
        CAPTURE(std::string(name));
        const auto read = screw::read_thread(name);
        const auto thread = std::get<screw::Thread>(read);
        const auto height = [&](double along) {
            return fettle::thread::profile_height(thread, along * thread.pitch);
        };
        CHECK(height(0) == doctest::Approx(thread.diameter / 2));
        CHECK(height(0.5) == doctest::Approx(screw::core_diameter(thread) / 2));
        CHECK(height(0.2) == doctest::Approx(height(-0.2)));
        CHECK(height(1.3) == doctest::Approx(height(0.3)));
        // On the pitch line, halfway down, the ridge is half a pitch wide.
        CHECK(height(0.25) == doctest::Approx(screw::pitch_diameter(thread) / 2).epsilon(1e-4));
        const double slope = (height(0.24) - height(0.26)) / (0.02 * thread.pitch);
        CHECK(slope == doctest::Approx(1 / std::tan(screw::flank_angle(thread.form))));
    }
}
