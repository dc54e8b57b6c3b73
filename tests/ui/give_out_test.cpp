#include "desk/take_in.h"
#include "ui/saturday.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::WorkroomTest;

namespace {

struct GivingOut : WorkroomTest {
    std::filesystem::path out = folder / "out", phone = folder / "phone";
    std::vector<PhotoId> ids;

    GivingOut() {
        const auto all = fettle::ui::testing::saturday_pictures(folder / "made");
        std::filesystem::create_directory(phone);
        for (int i = 0; i < 3; ++i)
            std::filesystem::copy_file(all[std::size_t(i)], phone / (std::to_string(i) + ".jpg"));
        ids = must(desk::take_in(book, {.paths = {phone}, .in_place = true})).taken;
        driver().press(Key::f4);
        driver().settle();
    }
    std::size_t files_in(const std::filesystem::path& where) {
        std::size_t count = 0;
        if (std::filesystem::exists(where))
            for (const auto& entry : std::filesystem::directory_iterator(where))
                count += entry.is_regular_file() ? 1 : 0;
        return count;
    }
};

} // namespace

TEST_CASE_FIXTURE(GivingOut, "photos are copied out with sidecars by a key, a folder and Enter") {
    auto& drive = driver();
    drive.press(Chord{'O'});
    drive.settle();
    drive.press(Key::enter);
    drive.settle();
    CHECK(holds(bench->said("photos.out.folder.error"), "~/out"));
    bench->type_into("photos.out.folder", (phone / "0.jpg").string());
    drive.press(Key::enter);
    drive.settle();
    CHECK(holds(bench->said("photos.out.folder.error"), "is a file"));

    bench->type_into("photos.out.folder", out.string());
    drive.press(Key::enter);
    REQUIRE(bench->until_shown("report"));
    CHECK(holds(bench->said("report"), "copied 3 photos with sidecars into " + out.string()));
    CHECK(files_in(out) == 6);
    CHECK(files_in(phone) == 3); // the originals stay as they are
    CHECK_FALSE(drive.shows("photos.out.folder"));
    drive.click("report.close");
    drive.settle();
    CHECK_FALSE(drive.shows("report"));
}

TEST_CASE_FIXTURE(GivingOut, "only the chosen photo gets a sidecar beside its original") {
    auto& drive = driver();
    drive.click("photos.photo." + std::to_string(ids[1].value));
    drive.press(Chord{' '});
    drive.settle();
    REQUIRE(bench->said("photos.chosen") == "1");
    drive.press(Chord{'O'});
    drive.settle();
    drive.click("photos.out.beside");
    REQUIRE(bench->until_shown("report"));
    CHECK(bench->said("report") == "sidecars written beside 1 photo left in place");
    CHECK(files_in(phone) == 4);
    CHECK(files_in(out) == 0);
}
