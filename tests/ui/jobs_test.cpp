// What goes on beside the window: taking photos in, and calculations that hang.
#include "notebook/drafts.h"
#include "workroom_fixture.h"

#include <algorithm>
#include <fstream>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workbench;
using fettle::ui::testing::WorkroomTest;

namespace {

namespace fs = std::filesystem;

// Pictures rendered for the demo: real JPEG files, by name; the first ones show no tag's code.
std::vector<fs::path> some_pictures(std::size_t most) {
    std::vector<fs::path> pictures;
    for (const auto& file : fs::directory_iterator(FETTLEBOOK_SOURCE_DIR "/assets/demo/photos"))
        if (file.path().extension() == ".jpg") pictures.push_back(file.path());
    std::ranges::sort(pictures);
    pictures.resize(std::min(most, pictures.size()));
    return pictures;
}

void drop(WorkroomTest& test, const std::vector<fs::path>& files) {
    FilesDropped dropped;
    for (const fs::path& file : files)
        dropped.paths.push_back(file.string());
    test.bench->stage.input().push(dropped);
}

} // namespace

TEST_CASE("dropped photos are taken in beside the writing, and what cannot be read is named") {
    WorkroomTest test;
    auto files = some_pictures(3);
    REQUIRE(files.size() == 3);
    files.push_back(test.folder / "torn.jpg");
    std::ofstream(files.back()) << "no picture at all";
    drop(test, files);
    test.driver().click("entry.text");
    test.driver().type("Meanwhile");
    REQUIRE(test.bench->until_shown("report"));
    CHECK(test.bench->said("report") == "taken in 3, 1 not readable");
    CHECK(test.bench->said("entry.text") == "Meanwhile");
    CHECK(must(list_photos(test.book)).size() == 3);
    test.driver().click("report.which");
    test.driver().settle();
    CHECK(test.bench->stage.reg().find("report.0")->label == "torn.jpg");
    CHECK_FALSE(test.bench->said("report.0").empty());
    test.driver().click("report.close");
    CHECK_FALSE(test.driver().shows("report"));

    drop(test, files); // once more: they are there
    REQUIRE(test.bench->until_shown("report"));
    CHECK(test.bench->said("report") == "taken in 0, already held 3, 1 not readable");
}

TEST_CASE("a take-in is stopped by its word, and what was taken in stays") {
    WorkroomTest test;
    drop(test, some_pictures(100));
    REQUIRE(test.bench->until_shown("work.stop"));
    test.driver().click("work.stop");
    REQUIRE(test.bench->until_shown("report"));
    CHECK(test.bench->said("report").starts_with("stopped; taken in "));
    CHECK(must(list_photos(test.book)).size() < some_pictures(100).size());
}

TEST_CASE("leaving during a take-in ends it between two files") {
    WorkroomTest test;
    drop(test, some_pictures(100));
    REQUIRE(test.bench->until_shown("work"));
    test.bench.reset();
    const auto photos = must(list_photos(test.book));
    CHECK(photos.size() < some_pictures(100).size());
    for (const Photo& photo : photos)
        CHECK(fs::exists(photo_file(test.book, photo)));
}

TEST_CASE("a plugin that hangs costs its calculation and no frame") {
    WorkroomTest test;
    test.bench.reset();
    const fs::path plugins = test.folder / "plugins";
    fs::create_directory(plugins);
    fs::permissions(plugins, fs::perms::owner_all);
    fs::copy_file(FETTLEBOOK_BAD_PLUGIN_DIR "/misbehaves.so", plugins / "loop_at_compute.so");
    fs::permissions(plugins / "loop_at_compute.so", fs::perms::owner_all);
    calc::Catalogue hanging(
        FETTLEBOOK_BIN_DIR "/fettlebook-calc", {plugins},
        {std::chrono::seconds(60), std::chrono::milliseconds(2500), 2ull << 30});
    REQUIRE(hanging.plugins().size() == 1);
    must(keep_draft(test.book, {.text = "Before.", .sheets = {{"loop_at_compute.square", {}}}}));
    test.bench = std::make_unique<Workbench>(test.book, hanging);
    // "Being worked out" is only said by frames drawn while the plugin hangs.
    REQUIRE(test.bench->until_shown("entry.sheet.0.awaited"));
    test.bench->type_into("entry.text", "Written meanwhile.");
    CHECK(test.bench->said("entry.text") == "Written meanwhile.");
    REQUIRE(test.bench->until_shown("entry.sheet.0.trouble"));
    CHECK(holds(test.bench->said("entry.sheet.0.trouble"), "no answer"));
}

TEST_CASE("a log that was gone when the notebook was opened is told until it was seen") {
    WorkroomTest test;
    test.part("H7", "spring hanger");
    fs::copy(test.folder / "book", test.folder / "killed", fs::copy_options::recursive);
    fs::remove(test.folder / "killed/notebook.db-wal");
    auto killed = must(Notebook::open(test.folder / "killed", store::Access::write));
    Workbench bench(killed, test.sheets);
    bench.driver.settle();
    REQUIRE(bench.driver.shows("report"));
    bench.driver.click("report.which");
    bench.driver.settle();
    CHECK(holds(bench.said("report.as_found"), "the last acts may be missing"));
    bench.driver.click("report.close");
    CHECK_FALSE(bench.driver.shows("report"));
}
