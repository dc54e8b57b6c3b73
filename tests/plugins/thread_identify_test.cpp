// Which thread is this: ranking over the whole catalogue, with wear and gauge error, and the words.
#include "plugins/torque_sheet.h"
#include "screw_threads/words.h"
#include "thread/identify.h"

#include <algorithm>
#include <random>

using namespace fettle::test;
using fettle::thread::catalogue;
using fettle::thread::Known;
using fettle::thread::Match;
using fettle::thread::rank;
using fettle::thread::Readings;
namespace screw = fettle::screw;

namespace {

Readings nominal(const Known& known, bool hole) {
    Readings readings;
    readings.hole = hole;
    readings.diameter = hole ? screw::nut_minor_diameter(known.thread) : known.thread.diameter;
    readings.pitch = known.thread.pitch;
    readings.angle = 2 * screw::flank_angle(known.thread.form);
    readings.wear = 0.1e-3;
    readings.diameter_doubt = 0.05e-3;
    readings.pitch_doubt = 0.015;
    return readings;
}

TypedById measured(double inches, const char* id, double pitch, const char* angle = "not known") {
    return {{"kind", Typed::of("bolt or stud")},
            {"major", Typed::of(inches * kInch)},
            {id, Typed::of(pitch)},
            {"angle", Typed::of(angle)},
            {"wear", Typed::of(0.1e-3)}};
}

bool ranked_within(const SheetAnswer& answer, const char* thread, std::size_t places) {
    const auto& rows = answer.words.at("ranked");
    for (std::size_t i = 0; i < places && i < rows.size(); ++i) {
        if (rows[i][0] == thread) return true;
    }
    return false;
}

} // namespace

TEST_CASE("every standard thread is first, or tied with its twin, for its own sizes") {
    for (const bool hole : {false, true}) {
        for (const Known& known : catalogue()) {
            CAPTURE(known.thread.name);
            const Match best = rank(nominal(known, hole)).front();
            CHECK(best.misfit < 1e-6);
            CHECK(fettle::thread::twins(best.known.thread, known.thread));
        }
    }
}

TEST_CASE("without the flanks a thread is tied only with those of the same diameter and pitch") {
    for (const Known& known : catalogue()) {
        CAPTURE(known.thread.name);
        Readings readings = nominal(known, false);
        readings.angle.reset();
        for (const Match& each : rank(readings)) {
            if (each.misfit > 1e-6) break;
            CHECK(fettle::thread::same_measures(each.known.thread, known.thread));
        }
    }
}

TEST_CASE("worn and misread by what was owned to, a thread still fits, behind near ones alone") {
    std::mt19937 engine(11);
    std::uniform_real_distribution<double> whole(0, 1);
    const std::vector<Known> all = catalogue();
    int first = 0;
    int rounds = 0;
    for (int round = 0; round < 4000; ++round) {
        const Known& known = all[engine() % all.size()];
        const bool hole = whole(engine) < 0.3;
        Readings readings = nominal(known, hole);
        const double wear = whole(engine) * readings.wear;
        const double misread = (2 * whole(engine) - 1) * readings.diameter_doubt;
        readings.diameter += (hole ? wear : -wear) + misread;
        readings.pitch *= 1 + (2 * whole(engine) - 1) * readings.pitch_doubt;
        CAPTURE(known.thread.name);
        CAPTURE(readings.diameter);
        bool found = false;
        const std::vector<Match> ranked = rank(readings);
        for (const Match& each : ranked) {
            if (fettle::thread::twins(each.known.thread, known.thread)) {
                CHECK(each.misfit <= fettle::thread::kFits);
                found = true;
                break;
            }
            // Whoever stands before it is no further off than wear and gauges reach.
            const double reach = readings.wear + 2 * readings.diameter_doubt + known.taper +
                                 each.known.taper + 0.5 * each.known.thread.pitch;
            const double own =
                hole ? screw::nut_minor_diameter(known.thread) : known.thread.diameter;
            CHECK(std::abs(each.basic - own) < reach);
            CHECK(std::abs(each.known.thread.pitch / known.thread.pitch - 1) < 0.05);
        }
        CHECK(found);
        ++rounds;
        if (fettle::thread::twins(ranked[0].known.thread, known.thread)) ++first;
    }
    CHECK(first > 0.9 * rounds);
}

