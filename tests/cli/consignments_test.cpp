// Consignments and the evidence before a surface goes, as typed.
#include "run.h"

#include <algorithm>

using namespace cli_tests;

namespace {

// The card of parts, photographed together: printed sheets side by side, with EXIF.
std::string photograph_tags(const Bench& bench, const std::vector<std::string>& tags,
                            const std::string& name, const std::string& taken) {
    std::vector<std::string> wish = {"tags", (bench.folder / "cards.pdf").string(), "--size",
                                     "large"};
    for (const auto& tag : tags)
        wish.insert(wish.end(), {"--part", tag});
    REQUIRE(bench(wish).code == 0);
    const auto sheet = (bench.folder / "sheet").string();
    const auto camera = bench.folder / "camera";
    fs::create_directories(camera);
    const auto file = (camera / (name + ".jpg")).string();
    output_of("pdftoppm -r 100 -png -singlefile " +
              shell_word((bench.folder / "cards.pdf").string()) + " " + shell_word(sheet));
    output_of("convert " + shell_word(sheet + ".png") + " -rotate 5 -quality 90 " +
              shell_word(file));
    output_of("exiv2 -M 'set Exif.Photo.DateTimeOriginal " + taken + "' " + shell_word(file));
    REQUIRE(bench({"take-in", file}).code == 0);
    const json photos = bench.answer({"photos"});
    for (const auto& photo : photos)
        if (photo.at("name") == name + ".jpg") return std::to_string(photo.at("photo").get<int>());
    FAIL("the photo was not taken in");
    return {};
}

struct Batch : Bench {
    Batch() {
        (*this)({"part", "add", "spring hanger", "--tag", "H7", "--on", "2026-01-10"});
        (*this)({"part", "add", "shackle plates", "--tag", "K2", "--quantity", "8"});
        (*this)({"part", "add", "king pin", "--tag", "P3"});
    }
};

} // namespace

TEST_CASE("a part does not go for blasting without photos of what is blasted off") {
    Batch bench;
    const std::vector<std::string> send = {"send",  "--to",     "Saltash Row Blasting",
                                           "--for", "blasting", "H7"};
    bench.refused(send, "H7: original finish: photograph it, or say that none is left; marks: none "
                        "read");
    auto without = send;
    without.insert(without.end(), {"--without-evidence", "rusted through"});
    CHECK(bench(without).out.starts_with("consignment 1\n"));
    const json sent = bench.answer({"consignments", "1"});
    CHECK(sent.at("finish_goes") == true);
    CHECK(sent.at("items")[0].at("note") == "Sent without evidence: rusted through");
    CHECK(sent.at("items")[0].at("evidence_missing").size() == 3);
    // The same purpose where the user knows that the surface stays, and one that leaves it.
    CHECK(bench({"send", "--to", "F", "--for", "blasting", "--finish", "stays", "P3"}).code == 0);
    CHECK(bench({"send", "--to", "F", "--for", "machining", "K2=2"}).code == 0);
}

TEST_CASE("evidence is said photo by photo, and what is none with its reason") {
    Batch bench;
    const auto one = bench.photo("one.png", 1), other = bench.photo("other.png", 2);
    CHECK(bench.answer({"evidence", "H7"}).at("missing").size() == 3);
    CHECK(bench({"tie", one, "--part", "H7", "--stage", "as found"}).code == 0);
    CHECK(bench({"evidence", "H7", "--photo", other, "--shows", "other side", "--shows", "marks"})
              .code == 0);
    CHECK(bench.answer({"evidence", "H7"}).at("missing") == json::array());
    CHECK(bench({"evidence", "H7", "--photo", other, "--shows", "other side", "--drop"}).code == 0);
    const json lacking = bench.answer({"evidence", "H7"});
    CHECK(lacking.at("missing").size() == 1);
    CHECK(bench({"evidence", "H7", "--none", "other side", "--because", "riveted on"}).code == 0);
    CHECK(bench.answer({"evidence", "H7"}).at("evidence")[3].at("none_because") == "riveted on");
    CHECK(bench.answer({"part", "show", "H7"}).at("evidence_missing") == json::array());
    CHECK(bench({"send", "--to", "F", "--for", "blasting", "H7"}).code == 0);
    bench.refused({"evidence", "H7", "--photo", one, "--shows", "rust"}, "original finish, marks");
    bench.refused({"evidence", "H7", "--photo", "99", "--shows", "marks"}, "no photo \"99\"");
    CHECK(bench({"evidence", "H7", "--none", "marks"}).code == 2);
}

