// Setting up a differential trial after trial: a made-up axle whose true errors only the test knows
// gives the readings, the advice is followed, and it must converge; readings that contradict each
// other must be named and get no advice.
#include "plugins/trial_axle.h"

using namespace fettle::test;

namespace {

const Axle kAxle{.meets_at = -10 * kThou};
constexpr Shims kStart{30 * kThou, 40 * kThou, 40 * kThou}; // all right on kAxle but for nothing

// Two trials on kAxle with what the second differs in, asked as the second.
SheetAnswer second_trial(const ShimSheet& sheet, const Shims& then, const Shims& now,
                         const TypedById& changes_then, const TypedById& changes_now) {
    TypedById first = readings(kAxle, then);
    for (const auto& [id, value] : changes_then)
        first[id] = value;
    TypedById second = readings(kAxle, now);
    for (const auto& [id, value] : changes_now)
        second[id] = value;
    second["earlier"] = carried_on(sheet.answer(first));
    return sheet.answer(second);
}

void withheld(const SheetAnswer& answer, const char* words) {
    CAPTURE(std::string(words));
    for (const auto& note : answer.notes)
        INFO(note.second);
    CHECK(answer.has_note(FETTLE_STOP, words));
    CHECK(answer.numbers.count("next_pinion") == 0);
    CHECK(answer.numbers.count("next_left") == 0);
    CHECK(answer.texts.at("next").rfind("No advice", 0) == 0);
    CHECK(!answer.has_note(FETTLE_REACHED));
}

void follows(const SheetAnswer& answer) {
    for (const auto& note : answer.notes)
        INFO(note.second);
    CHECK(!answer.has_note(FETTLE_STOP));
}

TypedById pattern(const char* drive_height, const char* drive_along, const char* coast_height,
                  const char* coast_along) {
    return {{"drive_height", Typed::of(drive_height)},
            {"drive_along", Typed::of(drive_along)},
            {"coast_height", Typed::of(coast_height)},
            {"coast_along", Typed::of(coast_along)}};
}

} // namespace

TEST_CASE("following the advice sets up any axle in few trials, whatever its true factors") {
    const ShimSheet sheet("shim.trial");
    std::mt19937 engine(21);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine);
    };
    int all = 0;
    int most = 0;
    constexpr int kRounds = 400;
    for (int round = 0; round < kRounds; ++round) {
        CAPTURE(round);
        Axle axle;
        axle.thicker_is_nearer = round % 2 == 0 ? 1 : -1;
        axle.ring_on_right = round % 4 < 2;
        axle.ring = freed_by_ring(20 * kDegree, 75 * kDegree, 0) * between(0.85, 1.2);
        axle.pinion = freed_by_pinion(20 * kDegree, 75 * kDegree, 0) * between(0.8, 1.25);
        axle.pinion_right = between(30, 60) * kThou;
        axle.best_backlash = between(7, 8) * kThou;
        axle.run_out = between(0, 1.3) * kThou;
        axle.phase = between(0, 6);
        axle.jitter = &engine;
        const Shims start{built(axle.pinion_right + between(-15, 15) * kThou), 45 * kThou,
                          45 * kThou};
        const double first = between(2, 25) * kThou;
        axle.meets_at = -(first + axle.pinion * axle.too_near(start)) / axle.ring;
        REQUIRE(axle.backlash(start) == doctest::Approx(first));
        const Run run = set_up(sheet, axle, start, 12);
        INFO(run.last.texts.at("next"));
        follows(run.last);
        CHECK(run.reached);
        CHECK(std::abs(axle.too_near(run.shims)) <= 2 * kThou);
        CHECK(axle.backlash(run.shims) > 5.7 * kThou);
        CHECK(axle.backlash(run.shims) < 9.3 * kThou);
        CHECK(close_to(run.shims.left + run.shims.right, 90 * kThou, 3 * kThou));
        all += run.trials;
        most = std::max(most, run.trials);
    }
    MESSAGE("trials on the average ", double(all) / kRounds, ", at most ", most);
    CHECK(most <= 8);
    CHECK(all < 4.5 * kRounds);
}

