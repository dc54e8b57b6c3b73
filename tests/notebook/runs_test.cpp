#include "fixture.h"
#include "notebook/runs.h"

#include <set>

using namespace fettle;

namespace {

// An evening at the bench: photos of one camera, a minute apart unless said otherwise.
struct Bench : Desk {
    Part hanger = part("H7", "spring hanger");
    Part shackle = part("S2", "shackle");

    PhotoId shot(const std::string& time, const std::vector<std::string>& tags = {},
                 const std::string& camera = "P2026") {
        Photo fresh;
        char hash[33];
        std::snprintf(hash, sizeof hash, "%032d", ++made);
        fresh.hash = hash;
        fresh.file = "photos/x";
        fresh.original_name = "P" + std::to_string(made) + ".jpg";
        fresh.format = "JPEG";
        fresh.width = 1600;
        fresh.height = 1200;
        fresh.camera_model = camera;
        fresh.taken = must(parse_moment("2026-03-07T" + time));
        const auto id = must(add_photo(book, fresh));
        must(note_tags(book, id, tags));
        return id;
    }
    std::set<std::int64_t> tied_to(const Part& part) {
        std::set<std::int64_t> photos;
        for (const auto& tie : must(ties_to(book, part.id)))
            photos.insert(tie.photo.value);
        return photos;
    }
    std::vector<Run> proposed() { return must(list_runs(book, RunState::proposed)); }
    int made = 0;
};

using Numbers = std::set<std::int64_t>;

Numbers photos_in(const Run& run) {
    Numbers photos;
    for (const auto& each : run.photos)
        photos.insert(each.photo.value);
    return photos;
}

} // namespace

TEST_CASE("a photo that shows a tag is tied, those after it are proposed up to the next tag") {
    Bench bench;
    bench.shot("19:00:00"); // before any tag
    bench.shot("19:01:00", {"H7"});
    bench.shot("19:02:00");
    bench.shot("19:03:00");
    bench.shot("19:04:00", {"s2"}); // tags in any case
    bench.shot("19:05:00");
    const auto proposal = must(propose_runs(bench.book));
    CHECK(proposal.tied_by_tag == 2);
    CHECK(proposal.proposed == 3);
    CHECK(bench.tied_to(bench.hanger) == Numbers{2});
    CHECK(bench.tied_to(bench.shackle) == Numbers{5});
    const auto runs = bench.proposed();
    REQUIRE(runs.size() == 2);
    CHECK(runs[0].tag == "H7");
    CHECK(photos_in(runs[0]) == Numbers{2, 3, 4});
    CHECK(runs[0].to_confirm() == 2);
    CHECK(runs[0].photos[0].shows_tag);
    CHECK(photos_in(runs[1]) == Numbers{5, 6});
}

TEST_CASE("a pause, another camera and several tags at once end a run") {
    Bench bench;
    bench.shot("19:00:00", {"H7"});
    bench.shot("19:10:00");             // ten minutes on: just in time
    bench.shot("19:05:00", {}, "TL04"); // somebody else's camera
    bench.shot("19:20:01");             // a pause of more than ten minutes
    bench.shot("20:00:00", {"H7", "S2"});
    bench.shot("20:01:00"); // of which of the two?
    must(propose_runs(bench.book));
    const auto runs = bench.proposed();
    REQUIRE(runs.size() == 1);
    CHECK(photos_in(runs[0]) == Numbers{1, 2});
    CHECK(bench.tied_to(bench.hanger) == Numbers{1, 5});
    CHECK(bench.tied_to(bench.shackle) == Numbers{5});

    Bench patient;
    patient.shot("19:00:00", {"H7"});
    patient.shot("19:25:00");
    must(propose_runs(patient.book, std::chrono::minutes(30)));
    CHECK(patient.proposed().size() == 1);
}