TEST_CASE("a worn bolt may be small for its name, but not large") {
    Readings readings = nominal(catalogue().front(), false);
    const double d = 0.375 * kInch;
    readings.pitch = kInch / 20;
    readings.angle = 55 * screw::kPi / 180;
    const auto misfit_of = [&](double diameter) {
        readings.diameter = diameter;
        for (const Match& each : rank(readings)) {
            if (each.known.thread.name == "3/8-20 BSF") return each.misfit;
        }
        return -1.0;
    };
    CHECK(misfit_of(d - 0.15e-3) < misfit_of(d + 0.15e-3));
    CHECK(misfit_of(d - 0.15e-3) < 1);
    CHECK(misfit_of(d + 0.15e-3) > 2);
    CHECK(misfit_of(d) < 1e-9);
}

TEST_CASE("two threads that the readings cannot tell apart are named, with a stop and the way") {
    const Sheet sheet("thread.identify");
    struct Row {
        double major, tpi;
        const char* one;
        const char* other;
    };
    // The ambiguous pairs of the trade (seen): one diameter and pitch, two flank angles.
    for (const Row& row :
         {Row{0.250, 20, "1/4-20 BSW", "1/4-20 UNC"}, Row{0.3125, 18, "5/16-18 BSW", "5/16-18 UNC"},
          Row{0.375, 16, "3/8-16 BSW", "3/8-16 UNC"}, Row{0.4375, 14, "7/16-14 BSW", "7/16-14 UNC"},
          Row{0.625, 11, "5/8-11 BSW", "5/8-11 UNC"}, Row{0.75, 10, "3/4-10 BSW", "3/4-10 UNC"},
          Row{0.25, 26, "1/4-26 BSF", "1/4-26 BSC"}}) {
        CAPTURE(std::string(row.one));
        const SheetAnswer answer = sheet.answer(measured(row.major, "tpi", row.tpi));
        CHECK(ranked_within(answer, row.one, 4));
        CHECK(ranked_within(answer, row.other, 4));
        CHECK(answer.has_note(FETTLE_STOP, "alike"));
        CHECK(answer.has_note(FETTLE_STOP, "flanks tell"));
        const SheetAnswer told = sheet.answer(measured(row.major, "tpi", row.tpi, "55"));
        CHECK(told.texts.at("thread") == row.one);
        CHECK_FALSE(told.has_note(FETTLE_STOP, "flanks tell"));
        CHECK(told.has_note(FETTLE_CAUTION, "must not be mixed"));
    }
}

TEST_CASE("half-inch Whitworth and Unified are told by the pitch alone") {
    const Sheet sheet("thread.identify");
    const SheetAnswer twelve = sheet.answer(measured(0.498, "tpi", 12));
    const SheetAnswer thirteen = sheet.answer(measured(0.498, "tpi", 13));
    CHECK(twelve.texts.at("thread") == "1/2-12 BSW");
    CHECK(thirteen.texts.at("thread") == "1/2-13 UNC");
    CHECK_FALSE(twelve.has_note(FETTLE_STOP));
    CHECK_FALSE(thirteen.has_note(FETTLE_STOP));
}

TEST_CASE("near misses of metric, BA and fine inch threads are listed together with a stop") {
    const Sheet sheet("thread.identify");
    // M6 and 0BA have one diameter and pitch (seen).
    const SheetAnswer six = sheet.answer(measured(6.0 / 25.4, "pitch", 1e-3));
    CHECK(ranked_within(six, "M6x1", 2));
    CHECK(ranked_within(six, "0BA", 2));
    CHECK(six.has_note(FETTLE_STOP, "47.5°"));
    const SheetAnswer ba = sheet.answer(measured(6.0 / 25.4, "pitch", 1e-3, "47.5"));
    CHECK(ba.texts.at("thread") == "0BA");
    // M5x0.8 is 31.75 to the inch, against 3/16-32 BSF and #10-32 UNF (seen).
    const SheetAnswer five = sheet.answer(measured(4.8 / 25.4, "tpi", 32));
    CHECK(ranked_within(five, "#10-32 UNF", 6));
    CHECK(ranked_within(five, "M5x0.8", 6));
    CHECK(five.has_note(FETTLE_STOP));
}

TEST_CASE("threads to the inch and millimetres of pitch say the same, counted over turns or not") {
    const Sheet sheet("thread.identify");
    const SheetAnswer inch = sheet.answer(measured(0.371, "tpi", 20, "55"));
    const SheetAnswer metric = sheet.answer(measured(0.371, "pitch", kInch / 20, "55"));
    CHECK(inch.texts.at("thread") == "3/8-20 BSF");
    CHECK(inch.texts == metric.texts);
    CHECK(inch.numbers == metric.numbers);
    TypedById ten = measured(0.371, "pitch", 10 * kInch / 20, "55");
    ten["pitches"] = Typed::of(10.0);
    CHECK(sheet.answer(ten).texts.at("thread") == "3/8-20 BSF");
    // Ten turns tell 31.75 from 32 to the inch, which a leaf does not.
    TypedById fine = measured(4.95 / 25.4, "pitch", 8e-3, "60");
    fine["pitches"] = Typed::of(10.0);
    const SheetAnswer told = sheet.answer(fine);
    CHECK(told.texts.at("thread") == "M5x0.8");
    CHECK(told.words.at("ranked")[1][8].rfind("fits;", 0) == std::string::npos);
}

