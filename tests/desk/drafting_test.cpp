#include "desk/drafting.h"
#include "desk/places.h"
#include "desk/worked.h"
#include "notebook/fixture.h"

using namespace fettle;

namespace {

struct CalcDesk : Desk {
    calc::Catalogue sheets{desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR}};
};

DraftSheet shim_sheet() {
    return {"shim.stack", {{"target", "31.5 thou"}, {"tin", "20 8 3.5 thou"}}};
}

} // namespace

TEST_CASE("a draft becomes an entry with its results, and is gone") {
    CalcDesk desk;
    EntryDraft draft{.day = "7 Mar 2026",
                     .hours = "1 1/2",
                     .text = "Shimmed.",
                     .parts = {desk.part("D1", "differential").id},
                     .sheets = {shim_sheet()}};
    must(keep_draft(desk.book, draft));
    auto entry =
        must(entry_by_id(desk.book, must(desk::write_draft(desk.book, desk.sheets, draft))));
    CHECK(to_iso(entry.day) == "2026-03-07");
    CHECK(entry.hours == 1.5);
    CHECK(entry.parts.size() == 1);
    REQUIRE(entry.results.size() == 1);
    CHECK(must(kept_draft(desk.book)).blank());
    must(desk.book.undo()); // one act
    CHECK(must(list_entries(desk.book)).empty());
}

TEST_CASE("a draft that does not read keeps everything where it is") {
    CalcDesk desk;
    EntryDraft good{.day = "2026-03-07", .text = "x", .sheets = {shim_sheet()}};
    must(keep_draft(desk.book, good));
    auto bad_day = good, bad_hours = good, bad_sheet = good;
    bad_day.day = "2026-02-30";
    bad_hours.hours = "soon";
    bad_sheet.sheets[0].inputs["tin"] = "12 parsecs";
    for (auto [draft, word] :
         {std::pair{bad_day, "2026-02-30"}, {bad_hours, "soon"}, {bad_sheet, "parsecs"}}) {
        CAPTURE(word);
        CHECK(holds(sentence(desk::write_draft(desk.book, desk.sheets, draft)), word));
    }
    CHECK(must(list_entries(desk.book)).empty());
    CHECK_FALSE(must(kept_draft(desk.book)).blank());
}

TEST_CASE("a sheet whose plugin fails is kept marked as failed, and works when run again") {
    CalcDesk desk;
    const auto library = desk.folder / "fails_when_large.so";
    std::filesystem::copy_file(FETTLEBOOK_BAD_PLUGIN_DIR "/misbehaves.so", library);
    std::filesystem::permissions(library, std::filesystem::perms::owner_all);
    calc::Catalogue sheets{desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR, desk.folder.path()}};
    const DraftSheet failing{"fails_when_large.square", {{"length", "60"}}};
    const auto id = must(desk::write_draft(
        desk.book, sheets,
        {.day = "2026-03-07", .text = "Squared.", .sheets = {failing, shim_sheet()}}));
    const auto entry = must(entry_by_id(desk.book, id));
    REQUIRE(entry.results.size() == 2);
    const auto failed = must(desk::answer_of(entry.results[0]));
    CHECK(failed.failed);
    CHECK(calc::typed_inputs(failed).at("length") == "60");
    CHECK_FALSE(calc::output_si(failed, "area"));
    REQUIRE(failed.notes.size() == 1);
    CHECK(failed.notes[0].level == calc::NoteLevel::stop);
    CHECK(failed.notes[0].text.starts_with(
        "This calculation failed, so it has no figures. The plugin fails_when_large failed in "
        "fails_when_large.square: it "));
    CHECK_FALSE(must(desk::answer_of(entry.results[1])).failed);

    // Changing the entry tries it again, with inputs that work now.
    auto draft = must(desk::draft_of(desk.book, id));
    draft.sheets[0].inputs["length"] = "20";
    must(desk::write_draft(desk.book, sheets, draft));
    const auto results = must(entry_by_id(desk.book, id)).results;
    REQUIRE(results.size() == 2);
    for (const auto& result : results) {
        const auto answer = must(desk::answer_of(result));
        CHECK_FALSE(answer.failed);
        if (result.sheet == "shim.stack") continue;                                // left as it was
        CHECK(calc::output_si(answer, "area").value() == doctest::Approx(0.0004)); // (20 mm)²
    }
}

TEST_CASE("changing an entry's text leaves a result whose inputs were not touched as it was") {
    CalcDesk desk;
    auto id = must(desk::write_draft(desk.book, desk.sheets,
                                     {.day = "2026-03-07", .text = "x", .sheets = {shim_sheet()}}));
    // As if it had been calculated by an older plugin.
    must(desk.book.write_aside([](store::Database& database) {
        database.run("UPDATE worked_results SET plugin_version = '0.1.0'");
    }));
    auto draft = must(desk::draft_of(desk.book, id));
    CHECK(draft.sheets.front().inputs.at("target") == "31.5 thou");
    draft.text = "y";
    must(desk::write_draft(desk.book, desk.sheets, draft));
    auto entry = must(entry_by_id(desk.book, id));
    CHECK(entry.text == "y");
    CHECK(entry.results.front().plugin_version == "0.1.0");

    draft.sheets.front().inputs["target"] = "28 thou";
    must(desk::write_draft(desk.book, desk.sheets, draft));
    CHECK(must(entry_by_id(desk.book, id)).results.front().plugin_version != "0.1.0");
}

TEST_CASE("hours are read as people type them") {
    for (auto [text, hours] : {std::pair{"2", 2.0},
                               {"1.5", 1.5},
                               {"1 1/2", 1.5},
                               {"90 min", 1.5},
                               {"1:30", 1.5},
                               {"0:05", 5.0 / 60},
                               {"45 min", 0.75}}) {
        CAPTURE(text);
        CHECK(must(desk::parse_hours(text)).value() == doctest::Approx(hours));
    }
    CHECK_FALSE(must(desk::parse_hours("  ")).has_value());
    for (const char* text : {"soon", "1:75", "-2", "1:2:3", ":", "3 in"}) {
        CAPTURE(text);
        CHECK(holds(sentence(desk::parse_hours(text)), text));
    }
}
