#include "base/process.h"
#include "base/sanitized.h"
#include "temp_folder.h"

#include <doctest/doctest.h>
#include <fcntl.h>

using namespace std::chrono_literals;

namespace {

fettle::WorkerProcess echo_worker(const std::vector<std::string>& arguments = {},
                                  const fettle::WorkerLimits& limits = {}) {
    auto worker =
        fettle::WorkerProcess::start(FETTLEBOOK_BIN_DIR "/echo_worker", arguments, limits);
    REQUIRE(worker.ok());
    return std::move(*worker);
}

std::string asked(fettle::WorkerProcess& worker, const char* text, const std::string& path = {},
                  int hand_over = -1) {
    auto answer = worker.ask(text, std::as_bytes(std::span(path)), 60s, nullptr, hand_over);
    return answer ? answer->text : answer.failure().sentence;
}

} // namespace

TEST_CASE("a worker answers frame by frame, text and blob unchanged") {
    auto worker = echo_worker();
    const std::vector<std::byte> blob(3'000'000, std::byte{0x5a});
    for (const char* text : {"{}", "½ in", ""}) {
        auto answer = worker.ask(text, blob, 10s);
        REQUIRE(answer.ok());
        CHECK(answer->text == text);
        CHECK(answer->blob == blob);
    }
}

TEST_CASE("what a library prints in the worker does not spoil its answers") {
    auto worker = echo_worker();
    auto answer = worker.ask("print", {}, 10s);
    REQUIRE(answer.ok());
    CHECK(answer->text == "print");
}

TEST_CASE("a worker that crashes, leaves or hangs is a failure that says so") {
    struct Case {
        const char* request;
        const char* expected;
    };
    for (auto [request, expected] : {Case{"crash", "crashed"}, Case{"leave", "code 3"},
                                     Case{"hang", "no answer within 200 ms"}}) {
        CAPTURE(request);
        auto worker = echo_worker();
        auto answer = worker.ask(request, {}, request == std::string("hang") ? 200ms : 10s);
        REQUIRE_FALSE(answer.ok());
        CHECK(answer.failure().kind == fettle::FailureKind::plugin);
        CHECK(answer.failure().sentence.find(expected) != std::string::npos);
        CHECK_FALSE(worker.running());
        CHECK_FALSE(worker.ask("again", {}, 1s).ok());
    }
}

TEST_CASE("a program that is not there cannot be started, and the sentence names it") {
    auto worker = fettle::WorkerProcess::start("/nonexistent/helper", {});
    REQUIRE_FALSE(worker.ok());
    CHECK(worker.failure().sentence.find("/nonexistent/helper") != std::string::npos);
}

TEST_CASE("a worker that is shut off reads files, uses threads and fills a file it is handed") {
    TempFolder folder;
    write_file(folder / "read me", "as it stands\n");
    auto worker = echo_worker({"confined"});
    CHECK(asked(worker, "read", folder / "read me") == "as it stands");
    CHECK(asked(worker, "thread") == "threaded");
    const fettle::HandedFile file(open((folder / "tiles").c_str(), O_RDWR | O_CREAT, 0600));
    CHECK(asked(worker, "fill", {}, file.descriptor()) == "filled");
    CHECK(file_text(folder / "tiles").starts_with("written by mapping"));
}

TEST_CASE(
    "a worker that is shut off is stopped at what it may not, which is named, and does none") {
    TempFolder folder;
    const std::string file = folder / "kept";
    write_file(file, "kept");
    struct Case {
        const char* attempt;
        std::string told;
    };
    for (const auto& [attempt, told] :
         {Case{"write", "to open the file " + file}, Case{"empty", "to open the file " + file},
          Case{"remove", "to change the file " + file},
          Case{"rename", "to change the file " + file}, Case{"connect", "to use the network"},
          Case{"overwrite", "to write where it was not asked to"}}) {
        CAPTURE(attempt);
        auto worker = echo_worker({"confined"});
        const fettle::HandedFile handed(open(file.c_str(), O_RDWR));
        CHECK(asked(worker, attempt, file, handed.descriptor()) ==
              "it tried " + told + ", which it may not, and was stopped");
        CHECK_FALSE(worker.running());
        CHECK(file_text(file) == "kept");
    }
    if (fettle::kSeeksRaces) return;
    auto worker = echo_worker({"confined"}); // (the C library blocks signals while it forks)
    CHECK(asked(worker, "fork").starts_with("it tried "));
}

TEST_CASE("a worker has nothing open but its pipes, whatever this program has open") {
    const fettle::HandedFile left_open(open("/dev/null", O_RDONLY)); // without O_CLOEXEC
    auto worker = echo_worker();
    CHECK(asked(worker, "open files") == "4"); // both ends, errors, and where answers go
    CHECK(asked(worker, "open files", {}, left_open.descriptor()) == "5");
    CHECK(asked(worker, "open files") == "4"); // what was handed over is closed with its request
}

TEST_CASE("the limits on a worker hold: what it may write into a file, how much it may have open") {
    TempFolder folder;
    auto worker = echo_worker({}, {.file_bytes = 4, .open_files = 4});
    const fettle::HandedFile file(open((folder / "tiles").c_str(), O_RDWR | O_CREAT, 0600));
    CHECK(asked(worker, "fill", {}, file.descriptor()) != "filled");
    CHECK(worker.running());
    CHECK(std::filesystem::file_size(folder / "tiles") == 0);
    write_file(folder / "read me", "as it stands\n");
    CHECK(asked(worker, "read", folder / "read me") != "as it stands");
}