TEST_CASE(
    "a nut is known by its bore, a pipe by its own sizes, and where it came from settles ties") {
    const Sheet sheet("thread.identify");
    // 3/8 BSF: minor 0.311 in (seen).
    TypedById nut = {{"kind", Typed::of("nut or tapped hole")},
                     {"minor", Typed::of(0.313 * kInch)},
                     {"tpi", Typed::of(20.0)},
                     {"angle", Typed::of("55")}};
    CHECK(sheet.answer(nut).texts.at("thread") == "3/8-20 BSF");
    // G 1/4: 13.157 mm, 19 to the inch (ISO 228-1, memory).
    const SheetAnswer pipe = sheet.answer(measured(13.1 / 25.4, "tpi", 19));
    CHECK(pipe.texts.at("thread") == "G 1/4-19");
    // 1/8-27 NPT at its thin end: 0.3635 + 0.8/27 in (ASME B1.20.1, memory).
    const SheetAnswer taper = sheet.answer(measured(0.394, "tpi", 27));
    CHECK(taper.texts.at("thread") == "1/8-27 NPT");
    CHECK(taper.has_note(FETTLE_CAUTION, "taper"));
    TypedById tie = measured(0.25, "tpi", 20);
    tie["met"] = Typed::of("British");
    CHECK(sheet.answer(tie).texts.at("thread") == "1/4-20 BSW");
    tie["met"] = Typed::of("American");
    CHECK(sheet.answer(tie).texts.at("thread") == "1/4-20 UNC");
    tie["met"] = Typed::of("metric"); // never against the readings
    CHECK(sheet.answer(tie).texts.at("thread") != "M6x1");
}

TEST_CASE("what no standard has gets a stop and no name to hand on") {
    const Sheet sheet("thread.identify");
    const SheetAnswer odd = sheet.answer(measured(0.4, "tpi", 9));
    CHECK(odd.texts.count("thread") == 0);
    CHECK(odd.numbers.count("tapping_drill") == 0);
    CHECK(odd.has_note(FETTLE_STOP, "No standard thread"));
}

TEST_CASE("a form without diameter or pitch, or with two pitches, is refused by its field") {
    const Sheet sheet("thread.identify");
    CHECK(sheet({}).refused_field == "major");
    CHECK(sheet({{"kind", Typed::of("nut or tapped hole")}}).refused_field == "minor");
    CHECK(sheet({{"major", Typed::of(0.01)}}).refused_field == "tpi");
    TypedById both = measured(0.375, "tpi", 20);
    both["pitch"] = Typed::of(1.27e-3);
    CHECK(sheet(both).refused_field == "pitch");
    CHECK(sheet(measured(0.1, "pitch", 5e-3)).refused_field == "pitch");
}

TEST_CASE("the thread found is taken on by torque.tighten as it is written") {
    const Sheet identify("thread.identify");
    const Sheet tighten("torque.tighten");
    const SheetAnswer found = identify.answer(identify.presets());
    TypedById typed = tighten.presets();
    typed["thread"] = Typed::of(found.texts.at("thread").c_str());
    typed["grade"] = Typed::of("BS letter R");
    CHECK(tighten.answer(typed).numbers.at("torque") > 0);
    const fettle_sheet& sheet = identify.described();
    CHECK(std::string(sheet.outputs[0]->id) == "thread");
    CHECK(std::string(sheet.outputs[0]->hands_to) == "torque.tighten.thread");
}

TEST_CASE("the profiles are drawn to scale, closed, with the measured crest across them") {
    const Sheet sheet("thread.identify");
    const SheetAnswer answer = sheet.answer(sheet.presets());
    const auto& drawn = answer.series.at("profile");
    REQUIRE(drawn.size() == 3);
    CHECK(drawn[0].look == FETTLE_BODY);
    CHECK(drawn[0].name == "3/8-20 BSF");
    double top = 0;
    for (const fettle_point& point : drawn[0].points)
        top = std::max(top, point.y);
    CHECK(top == doctest::Approx(0.375 * kInch / 2));
    CHECK(drawn[0].points.front().x == drawn[0].points.back().x);
    CHECK(drawn[0].points.front().y == drawn[0].points.back().y);
    CHECK(drawn[2].look == FETTLE_DASHED);
    CHECK(drawn[2].points[0].y == doctest::Approx(0.371 * kInch / 2));
}