TEST_CASE("receiving ticks off by tag and lists what is missing until it is settled") {
    Batch bench;
    const json sent = bench.answer(
        {"send", "--to", "Hebble Lane Machine Shop", "--for", "machining", "--carrier",
         "Fellgate Carriers", "--number", "FC 118", "--due", "2026-03-20", "--on", "2026-03-03",
         "--worth", "K2=80 GBP", "--worth", "H7=12.50 GBP", "H7", "K2=6"});
    CHECK(sent.at("state") == "overdue");
    CHECK(sent.at("missing") == json::array({"H7", "K2"}));
    CHECK(holds(bench({"consignments"}).out, "overdue"));
    const Ran received =
        bench({"receive", "1", "H7", "K2=4", "--condition", "repaired", "--on", "2026-03-18"});
    CHECK(received.code == 0);
    CHECK(holds(received.out, "missing: 2 of 6 pieces of K2\n"));
    const json hanger = bench.answer({"part", "show", "H7"});
    CHECK(hanger.at("condition") == "repaired");
    CHECK(hanger.at("steps").back() == json{{"condition", "repaired"}, {"on", "2026-03-18"}});
    CHECK(hanger.at("away") == json::array());
    const json plates = bench.answer({"part", "show", "K2"});
    CHECK(plates.at("condition") == "as found"); // two more are at home
    CHECK(plates.at("away")[0].at("pieces") == 2);
    CHECK(holds(plates.at("away")[0].at("standing").get<std::string>(),
                "with Hebble Lane Machine Shop since 3 Mar 2026 for machining"));

    const json settled = bench.answer(
        {"receive", "1", "--settle", "K2", "lost by the carrier, paid", "--on", "2026-04-02"});
    CHECK(settled.at("state") == "over");
    CHECK(settled.at("missing") == json::array());
    CHECK(settled.at("settled") == "2026-04-02");
    CHECK(bench({"consignments"}).out == "nothing is out\n");
    CHECK(bench.answer({"consignments", "--all"}).size() == 1);
    CHECK(bench({"undo"}).out == "undone: received of consignment 1\n");
    CHECK(bench.answer({"consignments", "1"}).at("state") == "overdue");
    CHECK(bench.answer({"receive", "1", "--all"}).at("missing") == json::array());
}

TEST_CASE("tags photographed together tick off what arrived, and the photo becomes a paper") {
    Batch bench;
    CHECK(bench({"send", "--to", "F", "--for", "machining", "--on", "2026-03-03", "H7", "K2", "P3"})
              .code == 0);
    const auto photo = photograph_tags(bench, {"H7", "P3"}, "arrival", "2026:03:20 18:00:00");
    const json arrivals = bench.answer({"consignments", "1"}).at("arrivals");
    REQUIRE(arrivals.size() == 1);
    CHECK(arrivals[0].at("parts") == json::array({"H7", "P3"}));
    CHECK(holds(bench({"consignments", "1"}).out, "`receive 1 --by-photo " + photo + "`"));
    const json received = bench.answer({"receive", "1", "--by-photo", photo, "--on", "2026-03-20"});
    CHECK(received.at("missing") == json::array({"K2"}));
    CHECK(received.at("papers") == json::array({std::stoi(photo)}));
    bench.refused({"receive", "1", "--by-photo", photo}, "shows no tag of what is missing");
}

