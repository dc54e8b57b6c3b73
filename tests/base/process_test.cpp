#include "base/process.h"

#include <doctest/doctest.h>

using namespace std::chrono_literals;

namespace {

fettle::WorkerProcess echo_worker() {
    auto worker = fettle::WorkerProcess::start(FETTLEBOOK_BIN_DIR "/echo_worker", {});
    REQUIRE(worker.ok());
    return std::move(*worker);
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
