// The demo must tell its story whole: what the pages of README promise is there.
#include "desk/demo.h"
#include "desk/measuring.h"
#include "desk/places.h"
#include "desk/torch_marks.h"
#include "desk/worked.h"
#include "notebook/bench.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/fixture.h"
#include "notebook/people.h"
#include "notebook/runs.h"

#include <set>

using namespace fettle;

namespace {

const std::filesystem::path kAssets = FETTLEBOOK_SOURCE_DIR "/assets/demo";

} // namespace

TEST_CASE(
    "the demo holds photos, parts, tasks, entries, worked results and marks of three makers") {
    TempFolder folder;
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    auto book = must(desk::make_demo(folder / "demo", kAssets, sheets, nullptr));

    const auto photos = must(list_photos(book));
    CHECK(photos.size() >= 40);
    for (const auto& photo : photos) {
        CAPTURE(photo.original_name);
        CHECK(photo.taken.has_value());
        CHECK_FALSE(photo.camera_model.empty());
        CHECK(photo.damage.empty());
    }
    CHECK(must(count_untied_photos(book)) > 0);
    // Two tagged parts of the last evening: their runs wait for a yes.
    const auto runs = must(list_runs(book, RunState::proposed));
    REQUIRE(runs.size() == 2);
    CHECK(runs[0].tag == "H8");
    CHECK(runs[0].to_confirm() == 4);
    CHECK(runs[1].tag == "P3");
    CHECK(must(list_parts(book)).size() >= 12);
    CHECK(must(list_tasks(book, today())).size() >= 8);

    std::set<std::string> sheets_used;
    const auto entries = must(list_entries(book));
    CHECK(entries.size() >= 15);
    for (const auto& entry : entries)
        for (const auto& result : entry.results) {
            CHECK(desk::answer_of(result).ok());
            sheets_used.insert(result.sheet);
        }
    CHECK(sheets_used == std::set<std::string>{"coat.cure", "coat.weather", "shim.stack",
                                               "shim.trial", "spring.pack", "thread.identify",
                                               "torque.tighten"});

    // What the part page shows: a part judged twice, and none decided by its verdict alone.
    const auto hanger = must(part_tagged(book, "H8"));
    const auto features = must(desk::measured_features(book, hanger.id));
    REQUIRE(features.size() == 1);
    CHECK(features[0].measured.size() == 2);
    CHECK(desk::sizes_over_time(features[0].measured).has_value());
    CHECK(desk::decision_for(features[0].measured[0].record.verdict) == Decision::reuse);
    CHECK(hanger.decision == Decision::undecided);

    std::set<std::string> makers;
    for (const auto& mark : must(list_marks(book)))
        makers.insert(mark.maker);
    CHECK(makers.size() >= 3);

    bool pair = false;
    for (const auto& part : must(list_parts(book))) {
        std::set<Stage> stages;
        for (const auto& tie : must(ties_to(book, part.id)))
            stages.insert(tie.stage);
        pair = pair || (stages.contains(Stage::before) && stages.contains(Stage::after));
    }
    CHECK(pair);
    std::size_t ready = 0;
    for (const auto& standing : must(list_tasks(book, today())))
        ready += standing.ready();
    CHECK(ready > 0);
}

TEST_CASE("the demo's bench has something in each list, and tasks wait for every kind of thing") {
    TempFolder folder;
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    auto book = must(desk::make_demo(folder / "demo", kAssets, sheets, nullptr));
    const auto bench = must(on_bench(book, today()));
    CHECK(bench.hours.has_value());
    CHECK(bench.arrivals.size() >= 1);
    CHECK(longest_chain(bench.tasks).size() >= 3);
    const auto waits_on = [&](WaitsOn on) {
        return std::ranges::any_of(bench.tasks, [&](const TaskStanding& standing) {
            return std::ranges::any_of(standing.waits,
                                       [&](const Wait& wait) { return wait.on == on; });
        });
    };
    for (const WaitsOn on :
         {WaitsOn::task, WaitsOn::position, WaitsOn::delivery, WaitsOn::words, WaitsOn::warmth}) {
        CAPTURE(static_cast<int>(on));
        CHECK(waits_on(on));
    }
    CHECK(std::ranges::any_of(bench.tasks, [](const TaskStanding& standing) {
        return std::ranges::any_of(standing.waits,
                                   [](const Wait& wait) { return wait.part && wait.consignment; });
    }));
}

TEST_CASE("in the demo one consignment is late, one on its way in and one over") {
    TempFolder folder;
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    auto book = must(desk::make_demo(folder / "demo", kAssets, sheets, nullptr));
    const auto sent_out = must(list_consignments(book, today()));
    REQUIRE(sent_out.size() == 3);
    CHECK(sent_out[0].state(today()) == ConsignmentState::overdue);
    CHECK(sent_out[1].inward);
    CHECK(sent_out[1].state(today()) == ConsignmentState::out);
    CHECK(sent_out[2].state(today()) == ConsignmentState::over);
    CHECK(must(list_condition_steps(book, must(part_tagged(book, "S2")).id)).size() == 5);
}

TEST_CASE("the demo carries a torch set, whose ball tells where the torch stood") {
    TempFolder folder;
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    auto book = must(desk::make_demo(folder / "demo", kAssets, sheets, nullptr));

    std::vector<desk::TorchRecipe> kept;
    for (const auto& mark : must(list_marks(book)))
        if (const auto recipe = must(desk::torch_recipe_of(mark))) kept.push_back(*recipe);
    REQUIRE(kept.size() == 1);
    CHECK(kept[0].photos.size() == 8);

    auto wish = must(desk::torch_wish(book, kept[0]));
    wish.lamps = desk::Lamps::ball_sought;
    photos::Decoder decoder(desk::decode_program());
    const auto set = must(desk::work_torch_set(decoder, wish));
    REQUIRE(set.ball);
    REQUIRE(kept[0].ball);
    CHECK(set.ball->x == doctest::Approx(kept[0].ball->x).epsilon(0.01));
    CHECK(set.ball->y == doctest::Approx(kept[0].ball->y).epsilon(0.01));
}

TEST_CASE("a folder that holds a notebook already is not made into a demo") {
    Desk desk;
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    auto demo = desk::make_demo(desk.folder / "book", kAssets, sheets, nullptr);
    CHECK(demo.failure().kind == FailureKind::refused);
    CHECK(must(list_vehicles(desk.book)).size() == 1);
}

TEST_CASE("a scenario that is missing or lacks something is said to be so") {
    TempFolder folder;
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    CHECK(holds(sentence(desk::make_demo(folder / "a", folder.path(), sheets, nullptr)),
                "scenario.json"));
    std::filesystem::create_directories(folder / "photos");
    write_file(folder / "scenario.json", R"({"vehicle": {"name": "X", "year": 1936}})");
    CHECK(holds(sentence(desk::make_demo(folder / "b", folder.path(), sheets, nullptr)), "lacks"));
}
