#include "ui/window.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace fettle::ui;

namespace {

// A folder of its own for one test, gone afterwards.
class Folder {
  public:
    Folder() {
        std::string name = (std::filesystem::temp_directory_path() / "window-XXXXXX").string();
        path_ = mkdtemp(name.data());
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string operator/(const char* name) const { return path_ + "/" + name; }
    const std::string& path() const { return path_; }

  private:
    std::string path_;
};

int run(const std::string& command) {
    return std::system(command.c_str());
}

// LeakSanitizer would count what the graphics driver keeps for itself.
const std::string kUnderXvfb =
    "ASAN_OPTIONS=detect_leaks=0 xvfb-run -a -s '-screen 0 1280x800x24 -noreset' ";
const std::string kProbe = FETTLEBOOK_BIN_DIR "/window_probe";

} // namespace

TEST_CASE("the real window takes what a person types and clicks, ten quick clicks among it") {
    const Folder folder;
    REQUIRE(run(kUnderXvfb + FETTLEBOOK_SOURCE_DIR "/tests/ui/drive_window.sh " + kProbe + " " +
                folder.path()) == 0);
    std::ifstream result(folder / "result");
    std::string name;
    int presses = 0;
    std::getline(result, name);
    result >> presses;
    CHECK(name == "Hanger H7, 5/16 in");
    CHECK(presses == 10);
}

TEST_CASE("the window sleeps: at most five frames in an idle second, with a caret blinking") {
    const Folder folder;
    REQUIRE(run(kUnderXvfb + kProbe + " idle " + folder.path()) == 0);
    int frames = -1;
    std::ifstream(folder / "result") >> frames;
    CHECK(frames >= 0);
    CHECK(frames <= 5);
}

TEST_CASE("without a display the window says so in a sentence and nothing breaks") {
    const Folder folder;
    const int status = run("env -u DISPLAY -u WAYLAND_DISPLAY " + kProbe + " form " +
                           folder.path() + " 2> " + (folder / "said"));
    CHECK(WEXITSTATUS(status) == 1);
    std::string said;
    std::ifstream in(folder / "said");
    std::getline(in, said);
    CHECK(said.find("no display") != std::string::npos);
}
