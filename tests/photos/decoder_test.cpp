#include "photos/decoder.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>

using namespace photo_tests;
using namespace std::chrono_literals;
using fettle::FailureKind;

namespace {

// The value of a field of /proc/PID/status for each process that this one has started.
std::vector<std::string> status_of_children(const std::string& field) {
    const std::string mine = std::to_string(getpid());
    std::vector<std::string> values;
    for (const auto& process : fs::directory_iterator("/proc")) {
        std::ifstream status(process.path() / "status");
        std::string word, parent, value;
        while (status >> word) {
            if (word == "PPid:") status >> parent;
            if (word == field) status >> value;
        }
        if (parent == mine) values.push_back(value);
    }
    return values;
}

} // namespace

TEST_CASE("the decoder's worker is shut off by filters of the kernel") {
    Scratch scratch;
    auto decoder = photo_tests::decoder();
    REQUIRE(decoder.look(make_picture(scratch / "a.png", 4, 3)).ok());
    CHECK(status_of_children("Seccomp:") == std::vector<std::string>{"2"}); // proc(5): by filters
    CHECK(status_of_children("NoNewPrivs:") == std::vector<std::string>{"1"});
}

TEST_CASE("a worker that dies, hangs or lies over a file is a failure that names the file") {
    struct Case {
        const char* file;
        const char* expected;
    };
    for (auto [file, expected] :
         {Case{"/photos/crash.jpg", "crashed"}, Case{"/photos/leave.jpg", "code 7"},
          Case{"/photos/hang.jpg", "no answer within 300 ms"},
          Case{"/photos/garbage.jpg", "makes no sense"},
          Case{"/photos/empty.jpg", "makes no sense"}, Case{"/photos/short.jpg", "makes no sense"},
          Case{"/photos/lies.jpg", "makes no sense"}}) {
        CAPTURE(file);
        const bool hangs = std::string_view(file).find("hang") != std::string_view::npos;
        fettle::photos::Decoder decoder(FETTLEBOOK_BIN_DIR "/bad_worker", hangs ? 300ms : 250s);
        for (const auto& sentence :
             {sentence_of(decoder.look(file)), sentence_of(decoder.picture(file)),
              sentence_of(decoder.hash(file))}) {
            CAPTURE(sentence);
            CHECK(
                sentence.starts_with(fs::path(file).filename().string() + " could not be decoded"));
            CHECK(sentence.find(expected) != std::string::npos);
        }
        CHECK(decoder.look(file).failure().kind == FailureKind::plugin);
        // The next question finds a fresh worker.
        CHECK(decoder.picture("/photos/good.jpg").ok());
    }
}

TEST_CASE("a worker program that is not there is a failure that names the program") {
    fettle::photos::Decoder decoder("/nonexistent/fettlebook-decode");
    CHECK(sentence_of(decoder.look("/photos/a.jpg")).find("/nonexistent/fettlebook-decode") !=
          std::string::npos);
}

TEST_CASE("one decoder answers more questions than one worker lives for") {
    Scratch scratch;
    const auto file = make_picture(scratch / "small.png", 4, 3);
    auto decoder = photo_tests::decoder();
    for (int at = 0; at < 1100; ++at)
        REQUIRE(decoder.look(file).ok());
}

TEST_CASE("file names need not be UTF-8, and sentences about them still are") {
    Scratch scratch;
    auto decoder = photo_tests::decoder();
    for (const char* name : {"dr\xc3\xbc"
                             "ck \xe6\x97\xa5.jpg",
                             "caf\xe9.jpg", "a'b \"c\"\n.jpg"}) {
        CAPTURE(name);
        const auto file = make_picture(scratch / "plain.jpg", 40, 30);
        fs::rename(file, scratch / name);
        auto look = decoder.look(scratch / name);
        CHECK(sentence_of(look) == "");
        write_file(scratch / name, std::string_view("only text"));
        CHECK(sentence_of(decoder.look(scratch / name)).ends_with("it starts with text."));
    }
    CHECK(sentence_of(decoder.look(scratch / "caf\xe9.jpg"))
              .starts_with("caf\xef\xbf\xbd.jpg is not"));
}
