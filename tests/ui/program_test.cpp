// The program itself in a window, driven from outside as a person would.
#include "notebook/drafts.h"
#include "workroom_fixture.h"

#include <cstdlib>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workbench;

TEST_CASE("an entry typed into the program is in the notebook, and a kill loses no draft") {
    TempFolder folder;
    must(Notebook::create(folder / "book", "Drover"));
    const std::string command = "ASAN_OPTIONS=detect_leaks=0 xvfb-run -a -s '-screen 0 1280x800x24 "
                                "-noreset' " FETTLEBOOK_SOURCE_DIR
                                "/tests/ui/drive_program.sh " FETTLEBOOK_BIN_DIR "/fettlebook " +
                                (folder / "book").string();
    REQUIRE(std::system(command.c_str()) == 0);
    Notebook book = must(Notebook::open(folder / "book", store::Access::write));
    const auto entries = must(list_entries(book));
    REQUIRE(entries.size() == 1);
    CHECK(entries.front().text == "Spring down, 5/16 in worn.");
    calc::Catalogue sheets(FETTLEBOOK_BIN_DIR "/fettlebook-calc", {FETTLEBOOK_PLUGIN_DIR});
    Workbench next(book, sheets);
    CHECK(next.driver.value("entry.text") == "Second half");
}

TEST_CASE("an evening in the window: drop, type, resize, close with a draft, and go on the next") {
    TempFolder folder;
    must(Notebook::create(folder / "book", "Drover"));
    const auto photo = folder / "P2026_0307_190500.png", said = folder / "said";
    REQUIRE(std::system(("convert -size 64x48 xc:brown " + photo.string()).c_str()) == 0);
    const std::string command =
        "ASAN_OPTIONS=detect_leaks=0 xvfb-run -a -s '-screen 0 1280x800x24 "
        "-noreset' " FETTLEBOOK_SOURCE_DIR "/tests/ui/drive_evening.sh " FETTLEBOOK_BIN_DIR
        "/fettlebook " FETTLEBOOK_BIN_DIR "/desktop_hand " +
        (folder / "book").string() + " " + photo.string() + " > " + said.string();
    REQUIRE(std::system(command.c_str()) == 0);
    const Notebook book = must(Notebook::open(folder / "book", store::Access::read));
    CHECK(must(list_photos(book)).size() == 1);
    const auto entries = must(list_entries(book));
    REQUIRE(entries.size() == 1);
    CHECK(entries.front().text == "Half of the story, and the rest.");
    for (const auto* kept : {"\"width\": 1100", "\"height\": 760", "\"text_scale\": 1.25",
                             "\"screen\": \"parts\"", "\"maximised\": false"})
        CHECK_MESSAGE(holds(file_text(said), kept), file_text(said));
}

TEST_CASE("without a notebook and without a display the program says so in a sentence") {
    TempFolder folder;
    std::filesystem::create_directory(folder / "nothing");
    const std::string said = (folder / "said").string();
    for (const char* place : {"nothing", "nothing/yet"}) {
        const int status =
            std::system(("env -u DISPLAY -u WAYLAND_DISPLAY " FETTLEBOOK_BIN_DIR "/fettlebook " +
                         (folder / place).string() + " 2> " + said)
                            .c_str());
        CHECK(WEXITSTATUS(status) == 1);
        CHECK(holds(file_text(said), place));
    }
    CHECK_FALSE(std::filesystem::exists(folder / "nothing/yet"));
}

TEST_CASE("every screen is drawn into picture files of the sizes asked for, light and dark") {
    TempFolder folder;
    must(Notebook::create(folder / "book", "Drover"));
    const std::string command = "ASAN_OPTIONS=detect_leaks=0 xvfb-run -a " FETTLEBOOK_BIN_DIR
                                "/fettlebook " +
                                (folder / "book").string() + " --pictures " +
                                (folder / "pictures").string() + " --size 1024x700 --letters 125";
    REQUIRE(std::system(command.c_str()) == 0);
    for (const char* screen :
         {"bench", "log", "photos", "parts", "tasks", "tasks-picture", "marks", "sheets"})
        for (const char* ending : {"-1024x700.png", "-dark-1024x700.png"}) {
            const auto picture = folder / "pictures" / (std::string(screen) + ending);
            CAPTURE(picture);
            // Signature, IHDR, then width and height (PNG, ISO/IEC 15948, 5.2 and 11.2.2).
            CHECK(file_text(picture).substr(0, 24) ==
                  std::string("\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0\x04\0\0\0\x02\xBC", 24));
        }
}
