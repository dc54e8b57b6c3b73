#include "fixture.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/evidence.h"

using namespace fettle;

namespace {

struct Evidenced : Desk {
    Part hanger = part("H7", "spring hanger");

    std::vector<std::string> missing() { return must(evidence_missing(book, hanger.id)); }
    bool lacks(const std::string& words) {
        for (const auto& line : missing())
            if (holds(line, words)) return true;
        return false;
    }
};

} // namespace

TEST_CASE("a part without photos lacks its finish, its marks and both sides") {
    Evidenced desk;
    const auto missing = desk.missing();
    REQUIRE(missing.size() == 3);
    CHECK(holds(missing[0], "original finish"));
    CHECK(holds(missing[1], "marks: none read"));
    CHECK(holds(missing[2], "both sides"));
}

TEST_CASE("a photo of the part as found shows its finish and one side, a mark read its marks") {
    Evidenced desk;
    const auto first = desk.photo("a.jpg", "2026-01-15T19:27:00");
    must(tie_photos(desk.book, {first}, desk.hanger.id, Stage::as_found));
    CHECK_FALSE(desk.lacks("original finish"));
    CHECK(desk.lacks("both sides: only one so far"));
    must(keep_mark(desk.book, {.photo = first, .region = {1, 1, 9, 9}, .reading = "QM"}));
    CHECK_FALSE(desk.lacks("marks"));
    // A second photo may show the same side again: only the user can say.
    const auto second = desk.photo("b.jpg", "2026-01-15T19:28:00");
    must(tie_photos(desk.book, {second}, desk.hanger.id, Stage::before));
    CHECK(desk.lacks("which of the 2 photos shows the other side"));
    must(note_evidence(desk.book, desk.hanger.id, second, Evidence::other_side));
    CHECK(desk.missing().empty());
    CHECK(must(desk.book.undo()) == "photo 2 shows other side of H7");
    CHECK(desk.missing().size() == 1);
}

TEST_CASE("one photo cannot show both sides, and one untied shows nothing of the part") {
    Evidenced desk;
    const auto photo = desk.photo("a.jpg");
    must(note_evidence(desk.book, desk.hanger.id, photo, Evidence::one_side));
    must(note_evidence(desk.book, desk.hanger.id, photo, Evidence::other_side));
    CHECK(desk.lacks("both sides: only one so far"));
    const auto ties = must(ties_of_photo(desk.book, photo));
    REQUIRE(ties.size() == 1); // saying so tied it
    CHECK(ties[0].stage == Stage::before);
    must(untie_photos(desk.book, {photo}, desk.hanger.id));
    CHECK(desk.lacks("photograph one and the other"));
}

TEST_CASE("photos after the work, or before it on a part stripped by then, show no finish") {
    Evidenced desk;
    must(tie_photos(desk.book, {desk.photo("a.jpg", "2026-02-04T19:11:00")}, desk.hanger.id,
                    Stage::after));
    CHECK(desk.missing().size() == 3);
    must(set_condition(desk.book, desk.hanger.id, Condition::stripped,
                       must(parse_day("2026-02-01"))));
    must(tie_photos(desk.book, {desk.photo("b.jpg", "2026-02-05T19:11:00")}, desk.hanger.id,
                    Stage::before));
    CHECK(desk.lacks("original finish: no photo of it was kept"));
    must(tie_photos(desk.book, {desk.photo("c.jpg", "2026-01-20T19:11:00")}, desk.hanger.id,
                    Stage::before));
    CHECK_FALSE(desk.lacks("original finish"));
}

TEST_CASE("what there is nothing to show of is said with the reason, and can be taken back") {
    Evidenced desk;
    CHECK(holds(sentence(note_no_evidence(desk.book, desk.hanger.id, Evidence::marks, " ")),
                "reason why there is no photo of the marks"));
    must(note_no_evidence(desk.book, desk.hanger.id, Evidence::marks, "cast without marks"));
    must(note_no_evidence(desk.book, desk.hanger.id, Evidence::original_finish, "none left"));
    CHECK(desk.missing().size() == 1);
    const auto lines = must(evidence_of(desk.book, desk.hanger.id));
    CHECK(lines[1].none_because == "cast without marks");
    must(drop_no_evidence(desk.book, desk.hanger.id, Evidence::marks));
    CHECK(desk.lacks("marks"));
    CHECK(must(evidence_of(desk.book, PartId{99})).size() == 4);
    CHECK(holds(sentence(note_evidence(desk.book, PartId{99}, PhotoId{1}, Evidence::marks)), "99"));
}

TEST_CASE("a part is not put on for blasting without evidence unless it is said why") {
    Evidenced desk;
    const auto id =
        must(keep_consignment(desk.book, {.firm = "Saltash Row Blasting",
                                          .purpose = "blasting",
                                          .destroys_finish = takes_finish_off("blasting")}));
    const auto refused = sentence(put_on(desk.book, id, {.part = desk.hanger.id}));
    CHECK(holds(refused, "H7 is not photographed yet for blasting"));
    CHECK(holds(refused, "original finish: photograph it"));
    CHECK(must(evidence_wanted(desk.book, id, desk.hanger.id)).size() == 3);
    must(put_on(desk.book, id,
                {.part = desk.hanger.id, .without_evidence = "rust through and through"}));
    CHECK(must(consignment_by_id(desk.book, id)).items[0].note ==
          "Sent without evidence: rust through and through");
    // Machining leaves the surface where it is.
    CHECK_FALSE(takes_finish_off("machining"));
    for (const char* work : {"Blasting", "stripping in a bath", "zinc plating", "painting"})
        CHECK(takes_finish_off(work));
    auto other = must(keep_consignment(desk.book, {.firm = "F", .purpose = "machining"}));
    CHECK(must(evidence_wanted(desk.book, other, desk.hanger.id)).empty());
}