TEST_CASE(
    "a pattern at the face brings the pinion nearer, at the flank away, wherever the shim is") {
    // Contact pattern rule: maker's maintenance manual p. 61 (seen), keyed on the pinion's
    // direction.
    const ShimSheet sheet("shim.trial");
    struct Row {
        const char* height;
        const char* acts;
        double sense; // of the pinion shim
        const char* words;
    };
    const Row rows[] = {{"face", "nearer the ring gear", 1, "nearer the ring gear"},
                        {"flank", "nearer the ring gear", -1, "away from the ring gear"},
                        {"face", "away from the ring gear", -1, "nearer the ring gear"},
                        {"flank", "away from the ring gear", 1, "away from the ring gear"}};
    for (const Row& row : rows) {
        TypedById typed = readings(kAxle, kStart);
        for (const auto& [id, value] : pattern(row.height, "centre", row.height, "centre"))
            typed[id] = value;
        typed["pinion_acts"] = Typed::of(row.acts);
        const SheetAnswer answer = sheet.answer(typed);
        CHECK(close_to(answer.numbers.at("next_pinion"), (30 + 4 * row.sense) * kThou, 1e-12));
        CHECK(answer.texts.at("next").find(row.words) != std::string::npos);
        // 4 thou x 0.188 = 0.75 thou: still in the range, so the carrier stays: one thing at a
        // time.
        CHECK(close_to(answer.numbers.at("next_left"), 40 * kThou, 1e-12));
        const double nearer = row.height == std::string("face") ? 1 : -1;
        CHECK(close_to(answer.numbers.at("expected"),
                       answer.numbers.at("backlash") - nearer * 4 * kThou * 0.188, 0.01 * kThou));
    }
}

TEST_CASE("a pattern at the toe asks for more backlash, at the heel for less, within the range") {
    // The same rule: toward heel decrease, toward toe increase backlash (seen).
    const ShimSheet sheet("shim.trial");
    for (const bool toe : {true, false}) {
        TypedById typed = readings(kAxle, kStart);
        const char* place = toe ? "toe" : "heel";
        for (const auto& [id, value] : pattern("centre", place, "centre", "centre"))
            typed[id] = value;
        const SheetAnswer answer = sheet.answer(typed);
        const double change = answer.numbers.at("expected") - answer.numbers.at("backlash");
        CHECK((toe ? change > 0.5 * kThou : change < -0.5 * kThou));
        CHECK(answer.numbers.at("expected") <= 9 * kThou);
        CHECK(answer.numbers.at("expected") >= 6 * kThou);
        // Ring gear on the left: less shim behind its back takes it away from the pinion.
        CHECK((answer.numbers.at("next_left") < 40 * kThou) == toe);
        CHECK(close_to(answer.numbers.at("next_left") + answer.numbers.at("next_right"), 80 * kThou,
                       1e-12));
    }
}

TEST_CASE("run-out comes first, then the bearings' preload, then depth, and only then backlash") {
    const ShimSheet sheet("shim.trial");
    TypedById typed = readings(kAxle, {30 * kThou, 36 * kThou, 44 * kThou});
    for (const auto& [id, value] : pattern("face", "centre", "face", "centre"))
        typed[id] = value;
    typed["torque"] = Typed::of(1.0);
    typed["torque_wanted"] = Typed::list({2.0, 3.0});
    typed["runout_most"] = Typed::of(0.5 * kThou);
    const SheetAnswer run_out = sheet.answer(typed);
    CHECK(run_out.texts.at("verdict").find("run-out") != std::string::npos);
    CHECK(run_out.numbers.count("next_pinion") == 0);
    typed["runout_most"] = Typed::of(2 * kThou);
    const SheetAnswer slack = sheet.answer(typed);
    CHECK(slack.texts.at("verdict").find("preload") != std::string::npos);
    CHECK(close_to(slack.numbers.at("next_left"), 37 * kThou, 1e-12));
    CHECK(close_to(slack.numbers.at("next_right"), 45 * kThou, 1e-12));
    typed["torque"] = Typed::of(4.0);
    CHECK(close_to(sheet.number(typed, "next_left"), 35 * kThou, 1e-12));
    typed["torque"] = Typed::of(2.5);
    CHECK(sheet.answer(typed).texts.at("verdict").find("depth") != std::string::npos);
    for (const auto& [id, value] : pattern("centre", "centre", "centre", "centre"))
        typed[id] = value;
    const SheetAnswer last = sheet.answer(typed);
    CHECK(last.texts.at("verdict").find("backlash") != std::string::npos);
    CHECK(close_to(last.numbers.at("expected"), 7.5 * kThou, 1e-12));
}