TEST_CASE("accepting a run ties it at a stage, and undo and redo take it back and bring it") {
    Bench bench;
    bench.shot("19:01:00", {"H7"});
    bench.shot("19:02:00");
    must(propose_runs(bench.book));
    const auto run = bench.proposed().front().id;
    must(accept_run(bench.book, run, Stage::before));
    CHECK(bench.tied_to(bench.hanger) == Numbers{1, 2});
    for (const auto& tie : must(ties_to(bench.book, bench.hanger.id)))
        CHECK(tie.stage == Stage::before);
    CHECK(bench.proposed().empty());
    CHECK(holds(sentence(accept_run(bench.book, run)), "accepted already"));
    CHECK(must(bench.book.undo()) == "tied 2 photos to H7 spring hanger");
    CHECK(bench.tied_to(bench.hanger) == Numbers{1});
    CHECK(bench.proposed().size() == 1);
    must(bench.book.redo());
    CHECK(bench.tied_to(bench.hanger) == Numbers{1, 2});
}

TEST_CASE("a dismissed run stays away, and keeps only the photo of the tag tied") {
    Bench bench;
    bench.shot("19:01:00", {"H7"});
    bench.shot("19:02:00");
    must(propose_runs(bench.book));
    const auto run = bench.proposed().front().id;
    must(accept_run(bench.book, run));
    must(dismiss_run(bench.book, run));
    CHECK(bench.tied_to(bench.hanger) == Numbers{1});
    bench.shot("19:03:00");
    const auto again = must(propose_runs(bench.book));
    CHECK(again.tied_by_tag == 0);
    CHECK(again.proposed == 0);
    must(bench.book.undo()); // the photo
    must(bench.book.undo()); // the dismissal
    CHECK(bench.tied_to(bench.hanger) == Numbers{1, 2});
}

TEST_CASE("photos that come later lengthen the run they follow") {
    Bench bench;
    bench.shot("19:01:00", {"H7"});
    must(propose_runs(bench.book));
    CHECK(bench.proposed().empty()); // nothing to confirm yet
    bench.shot("19:02:00");
    must(propose_runs(bench.book));
    bench.shot("19:03:00");
    must(propose_runs(bench.book));
    REQUIRE(bench.proposed().size() == 1);
    CHECK(photos_in(bench.proposed()[0]) == Numbers{1, 2, 3});
    must(accept_run(bench.book, bench.proposed()[0].id));
    bench.shot("19:04:00"); // after an accepted run: proposed again, not tied unasked
    must(propose_runs(bench.book));
    REQUIRE(bench.proposed().size() == 1);
    CHECK(photos_in(bench.proposed()[0]) == Numbers{4});
    CHECK(bench.tied_to(bench.hanger) == Numbers{1, 2, 3});
}

TEST_CASE("what was tied or untied by hand is left alone") {
    Bench bench;
    const auto first = bench.shot("19:01:00", {"H7"});
    const auto own = bench.shot("19:02:00");
    bench.shot("19:03:00");
    must(tie_photos(bench.book, {own}, bench.shackle.id, Stage::after));
    must(propose_runs(bench.book));
    CHECK(photos_in(bench.proposed()[0]) == Numbers{1, 3});
    must(untie_photos(bench.book, {first}, bench.hanger.id));
    must(propose_runs(bench.book));
    CHECK(bench.tied_to(bench.hanger).empty());
    CHECK(bench.tied_to(bench.shackle) == Numbers{2});
}

TEST_CASE("a tag that is on no part is named, and its photo tied once the part is there") {
    Bench bench;
    bench.shot("19:01:00", {"X9"});
    bench.shot("19:02:00");
    CHECK(must(propose_runs(bench.book)).without_part == std::vector<std::string>{"X9"});
    CHECK(bench.proposed().empty());
    const auto axle = bench.part("X9", "axle");
    const auto proposal = must(propose_runs(bench.book));
    CHECK(proposal.tied_by_tag == 1);
    CHECK(proposal.proposed == 1);
    CHECK(proposal.without_part.empty());
    CHECK(bench.tied_to(axle) == Numbers{1});
}

