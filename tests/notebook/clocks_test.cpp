#include "fixture.h"
#include "notebook/clocks.h"

using namespace fettle;
using namespace std::chrono_literals;

namespace {

struct Bench : Desk {
    PhotoId shot(const std::string& camera, const std::string& taken) {
        Photo fresh;
        char hash[33];
        std::snprintf(hash, sizeof hash, "%032d", ++made);
        fresh.hash = hash;
        fresh.file = "photos/x";
        fresh.original_name = "P" + std::to_string(made) + ".jpg";
        fresh.format = "JPEG";
        fresh.width = 1600;
        fresh.height = 1200;
        fresh.camera_make = "Orrin";
        fresh.camera_model = camera;
        if (!taken.empty()) fresh.taken = must(parse_moment(taken));
        return must(add_photo(book, fresh));
    }
    std::string taken(PhotoId photo) {
        const auto found = must(photo_by_id(book, photo));
        return found.taken ? to_iso(*found.taken) : "";
    }
    std::vector<std::int64_t> order() {
        std::vector<std::int64_t> numbers;
        for (const auto& photo : must(list_photos(book)))
            numbers.push_back(photo.id.value);
        return numbers;
    }
    int made = 0;
};

using Numbers = std::vector<std::int64_t>;

} // namespace

TEST_CASE("a clock is put right by a photo of a clock, for photos before and after, and undone") {
    Bench bench;
    const auto clock = bench.shot("TL04", "2026-03-07T20:44:30");
    const auto other = bench.shot("TL04", "2026-03-07T21:00:00.250");
    const auto phone = bench.shot("P2026", "2026-03-07T19:50:00");
    const auto camera = must(camera_called(bench.book, "tl04"));
    CHECK(camera.name() == "Orrin TL04");
    CHECK(camera.photos == 2);
    // The clock on the wall showed 19:42:05 when the camera wrote 20:44:30: it is 1:02:25 ahead.
    const auto ahead = must(ahead_by_clock_photo(bench.book, camera, clock, "19:42:05"));
    CHECK(ahead == 1h + 2min + 25s);
    const auto typed = [&](const char* showed) {
        return must(ahead_by_clock_photo(bench.book, camera, clock, showed));
    };
    CHECK(typed("2026-03-07 19:42:05") == ahead);
    CHECK(typed("20:44") == 30s);
    CHECK(typed("23:59:30") == -(3h + 15min));
    CHECK(typed("06:00:00") == -(9h + 15min + 30s)); // on the day after
    CHECK(typed("2025-03-07 20:44:30") == 24h * 365);
    for (const char* wrong : {"", "noon", "25:00", "19:42:05 or so"})
        CHECK(holds(sentence(ahead_by_clock_photo(bench.book, camera, clock, wrong)), "accepted"));
    must(set_clock(bench.book, camera, {ahead, {}}));
    CHECK(bench.taken(clock) == "2026-03-07T19:42:05");
    CHECK(bench.taken(other) == "2026-03-07T19:57:35.250");
    CHECK(bench.taken(phone) == "2026-03-07T19:50:00");
    CHECK(bench.order() == Numbers{1, 3, 2});
    CHECK(to_iso(*must(photo_by_id(bench.book, clock)).taken_by_camera) == "2026-03-07T20:44:30");
    const auto later = bench.shot("TL04", "2026-03-08T01:02:25");
    CHECK(bench.taken(later) == "2026-03-08T00:00:00");
    CHECK(must(camera_called(bench.book, "Orrin TL04")).clock.ahead == ahead);

    must(bench.book.undo()); // the photo
    CHECK(must(bench.book.undo()) == "set the clock of Orrin TL04");
    CHECK(bench.taken(clock) == "2026-03-07T20:44:30");
    CHECK(bench.order() == Numbers{3, 1, 2});
    must(bench.book.redo());
    CHECK(bench.taken(other) == "2026-03-07T19:57:35.250");
}

TEST_CASE("a clock is put right by two photos of the same moment") {
    Bench bench;
    const auto wrong = bench.shot("TL04", "2026-03-07T18:40:00");
    const auto right = bench.shot("P2026", "2026-03-07T19:42:00+01:00");
    const auto camera = must(camera_called(bench.book, "TL04"));
    const auto ahead = must(ahead_by_same_moment(bench.book, camera, wrong, right));
    CHECK(ahead == -(1h + 2min));
    must(set_clock(bench.book, camera, {ahead, {}}));
    CHECK(bench.taken(wrong) == "2026-03-07T19:42:00");
    CHECK(
        holds(sentence(ahead_by_same_moment(bench.book, camera, wrong, wrong)), "another camera"));
    CHECK(holds(sentence(ahead_by_same_moment(bench.book, camera, right, wrong)), "not by"));
    CHECK(holds(sentence(ahead_by_same_moment(bench.book, camera, bench.shot("TL04", ""), right)),
                "no time"));
    // Cameras that both write their zone are compared in the same zone.
    const auto far = bench.shot("Z1", "2026-03-07T13:45:00-05:00");
    CHECK(must(ahead_by_same_moment(bench.book, must(camera_called(bench.book, "Z1")), far,
                                    right)) == 3min);
}

TEST_CASE("photos stand in the order of their moments, whatever zones their times are in") {
    Bench bench;
    bench.shot("P2026", "2026-03-07T12:30:00+01:00"); // 11:30 UTC
    bench.shot("P2026", "2026-03-07T11:45:00+00:00");
    bench.shot("P2026", "2026-03-07T14:00:00+03:00"); // 11:00 UTC
    CHECK(bench.order() == Numbers{3, 1, 2});
    // A camera that writes no zone and is set to that of Moscow.
    bench.shot("TL04", "2026-03-07T14:40:00"); // 11:40 UTC
    must(set_clock(bench.book, must(camera_called(bench.book, "TL04")), {0ms, 180min}));
    CHECK(bench.order() == Numbers{3, 1, 4, 2});
    CHECK(bench.taken(PhotoId{4}) == "2026-03-07T14:40:00+03:00");
    must(set_clock(bench.book, must(camera_called(bench.book, "TL04")), {}));
    CHECK(bench.taken(PhotoId{4}) == "2026-03-07T14:40:00");
}

TEST_CASE("a photo placed beside another moves with it") {
    Bench bench;
    const auto known = bench.shot("TL04", "2026-03-07T20:00:00");
    const auto guessed = bench.shot("", "");
    must(
        guess_time_near(bench.book, guessed, must(parse_moment("2026-03-07T20:00:01")), known, {}));
    auto photo = must(photo_by_id(bench.book, guessed));
    CHECK(photo.taken_from == TakenFrom::neighbours);
    CHECK_FALSE(photo.taken_by_camera.has_value());
    must(set_clock(bench.book, must(camera_called(bench.book, "TL04")), {1h, {}}));
    CHECK(bench.taken(guessed) == "2026-03-07T19:00:01");
    CHECK(bench.order() == Numbers{1, 2});
}

TEST_CASE("a camera that is not there is refused with the list of those that are") {
    Bench bench;
    CHECK(holds(sentence(camera_called(bench.book, "TL04")), "name none"));
    bench.shot("TL04", "2026-03-07T18:40:00");
    CHECK(holds(sentence(camera_called(bench.book, "TL05")), "Orrin TL04"));
}