TEST_CASE("all within its limits and centred is reached, and nothing less") {
    const ShimSheet sheet("shim.trial");
    const TypedById good = readings(kAxle, kStart);
    const SheetAnswer reached = sheet.answer(good);
    CHECK(reached.has_note(FETTLE_REACHED));
    CHECK(reached.numbers.count("next_pinion") == 0);
    struct Row {
        const char* id;
        Typed value;
    };
    const Row rows[] = {{"drive_height", Typed::of("not looked at")},
                        {"drive_along", Typed::of("not looked at")},
                        {"coast_height", Typed::of("not looked at")},
                        {"coast_height", Typed::of("flank")},
                        {"coast_along", Typed::of("not looked at")},
                        {"coast_along", Typed::of("heel")},
                        {"drive_along", Typed::of("heel")},
                        {"wanted", thous({4, 6})},
                        {"torque_wanted", Typed::list({2, 3})},
                        {"runout_most", thou(0.5)},
                        {"variation", thou(0.4)}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.id));
        TypedById typed = good;
        typed[row.id] = row.value;
        const SheetAnswer answer = sheet.answer(typed);
        CHECK(!answer.has_note(FETTLE_REACHED));
        CHECK(!answer.texts.at("next").empty());
    }
}

TEST_CASE("a mean within the range does not hide a tooth outside it") {
    const ShimSheet sheet("shim.trial");
    TypedById typed = readings(kAxle, kStart);
    typed["backlash"] = thous({5.7, 6.2, 6.6, 6.2});
    const SheetAnswer tight = sheet.answer(typed);
    CHECK(!tight.has_note(FETTLE_REACHED));
    CHECK(close_to(tight.numbers.at("expected"), 7.5 * kThou, 1e-12));
    typed["backlash"] = thous({6.1, 6.6, 7.0, 6.6});
    CHECK(sheet.answer(typed).has_note(FETTLE_REACHED));
}

TEST_CASE("backlash that varies otherwise than the run-out explains gets no advice") {
    const ShimSheet sheet("shim.trial");
    TypedById typed = readings(kAxle, kStart);
    typed["backlash"] = thous({4.5, 7, 10.5, 8});
    withheld(sheet.answer(typed), "explains");
    typed["backlash"] = thous({7, 7.1, 7.2, 7.1});
    typed["runout"] = thou(6);
    withheld(sheet.answer(typed), "should make backlash vary");
    typed.erase("runout");
    follows(sheet.answer(typed));
}

TEST_CASE("drive and coast side that ask the pinion to opposite sides get no advice") {
    const ShimSheet sheet("shim.trial");
    const auto ask = [&](const TypedById& seen) {
        TypedById typed = readings(kAxle, kStart);
        for (const auto& [id, value] : seen)
            typed[id] = value;
        return sheet.answer(typed);
    };
    withheld(ask(pattern("face", "centre", "flank", "centre")), "coast side bears at the flank");
    withheld(ask(pattern("flank", "centre", "face", "centre")), "drive side bears at the flank");
    withheld(ask(pattern("flank", "heel", "flank", "toe")), "along the tooth");
    follows(ask(pattern("flank", "toe", "flank", "heel")));
    follows(ask(pattern("face", "heel", "face", "toe")));
}

TEST_CASE("a pattern that asks for more backlash where there is too much gets no advice") {
    const ShimSheet sheet("shim.trial");
    TypedById typed = readings(kAxle, {30 * kThou, 34 * kThou, 46 * kThou});
    for (const auto& [id, value] : pattern("centre", "toe", "centre", "toe"))
        typed[id] = value;
    withheld(sheet.answer(typed), "toe asks for more backlash");
    typed = readings(kAxle, {30 * kThou, 45 * kThou, 35 * kThou});
    for (const auto& [id, value] : pattern("centre", "heel", "centre", "heel"))
        typed[id] = value;
    withheld(sheet.answer(typed), "heel asks for less backlash");
}

TEST_CASE("backlash that answers the carrier shims the wrong way or not at all gets no advice") {
    const ShimSheet sheet("shim.trial");
    const Shims then{30 * kThou, 44 * kThou, 36 * kThou};
    const Shims now{30 * kThou, 38 * kThou, 42 * kThou}; // 6 thou away: 4.2 thou more backlash
    follows(second_trial(sheet, then, now, {}, {}));
    const TypedById unseen =
        pattern("not looked at", "not looked at", "not looked at", "not looked at");
    TypedById wrong = unseen;
    wrong["backlash"] = thous({2.0, 2.2, 2.4, 2.2});
    withheld(second_trial(sheet, then, now, unseen, wrong), "should have grown, but it shrank");
    wrong["backlash"] = thous({14, 14.2, 14.4, 14.2});
    withheld(second_trial(sheet, then, now, unseen, wrong), "which changes backlash by about");
    wrong["backlash"] = thous({8, 8.2, 8.4, 8.2});
    withheld(second_trial(sheet, then, then, unseen, wrong), "no shim was moved");
    // The ring gear said to be on the other side is the same contradiction, and is found.
    TypedById other_side = unseen;
    other_side["ring_side"] = Typed::of("right");
    withheld(second_trial(sheet, then, now, other_side, other_side), "should have shrunk");
}

