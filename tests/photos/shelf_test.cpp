#include "photos/scratch.h"
#include "photos/shelf.h"

#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <algorithm>
#include <csignal>

using namespace photo_tests;
using namespace fettle::photos;
using namespace std::chrono;
using fettle::FailureKind;

namespace {

constexpr fettle::Day kDay = year(2026) / March / 7;

std::string reference_hash(const fs::path& file) {
    return output_of("xxhsum -H2 " + shell_word(file)).substr(0, 32);
}

std::vector<std::string> files_under(const fs::path& folder) {
    std::vector<std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (!entry.is_directory())
            files.push_back(entry.path().lexically_relative(folder).string());
    std::sort(files.begin(), files.end());
    return files;
}

// As on a disk that takes only so many bytes of a file more.
class ScarceDisk {
  public:
    explicit ScarceDisk(rlim_t bytes) {
        std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit scarce{bytes, before_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &scarce);
    }
    ~ScarceDisk() { setrlimit(RLIMIT_FSIZE, &before_); }

  private:
    rlimit before_{};
};

} // namespace

TEST_CASE("a copy stands under its day, with the original's bytes and time") {
    Scratch notebook, camera;
    const auto original = make_picture(camera / "Spring eye.JPG", 60, 40);
    fs::last_write_time(original, fs::file_time_type::clock::now() - hours(5000));
    auto place = put_on_shelf(notebook.path(), original, reference_hash(original), kDay);
    REQUIRE(sentence_of(place) == "");
    CHECK(*place == "photos/2026/2026-03-07/Spring eye.JPG");
    CHECK(bytes_of(notebook.path() / *place) == bytes_of(original));
    CHECK(fs::last_write_time(notebook.path() / *place) == fs::last_write_time(original));
    CHECK(files_under(notebook.path()).size() == 1);
    auto undated = put_on_shelf(notebook.path(), original, reference_hash(original), {});
    CHECK(*undated == "photos/undated/Spring eye.JPG");
}

TEST_CASE("names that are taken get a number, the same picture is used as it stands") {
    Scratch notebook, first, second, third;
    std::vector<std::string> places;
    for (const auto* camera : {&first, &second, &third, &second}) {
        const auto original = *camera / "P1.jpg";
        if (!fs::exists(original)) make_picture(original, 50 + int(places.size()), 40);
        auto place = put_on_shelf(notebook.path(), original, reference_hash(original), kDay);
        REQUIRE(sentence_of(place) == "");
        places.push_back(place->filename().string());
    }
    CHECK(places == std::vector<std::string>{"P1.jpg", "P1-2.jpg", "P1-3.jpg", "P1-2.jpg"});
    CHECK(files_under(notebook.path()).size() == 3);
}

TEST_CASE("nothing is left behind when the original changed, is gone, or stop is pressed") {
    Scratch notebook, camera;
    const auto original = make_picture(camera / "a.jpg", 60, 40);
    const auto hash = reference_hash(original);
    std::stop_source stop;
    stop.request_stop();
    auto stopped = put_on_shelf(notebook.path(), original, hash, kDay, stop.get_token());
    CHECK(stopped.failure().kind == FailureKind::cancelled);
    write_file(original, std::string_view("something else"));
    auto changed = put_on_shelf(notebook.path(), original, hash, kDay);
    CHECK(changed.failure().kind == FailureKind::refused);
    CHECK(changed.failure().sentence.starts_with("a.jpg is no longer the file that was looked at"));
    fs::remove(original);
    auto gone = put_on_shelf(notebook.path(), original, hash, kDay);
    CHECK(gone.failure().kind == FailureKind::not_found);
    CHECK(files_under(notebook.path()).empty());
}

TEST_CASE("a notebook that cannot be written to is named") {
    Scratch scratch;
    const auto original = make_picture(scratch / "a.jpg", 60, 40);
    write_file(scratch / "notebook", std::string_view("a file, not a folder"));
    auto place = put_on_shelf(scratch / "notebook", original, reference_hash(original), kDay);
    REQUIRE_FALSE(place.ok());
    CHECK(place.failure().sentence == "2026-03-07 cannot be made: Not a directory.");
}

TEST_CASE(
    "a disk that takes no more is told, nothing of the copy is left, and the next one works") {
    Scratch notebook, camera;
    const auto original = make_picture(camera / "a.jpg", 600, 400);
    const auto hash = reference_hash(original);
    for (const rlim_t room : {rlim_t{0}, rlim_t{1000}, rlim_t(fs::file_size(original) - 1)}) {
        CAPTURE(room);
        const auto place = [&] {
            const ScarceDisk scarce(room);
            return put_on_shelf(notebook.path(), original, hash, kDay);
        }();
        REQUIRE_FALSE(place.ok());
        CHECK(place.failure().kind == FailureKind::io);
        CHECK(place.failure().sentence.starts_with("2026-03-07 cannot be written to: "));
        CHECK(files_under(notebook.path()).empty());
    }
    CHECK(put_on_shelf(notebook.path(), original, hash, kDay).ok());
}

TEST_CASE("half copies of a killed program are swept, whole ones are left alone") {
    Scratch notebook, camera;
    const auto original = make_picture(camera / "a.jpg", 60, 40);
    REQUIRE(put_on_shelf(notebook.path(), original, reference_hash(original), kDay).ok());
    write_file(notebook / "photos/2026/2026-03-07/.half-copy-17-1", std::string_view("half"));
    CHECK(sweep_half_copies(notebook.path()) == 1);
    CHECK(files_under(notebook.path()) == std::vector<std::string>{"photos/2026/2026-03-07/a.jpg"});
    CHECK(sweep_half_copies(notebook / "nowhere") == 0);
}

TEST_CASE("shelf names are safe on any file system and still tell the original's") {
    struct Case {
        std::string original, expected;
    };
    const std::string long_name(300, 'x');
    for (const auto& [original, expected] :
         {Case{"IMG_1.JPG", "IMG_1.JPG"},
          Case{"Blattfeder \xc3\xbc \xe6\x97\xa5.jpg", "Blattfeder \xc3\xbc \xe6\x97\xa5.jpg"},
          Case{"caf\xe9.jpg", "caf_.jpg"}, Case{"a:b*c?\"d\"<e>|\\f\n.jpg", "a_b_c__d__e___f_.jpg"},
          Case{".hidden.jpg", "hidden.jpg"}, Case{"...", "photo"}, Case{"trailing. .", "trailing"},
          Case{"con.jpg", "con_.jpg"}, Case{"LPT1.png", "LPT1_.png"},
          Case{"console.jpg", "console.jpg"},
          Case{long_name + ".jpg", std::string(116, 'x') + ".jpg"},
          Case{std::string(115, 'x') + "\xe6\x97\xa5.jpg", std::string(115, 'x') + ".jpg"}}) {
        CAPTURE(original);
        CHECK(shelf_name(fs::path("/camera") / original) == expected);
    }
}
