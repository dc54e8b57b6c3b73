// Ctrl-C during a take-in.
#include "run.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <thread>

using namespace cli_tests;

namespace {

// Starts a take-in with its output in `out`; gives the process.
pid_t start_take_in(const Bench& bench, const fs::path& folder, const fs::path& out) {
    const std::string program = FETTLEBOOK_BIN_DIR "/fettlebook";
    const std::string book = bench.book.string();
    const std::string from = folder.string();
    const pid_t child = fork();
    if (child == 0) {
        std::signal(SIGINT, SIG_DFL);
        const int file = open(out.c_str(), O_CREAT | O_WRONLY, 0600);
        dup2(file, STDOUT_FILENO);
        dup2(file, STDERR_FILENO);
        execl(program.c_str(), "fettlebook", "--notebook", book.c_str(), "take-in", from.c_str(),
              nullptr);
        _exit(127);
    }
    return child;
}

} // namespace

TEST_CASE("Ctrl-C stops a take-in between files and keeps what was taken in") {
    Bench bench;
    const fs::path camera = bench.folder / "camera";
    fs::create_directories(camera);
    // Large enough that the run lasts: one picture, made different by what follows its end.
    output_of("convert -size 1600x1200 -seed 1 plasma: " + shell_word(camera / "000.jpg"));
    const std::string picture = file_text(camera / "000.jpg");
    for (int number = 1; number < 300; ++number)
        write_file(camera / (std::to_string(1000 + number) + ".jpg"),
                   picture + std::to_string(number));

    const fs::path out = bench.folder / "out";
    const pid_t child = start_take_in(bench, camera, out);
    REQUIRE(child > 0);
    // Stop as soon as something has been taken in.
    for (int tries = 0; tries < 3000 && bench.answer({"photos"}).empty(); ++tries)
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    kill(child, SIGINT);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 1);
    CHECK(holds(file_text(out), "Stopped before the end"));
    const auto taken = bench.answer({"photos"}).size();
    CHECK(taken > 0);
    CHECK(taken < 300);
    CHECK(bench({"part", "add", "axle"}).code == 0); // the notebook is free again
}