TEST_CASE("a pattern that goes up though the pinion went nearer gets no advice") {
    const ShimSheet sheet("shim.trial");
    const Shims nearer{34 * kThou, 40 * kThou, 40 * kThou};
    const auto seen = [](const char* height) {
        return pattern(height, "centre", height, "centre");
    };
    withheld(second_trial(sheet, kStart, nearer, seen("centre"), seen("face")),
             "the pattern went up toward the face");
    withheld(second_trial(sheet, nearer, kStart, seen("face"), seen("flank")),
             "the pattern went down toward the flank");
    withheld(second_trial(sheet, kStart, kStart, seen("face"), seen("flank")), "the pinion stayed");
    follows(second_trial(sheet, kStart, nearer, seen("face"), seen("centre")));
    follows(second_trial(sheet, kStart, nearer, seen("face"), seen("face")));
    follows(second_trial(sheet, kStart, nearer, seen("face"), seen("flank")));
}

TEST_CASE("a pattern that goes to the toe though the ring gear went away gets no advice") {
    const ShimSheet sheet("shim.trial");
    const Shims then{30 * kThou, 42 * kThou, 38 * kThou};
    const Shims now{30 * kThou, 38.5 * kThou, 41.5 * kThou};
    const auto seen = [](const char* place) { return pattern("centre", place, "centre", place); };
    withheld(second_trial(sheet, then, now, seen("centre"), seen("toe")), "not to the heel");
    withheld(second_trial(sheet, now, then, seen("toe"), seen("centre")), "not to the toe");
    follows(second_trial(sheet, then, now, seen("toe"), seen("centre")));
}

TEST_CASE("a turning torque that drops though the carrier stacks grew gets no advice") {
    const ShimSheet sheet("shim.trial");
    const Shims thicker{30 * kThou, 42 * kThou, 42 * kThou};
    const TypedById three{{"torque", Typed::of(3.0)}};
    const TypedById two{{"torque", Typed::of(2.0)}};
    withheld(second_trial(sheet, kStart, thicker, three, two), "dropped from");
    withheld(second_trial(sheet, thicker, kStart, two, three), "rose from");
    const SheetAnswer grown = second_trial(sheet, kStart, thicker, two, three);
    follows(grown);
    CHECK(grown.has_note(FETTLE_CAUTION, "preload has changed"));
}

TEST_CASE("what the trials themselves show of the factor is used where it is near geometry") {
    const ShimSheet sheet("shim.trial");
    Axle stiff = kAxle;
    stiff.ring = 0.55;
    stiff.meets_at = -30 * kThou;
    TypedById first = readings(stiff, kStart);
    TypedById second = readings(stiff, {30 * kThou, 46 * kThou, 34 * kThou});
    for (TypedById* typed : {&first, &second}) {
        for (const auto& [id, value] :
             pattern("not looked at", "not looked at", "not looked at", "not looked at"))
            (*typed)[id] = value;
    }
    CHECK(close_to(sheet.number(first, "factor"), 0.703, 0.001));
    second["earlier"] = carried_on(sheet.answer(first));
    const SheetAnswer learned = sheet.answer(second);
    CHECK(close_to(learned.numbers.at("factor"), 0.55, 0.01));
    CHECK(learned.has_working("trials' own figure"));
}

TEST_CASE("the trials are kept row by row and drawn with the range wanted") {
    const ShimSheet sheet("shim.trial");
    const Shims then{30 * kThou, 44 * kThou, 36 * kThou};
    const SheetAnswer answer = second_trial(sheet, then, kStart, {}, {});
    const auto& rows = answer.tables.at("trials");
    REQUIRE(rows.size() == 2);
    CHECK(answer.numbers.at("trial") == 2);
    CHECK(close_to(rows[0][1], 44 * kThou, 1e-12));
    CHECK(rows[1][8] == 2); // drive side at mid height, second of the words from 0
    int dashed = 0;
    bool mean = false;
    for (const DrawnSeries& series : answer.series.at("convergence")) {
        dashed += series.look == FETTLE_DASHED ? 1 : 0;
        if (series.name != "mean") continue;
        mean = true;
        REQUIRE(series.points.size() == 2);
        CHECK(series.points[0].x == 1);
        CHECK(close_to(series.points[1].y, rows[1][3], 1e-15));
    }
    CHECK(dashed == 2);
    CHECK(mean);
}