TEST_CASE("the boundary between two runs can be moved both ways, before and after accepting") {
    Bench bench;
    for (const auto& [time, tags] :
         std::vector<std::pair<std::string, std::vector<std::string>>>{{"19:01:00", {"H7"}},
                                                                       {"19:02:00", {}},
                                                                       {"19:03:00", {}},
                                                                       {"19:04:00", {}},
                                                                       {"19:05:00", {"S2"}},
                                                                       {"19:06:00", {}}})
        bench.shot(time, tags);
    must(propose_runs(bench.book));
    const auto hanger = bench.proposed()[0].id, shackle = bench.proposed()[1].id;
    const auto photos = [&](RunId run) { return photos_in(must(run_by_id(bench.book, run))); };

    // The shackle was photographed before its tag was.
    must(move_run_end(bench.book, hanger, PhotoId{2}));
    CHECK(photos(hanger) == Numbers{1, 2});
    CHECK(photos(shackle) == Numbers{3, 4, 5, 6});
    CHECK(bench.book.next_undo() == "moved the end of the run of H7 spring hanger");
    must(bench.book.undo());
    CHECK(photos(hanger) == Numbers{1, 2, 3, 4});
    must(bench.book.redo());

    must(move_run_start(bench.book, shackle, PhotoId{4}));
    CHECK(photos(hanger) == Numbers{1, 2, 3});
    CHECK(photos(shackle) == Numbers{4, 5, 6});

    must(accept_run(bench.book, hanger));
    must(accept_run(bench.book, shackle));
    must(move_run_end(bench.book, hanger, PhotoId{4}));
    CHECK(bench.tied_to(bench.hanger) == Numbers{1, 2, 3, 4});
    CHECK(bench.tied_to(bench.shackle) == Numbers{5, 6});
    must(bench.book.undo());
    CHECK(bench.tied_to(bench.shackle) == Numbers{4, 5, 6});
}

TEST_CASE("photos that fall out of a run with nothing beside it are not proposed again") {
    Bench bench;
    bench.shot("19:01:00", {"H7"});
    bench.shot("19:02:00");
    bench.shot("19:03:00");
    must(propose_runs(bench.book));
    const auto run = bench.proposed()[0].id;
    must(move_run_end(bench.book, run, PhotoId{2}));
    must(propose_runs(bench.book));
    CHECK(photos_in(must(run_by_id(bench.book, run))) == Numbers{1, 2});
    must(move_run_end(bench.book, run, PhotoId{3})); // but may be fetched back
    CHECK(photos_in(must(run_by_id(bench.book, run))) == Numbers{1, 2, 3});
}

TEST_CASE("ends that make no sense are refused with the reason") {
    Bench bench;
    bench.shot("19:01:00", {"H7"});
    bench.shot("19:02:00");
    bench.shot("19:03:00", {"S2"});
    bench.shot("19:04:00");
    bench.shot("19:00:00", {}, "TL04");
    must(propose_runs(bench.book));
    const auto hanger = bench.proposed()[0].id, shackle = bench.proposed()[1].id;
    CHECK(holds(sentence(move_run_end(bench.book, hanger, PhotoId{4})), "shows the tag S2"));
    CHECK(holds(sentence(move_run_start(bench.book, hanger, PhotoId{2})), "shows the tag H7"));
    CHECK(holds(sentence(move_run_end(bench.book, hanger, PhotoId{5})), "not by the camera"));
    CHECK(holds(sentence(move_run_end(bench.book, shackle, PhotoId{1})), "other end"));
    CHECK(holds(sentence(move_run_end(bench.book, RunId{99}, PhotoId{1})), "99"));
    must(dismiss_run(bench.book, shackle));
    must(move_run_end(bench.book, hanger, PhotoId{4}));
    CHECK(holds(sentence(move_run_end(bench.book, shackle, PhotoId{4})), "dismissed"));
    CHECK(photos_in(must(run_by_id(bench.book, hanger))) == Numbers{1, 2, 3, 4});
}
