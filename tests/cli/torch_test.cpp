// A torch set from the command line, on files written by the tests' own renderer.
#include "relief/torch_files.h"
#include "run.h"

#include <cmath>

using namespace cli_tests;

namespace {

struct TorchBench {
    TempFolder folder;
    relief_tests::TorchFiles set = relief_tests::torch_files(folder.path());
    std::vector<std::string> photos;

    TorchBench() {
        for (const auto& file : set.files)
            photos.push_back(file.filename().string());
    }
    Ran operator()(std::vector<std::string> more) const {
        std::vector<std::string> arguments{"torch"};
        arguments.insert(arguments.end(), photos.begin(), photos.end());
        arguments.insert(arguments.end(), more.begin(), more.end());
        return run(folder.path(), arguments);
    }
    void refused(const std::vector<std::string>& more, const std::string& holding) const {
        const Ran ran = (*this)(more);
        CAPTURE(ran.err);
        CHECK(ran.code == 1);
        CHECK(ran.one_sentence());
        CHECK(holds(ran.err, holding));
        CHECK(!fs::exists(folder / "new.png"));
    }
};

} // namespace

TEST_CASE("a torch set with a ball tells its lights and writes the relief, photos untouched") {
    TorchBench bench;
    const std::string before = file_text(bench.folder / "p0.png");
    const Ran ran = bench({"--ball", "162,160,26", "--region", "20,20,110,160", "--to", "out.png",
                           "--look", "depth", "--pixel", "0.05", "--json"});
    CAPTURE(ran.err);
    REQUIRE(ran.code == 0);
    const json told = ran.parsed();
    CHECK(told.at("lights_known") == true);
    CHECK(told.at("width") == 110);
    for (std::size_t k = 0; k < 6; ++k) {
        const json& light = told.at("lights")[k];
        const auto found = fettle::relief::direction_of(light.at("side"), light.at("above"));
        CAPTURE(k);
        CHECK(fettle::relief::degrees_between(found, bench.set.lights[k].towards) < 4);
        if (k > 0) CHECK(std::abs(double(told.at("shifts")[k][0]) - bench.set.cameras[k].x) < 0.3);
    }
    CHECK(told.at("readings").at("all") == 110 * 160 * 6);
    CHECK(double(told.at("scale").at("black_mm")) ==
          doctest::Approx(0.05 * double(told.at("scale").at("black"))));
    CHECK(output_of("identify -format '%m %w %h' " + shell_word(bench.folder / "out.png")) ==
          "PNG 110 160");
    CHECK(file_text(bench.folder / "p0.png") == before);
}

TEST_CASE("without a ball it says what is a guess, and a ball is found when it is sought") {
    TorchBench bench;
    const Ran guessed = bench({"--region", "20,20,110,160", "--to", "guess.png"});
    CAPTURE(guessed.err);
    REQUIRE(guessed.code == 0);
    CHECK(holds(guessed.out, "what is struck in"));
    CHECK(holds(guessed.out, "% of readings left out"));
    CHECK(fs::exists(bench.folder / "guess.png"));
    const Ran sought =
        bench({"--find-ball", "--region", "20,20,110,160", "--to", "found.png", "--json"});
    CAPTURE(sought.err);
    REQUIRE(sought.code == 0);
    CHECK(std::abs(double(sought.parsed().at("ball").at("x")) - 162) < 1);
    CHECK(std::abs(double(sought.parsed().at("ball").at("radius")) - 26) < 1.5);
}

TEST_CASE("a torch set kept with a mark is made again by the mark's number, and checked before") {
    TorchBench bench;
    REQUIRE(run(bench.folder.path(), {"start", "book", "--vehicle", "Drover"}).code == 0);
    const auto book = bench.folder / "book";
    const auto in_book = [&](std::vector<std::string> arguments) { return run(book, arguments); };
    REQUIRE(in_book({"take-in", "../p0.png", "../p1.png", "../p2.png", "../p3.png"}).code == 0);
    const auto mark = [&](const std::string& photo, const std::string& set) {
        return in_book({"mark", photo, "--region", "20,20,110,160", "--reading", "OV",
                        "--seen-with", "{\"torch\": " + set + "}"});
    };
    const std::string rest = R"(, "region": [20, 20, 110, 160], "ball": [162, 160, 26]})";
    const Ran kept = mark("1", R"({"photos": [1, 2, 3, 4])" + rest);
    CAPTURE(kept.err);
    REQUIRE(kept.code == 0);
    const Ran again = in_book({"torch", "--mark", "1", "--to", "again.png", "--json"});
    CAPTURE(again.err);
    REQUIRE(again.code == 0);
    CHECK(again.parsed().at("lights_known") == true);
    CHECK(again.parsed().at("width") == 110);
    CHECK(fs::exists(book / "again.png"));

    CHECK(holds(mark("2", R"({"photos": [1, 2, 3, 4])" + rest).err, "begins with photo 1"));
    CHECK(holds(mark("1", R"({"photos": [1, 2, 3, 9])" + rest).err, "9"));
    CHECK(holds(mark("1", R"({"photos": [1, 2, 3])" + rest).err, "4 to 24"));
    REQUIRE(in_book({"mark", "1", "--region", "20,20,110,160", "--reading", "OV"}).code == 0);
    CHECK(holds(in_book({"torch", "--mark", "2", "--to", "no.png"}).err, "not read from"));
    CHECK(in_book({"torch", "--to", "no.png"}).code == 2);
    CHECK(in_book({"torch", "--mark", "1", "--slope", "2", "--to", "no.png"}).code == 2);
}

TEST_CASE("what cannot be a torch set is refused in one sentence and writes nothing") {
    TorchBench bench;
    write_file(bench.folder / "held.png", "mine");
    bench.refused({"--to", "held.png"}, "already");
    CHECK(file_text(bench.folder / "held.png") == "mine");
    bench.refused({"--to", "new.jpg"}, "ends in .png");
    bench.refused({"--to", "new.png", "--look", "shiny"}, "lit, relief, depth or albedo");
    bench.refused({"--to", "new.png", "--slope", "50"}, "0.05 to 20");
    bench.refused({"--to", "new.png", "--region", "150,0,100,100"}, "within the photos of 200");
    bench.refused({"--to", "new.png", "--ball", "4,5"}, "1820,640,95");
    bench.refused({"--to", "new.png", "--ball", "60,60,20"}, "Photo 1: ");
    const Ran few = run(bench.folder.path(), {"torch", "p0.png", "p1.png", "--to", "new.png"});
    CHECK(few.code == 1);
    CHECK(holds(few.err, "4 to 24 photos, not of 2"));
    write_file(bench.folder / "text.png", "no picture");
    const Ran text = run(bench.folder.path(),
                         {"torch", "p0.png", "p1.png", "p2.png", "text.png", "--to", "new.png"});
    CHECK(text.code == 1);
    CHECK(holds(text.err, "text.png"));
    CHECK(run(bench.folder.path(), {"torch", "p0.png"}).code == 2);
}