TEST_CASE("a trial with fewer than four teeth read or a spoilt row of an earlier one is refused") {
    const ShimSheet sheet("shim.trial");
    sheet.refuses({{"backlash", thous({7, 7, 7})}}, "backlash");
    sheet.refuses({{"wanted", thous({9, 6})}}, "wanted");
    sheet.refuses({{"torque_wanted", Typed::list({2.0})}}, "torque_wanted");
    std::vector<double> row = {0.001, 0.001, 0.001, 0.0002, 0.00002, NAN, NAN, 0, 0, 0, 0};
    CHECK(sheet({{"earlier", Typed::list(row, 11)}}).code == FETTLE_DONE);
    row[8] = 7;
    sheet.refuses({{"earlier", Typed::list(row, 11)}}, "earlier");
    row[8] = 1;
    row[0] = -1;
    sheet.refuses({{"earlier", Typed::list(row, 11)}}, "earlier");
    CHECK(sheet.answer({{"backlash", thous({0, 3, 3, 3})}}).has_note(FETTLE_STOP, "jam"));
}

TEST_CASE("ten thousand random trials on random histories end finite, with advice or without") {
    const ShimSheet sheet("shim.trial");
    std::mt19937 engine(8);
    const auto draw = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(engine);
    };
    static constexpr const char* kPlaces[] = {"not looked at", "toe", "centre", "heel"};
    static constexpr const char* kLevels[] = {"not looked at", "face", "centre", "flank"};
    int stopped = 0, advised_steps = 0;
    for (int round = 0; round < 10000; ++round) {
        std::vector<double> cells;
        for (int rows = std::max(0, draw(-3, 4)); rows > 0; --rows) {
            for (const int most : {60, 60, 60, 20, 4, 4})
                cells.push_back(draw(0, most) * kThou);
            cells.push_back(draw(0, 1) == 0 ? NAN : draw(0, 40) * 0.1);
            for (int word = 0; word < 4; ++word)
                cells.push_back(draw(0, 3));
        }
        std::vector<double> teeth;
        const int tightest = draw(0, 200);
        for (int tooth = draw(4, 8); tooth > 0; --tooth)
            teeth.push_back((tightest + draw(0, round % 3 == 0 ? 40 : 9)) * 0.1 * kThou);
        TypedById typed = pattern(kLevels[draw(0, 3)], kPlaces[draw(0, 3)], kLevels[draw(0, 3)],
                                  kPlaces[draw(0, 3)]);
        typed["pinion"] = thou(draw(0, 60));
        typed["left"] = thou(draw(0, 60));
        typed["right"] = thou(draw(0, 60));
        typed["backlash"] = Typed::list(teeth);
        if (draw(0, 1) == 0) typed["runout"] = thou(draw(0, 6));
        if (draw(0, 1) == 0) typed["torque"] = Typed::of(draw(0, 40) * 0.1);
        if (draw(0, 1) == 0) typed["torque_wanted"] = Typed::list({1.5, 2.5});
        if (!cells.empty()) typed["earlier"] = Typed::list(cells, 11);
        const SheetAnswer answer = sheet.answer(typed);
        for (const auto& [id, value] : answer.numbers) {
            CHECK_MESSAGE(std::isfinite(value), id);
            CHECK_MESSAGE(value >= 0, id);
        }
        for (const auto& [chart, drawn] : answer.series) {
            for (const DrawnSeries& series : drawn) {
                for (const fettle_point& point : series.points)
                    CHECK_MESSAGE((std::isfinite(point.x) && std::isfinite(point.y)), chart);
            }
        }
        const bool stop = answer.has_note(FETTLE_STOP);
        const bool moves = answer.numbers.count("next_pinion") == 1;
        CHECK(!(stop && moves));
        stopped += stop ? 1 : 0;
        advised_steps += moves ? 1 : 0;
    }
    CHECK(stopped > 1000);
    CHECK(advised_steps > 500);
}
