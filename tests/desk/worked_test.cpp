#include "desk/places.h"
#include "desk/worked.h"
#include "notebook/fixture.h"

using namespace fettle;

namespace {

struct CalcDesk : Desk {
    calc::Catalogue sheets{desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR}};
};

const calc::TypedInputs kTin = {
    {"target", "31.5 thou"}, {"tin", "20 12 8 3.5 thou"}, {"tolerance", "0.5 thou"}};

} // namespace

TEST_CASE("a sheet worked on an entry is kept with it, whole, and reads back the same") {
    CalcDesk desk;
    auto entry = desk.entry("2026-03-07", "shimmed the pinion");
    auto answer = must(desk::work_on_entry(desk.book, desk.sheets, entry, "shim.stack", kTin));
    // 20 + 8 + 3.5 thou is the target exactly; a thou is 25.4 µm by definition.
    CHECK(calc::output_si(answer, "sum").value() == doctest::Approx(31.5 * 25.4e-6).epsilon(1e-12));
    auto records = must(entry_by_id(desk.book, entry)).results;
    REQUIRE(records.size() == 1);
    CHECK(records[0].sheet == "shim.stack");
    auto back = must(desk::answer_of(records[0]));
    CHECK(calc::agree(back, answer));
    CHECK(back.working == answer.working);
    CHECK(calc::typed_inputs(back).at("target") == "31.5 thou");
}

TEST_CASE("a kept result can be run again and agrees with the plugin that made it") {
    CalcDesk desk;
    auto entry = desk.entry("2026-03-07", "shimmed the pinion");
    must(desk::work_on_entry(desk.book, desk.sheets, entry, "shim.stack", kTin));
    auto record = must(entry_by_id(desk.book, entry)).results.front();
    CHECK(must(desk::run_again(desk.sheets, record)).agree);

    // As an older plugin might have answered: another sum. Both are given back.
    auto older = must(desk::answer_of(record));
    for (auto& output : older.outputs)
        if (output.output.id == "sum") output.si = 0.0008888;
    auto again = must(desk::run_again(desk.sheets, desk::to_record(older)));
    CHECK_FALSE(again.agree);
    CHECK(calc::output_si(again.kept, "sum") != calc::output_si(again.fresh, "sum"));
}

TEST_CASE("what cannot be calculated leaves the entry as it was") {
    CalcDesk desk;
    auto entry = desk.entry("2026-03-07", "x");
    auto work = [&](EntryId on, const char* sheet, calc::TypedInputs typed) {
        return sentence(desk::work_on_entry(desk.book, desk.sheets, on, sheet, typed));
    };
    CHECK(holds(work(entry, "shim.stack", {{"target", "5/0 in"}, {"tin", "1; 2"}}), "5/0 in"));
    CHECK(holds(work(entry, "shim.stock", kTin), "shim.stack"));
    CHECK(holds(work(EntryId{99}, "shim.stack", kTin), "99"));
    CHECK(must(entry_by_id(desk.book, entry)).results.empty());
}

TEST_CASE("a damaged record says so") {
    WorkedResult record{.sheet = "shim.stack", .plugin_version = "1", .answer = "{\"half"};
    CHECK(holds(sentence(desk::answer_of(record)), "shim.stack"));
}