TEST_CASE("the packing list and the claim hold items, values, photos, papers and no place") {
    Batch bench;
    const auto camera = bench.folder / "camera";
    fs::create_directories(camera);
    make_picture(camera / "hanger.jpg", 1, "2026:03:01 10:00:00");
    output_of("exiv2 -M 'set Exif.GPSInfo.GPSLatitude 54/1 2/1 30/1' -M 'set "
              "Exif.GPSInfo.GPSLatitudeRef N' -M 'set Exif.GPSInfo.GPSLongitude 2/1 46/1 0/1' -M "
              "'set Exif.GPSInfo.GPSLongitudeRef W' " +
              shell_word((camera / "hanger.jpg").string()));
    CHECK(bench({"take-in", (camera / "hanger.jpg").string()}).code == 0);
    CHECK(bench({"tie", "1", "--part", "H7", "--stage", "as found"}).code == 0);
    const auto paper = bench.photo("receipt.png", 2);
    CHECK(bench({"send", "--to", "Hebble Lane Machine Shop", "--for", "machining", "--carrier",
                 "Fellgate Carriers", "--number", "FC 118", "--on", "2026-03-03", "--worth",
                 "K2=80 GBP", "--worth", "H7=12.50 GBP", "--paper", paper, "H7", "K2"})
              .code == 0);
    CHECK(bench({"receive", "1", "K2=6", "--on", "2026-03-18"}).code == 0);

    const auto list = (bench.folder / "list.pdf").string();
    CHECK(bench.answer({"packing-list", "1", list}) == json{{"file", list}, {"pages", 1}});
    const auto text = output_of("pdftotext -layout " + shell_word(list) + " -");
    for (const char* said :
         {"Packing list, consignment 1", "Hebble Lane Machine Shop", "FC 118", "92.50 GBP", "H7",
          "spring hanger", "K2", "8 pieces", "no photo of it"})
        CHECK_MESSAGE(holds(text, said), said);
    // ISO 216 A4 in points.
    CHECK(holds(output_of("pdfinfo " + shell_word(list)), "595.276 x 841.89"));

    const auto claim = (bench.folder / "claim.pdf").string();
    CHECK(bench({"claim-pack", "1", claim}).code == 0);
    const auto told = output_of("pdftotext -layout " + shell_word(claim) + " -");
    // 80 GBP for eight, two of them missing: 20.00; and the hanger.
    for (const char* said : {"Claim, consignment 1", "3 Mar 2026", "sent 8, back 6, missing 2",
                             "value missing", "32.50 GBP", "Photos of H7", "Papers", "photo 2"})
        CHECK_MESSAGE(holds(told, said), said);
    output_of("pdfimages -all " + shell_word(claim) + " " +
              shell_word((bench.folder / "image").string()));
    const auto images =
        output_of("ls " + shell_word(bench.folder.path().string()) + " | grep '^image'");
    CHECK(std::ranges::count(images, '\n') == 2); // the hanger and the receipt
    const auto exif = [](const fs::path& file) {
        return output_of("(exiv2 -pa " + shell_word(file.string()) + " || true)");
    };
    CHECK(holds(exif(camera / "hanger.jpg"), "GPSLatitude"));
    CHECK_FALSE(holds(exif(bench.folder / "image-000.jpg"), "GPS"));
    bench.refused({"packing-list", "1", "/nowhere/list.pdf"}, "No such file");
}

TEST_CASE("consignments that cannot be are refused in one sentence and change nothing") {
    Batch bench;
    CHECK(bench({"send", "--to", "F", "--for", "machining", "--packed", "H7"}).code == 0);
    bench.refused({"send", "2", "P3"}, "no consignment \"2\"");
    bench.refused({"send", "one", "P3"}, "\"one\" is no consignment");
    bench.refused({"send", "1", "H9"}, "H9");
    bench.refused({"send", "1", "H7"}, "on consignment 1 already");
    bench.refused({"send", "1", "K2=9"}, "it holds 8");
    bench.refused({"send", "1", "K2=some"}, "K2=some");
    bench.refused({"send", "1", "--value", "much", "P3"}, "much");
    bench.refused({"send", "1", "--due", "soon"}, "soon");
    bench.refused({"send", "--to", "F", "--for", "machining", "P3", "H7"}, "H7 is out on");
    bench.refused({"receive", "1", "H7"}, "not sent yet");
    CHECK(bench({"send", "1", "--on", "2026-03-03"}).code == 0);
    bench.refused({"receive", "1", "H7", "--on", "2026-03-02"}, "before the day of sending");
    bench.refused({"receive", "1", "P3"}, "P3 is not on consignment 1: it holds H7");
    bench.refused({"receive", "1", "H7", "--condition", "shiny"}, "shiny");
    bench.refused({"receive", "1", "--settle", "H7", " "}, "reason why H7");
    for (const auto& typed :
         std::vector<std::vector<std::string>>{{"send", "H7"},
                                               {"send"},
                                               {"send", "--to", "F"},
                                               {"send", "--to", "F", "--from", "G"},
                                               {"receive"},
                                               {"receive", "1", "--settle", "H7"},
                                               {"packing-list", "1"}}) {
        const Ran ran = bench(typed);
        CHECK(ran.code == (typed == std::vector<std::string>{"send", "H7"} ? 1 : 2));
    }
}

TEST_CASE("what is on its way in from a seller is received like what was out") {
    Batch bench;
    const json sent = bench.answer(
        {"send", "--from", "Corriemuir Bushes", "--for", "bought", "--on", "2026-01-27", "K2"});
    CHECK(sent.at("inward") == true);
    CHECK(sent.at("finish_goes") == false);
    CHECK(holds(bench({"consignments"}).out, "from Corriemuir Bushes"));
    CHECK(
        bench.answer({"receive", "1", "K2=2", "--on", "2026-01-31"}).at("items")[0].at("missing") ==
        6);
    bench.refused({"send", "1", "--off", "K2"}, "came back with consignment 1");
}
