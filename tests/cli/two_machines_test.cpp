// A notebook on two machines, as scripts see it.
#include "notebook/notebook.h"
#include "run.h"

using namespace cli_tests;

namespace {

struct Machines : Bench {
    fs::path house = folder / "house", set = folder / "set", back = folder / "back";

    Ran at(const fs::path& where, std::vector<std::string> arguments) const {
        return run(where, arguments);
    }
    json answer_at(const fs::path& where, std::vector<std::string> arguments) const {
        arguments.emplace_back("--json");
        const auto ran = run(where, arguments);
        REQUIRE_MESSAGE(ran.code == 0, ran.err);
        return json::parse(ran.out);
    }
    json begin() const {
        (void)answer({"carry", set.string(), "--called", "garage laptop"});
        return answer({"meet", set.string(), "--notebook", house.string()});
    }
    void exchange() const {
        (void)answer_at(house, {"carry", back.string()});
        (void)answer({"meet", back.string()});
        (void)answer({"carry", set.string()});
        (void)answer_at(house, {"meet", set.string()});
    }
};

} // namespace

TEST_CASE("a second machine begins with all there is, photos left in place too") {
    Machines machines;
    (void)machines({"part", "add", "spring hanger", "--tag", "H7"});
    fs::create_directory(machines.folder / "phone");
    make_picture(machines.folder / "phone/IMG_1.jpg", 1, "2026:03:07 19:42:05");
    make_picture(machines.folder / "phone/IMG_2.jpg", 2);
    (void)machines.answer({"take-in", (machines.folder / "phone").string(), "--in-place"});
    const auto begun = machines.begin();
    CHECK(begun["whole"] == true);
    CHECK(begun["photos"] == 2);
    CHECK(begun["with"] == "garage laptop");
    const auto photos = machines.answer_at(machines.house, {"photos"});
    REQUIRE(photos.size() == 2);
    // On the other machine they are copies on the shelf, the same to the byte (coreutils' cmp).
    (void)output_of("cmp " + shell_word(machines.house / "photos/2026/2026-03-07/IMG_1.jpg") + ' ' +
                    shell_word(machines.folder / "phone/IMG_1.jpg"));
    (void)output_of("cmp $(find " + shell_word(machines.house / "photos") + " -name IMG_2.jpg) " +
                    shell_word(machines.folder / "phone/IMG_2.jpg"));
    const auto again = machines.answer_at(machines.house, {"meet", machines.set.string()});
    CHECK(again["met"] == false);
    CHECK(holds(again["nothing_done"], "met already"));
}

TEST_CASE("a name in a set that leads out of the notebook leads nowhere") {
    Machines machines;
    fs::create_directory(machines.folder / "phone");
    make_picture(machines.folder / "phone/IMG_1.jpg", 1, "2026:03:07 19:42:05");
    (void)machines.answer({"take-in", (machines.folder / "phone").string()});
    {
        auto book = fettle::Notebook::open(machines.book, fettle::store::Access::write);
        REQUIRE(book.ok());
        REQUIRE(book->write_aside([](fettle::store::Database& database) {
                        database.run("UPDATE photos SET original_name = '../../../../evil.jpg'");
                    })
                    .ok());
    }
    CHECK(machines.begin()["photos"] == 1);
    const auto found = output_of("find " + shell_word(machines.folder.path()) + " -name '*evil*'");
    CHECK(holds(found, (machines.house / "photos/2026/2026-03-07").string()));
    CHECK(found.find('\n') == found.size() - 1); // there alone
}

TEST_CASE("what both machines changed differently is shown side by side, settled and carried on") {
    Machines machines;
    (void)machines({"part", "add", "spring hanger", "--tag", "H7"});
    (void)machines.begin();
    (void)machines({"part", "set", "H7", "note=bent at the eye"});
    (void)machines.at(machines.house, {"part", "set", "H7", "note=cracked at the root"});
    machines.exchange();
    const auto here = machines.answer({"differences", "list"});
    const auto there = machines.answer_at(machines.house, {"differences", "list"});
    REQUIRE(here.size() == 1);
    CHECK(here[0]["of"] == "H7 spring hanger");
    CHECK(here[0]["field"] == "note");
    CHECK(here[0]["here"]["value"] == "bent at the eye");
    CHECK(here[0]["there"]["value"] == "cracked at the root");
    CHECK(there[0]["here"]["value"] == "cracked at the root");
    // The one written later stands on both machines.
    CHECK(machines.answer({"part", "show", "H7"})["note"] == "cracked at the root");
    CHECK(machines.answer_at(machines.house, {"part", "show", "H7"})["note"] ==
          "cracked at the root");
    const auto id = std::to_string(here[0]["difference"].get<int>());
    (void)machines.refused({"differences", "settle", id, "sideways"}, "here, there and stands");
    (void)machines.answer({"differences", "settle", id, "here"});
    machines.exchange();
    CHECK(machines.answer_at(machines.house, {"part", "show", "H7"})["note"] == "bent at the eye");
    CHECK(machines.answer_at(machines.house, {"differences", "list"}).empty());
    const auto settled = machines.answer_at(machines.house, {"differences", "list", "--all"});
    CHECK(settled[0]["settled"] == "as on garage laptop");
    (void)machines.refused({"differences", "settle", id, "there"}, "settled already");
}

TEST_CASE("sets that do not belong are refused with what to do, and nothing is changed") {
    Machines machines;
    (void)machines({"part", "add", "spring hanger", "--tag", "H7"});
    (void)machines.begin();
    // A notebook with a beginning of its own.
    const auto other = machines.folder / "other";
    REQUIRE(run(machines.folder.path(), {"start", other.string(), "--vehicle", "Donor"}).code == 0);
    const auto strange = run(other, {"meet", machines.set.string()});
    CHECK(strange.code == 1);
    CHECK(holds(strange.err, "never shared a beginning"));
    (void)machines.refused({"meet", machines.set.string()}, "carried from here");
    // A third folder cannot begin with what has only changed.
    (void)machines.answer_at(machines.house, {"carry", machines.back.string()});
    const auto third = machines.folder / "third";
    const auto lacking =
        run(machines.folder.path(), {"meet", machines.back.string(), "--notebook", third.string()});
    CHECK(lacking.code == 1);
    CHECK(holds(lacking.err, "--everything"));
    CHECK_FALSE(fs::exists(third));
    (void)machines.refused({"meet", (machines.folder / "none").string()}, "no file");
    write_file(machines.folder / "text", "not a set");
    (void)machines.refused({"meet", (machines.folder / "text").string()}, "not a set");
    (void)machines.refused({"carry", (machines.folder / "no/where").string()}, "cannot be written");
}

TEST_CASE("a set cut short or with a byte turned is refused, and changes nothing") {
    Machines machines;
    fs::create_directory(machines.folder / "phone");
    make_picture(machines.folder / "phone/IMG_1.jpg", 1, "2026:03:07 19:42:05");
    (void)machines.begin();
    (void)machines.answer({"take-in", (machines.folder / "phone").string()});
    (void)machines.answer({"part", "add", "spring hanger", "--tag", "P9"});
    (void)machines.answer({"carry", machines.set.string()});
    const auto whole = file_text(machines.set);
    const auto listed = [&] { return output_of("ls -R " + shell_word(machines.house / "photos")); };
    const auto before = listed();
    std::vector<std::string> spoilt;
    for (const std::size_t length : {whole.size() / 3, whole.size() - 4096, std::size_t{100}})
        spoilt.push_back(whole.substr(0, length));
    // What the set says of itself, its changes, the photo's bytes, and its first page.
    const auto picture = file_text(machines.folder / "phone/IMG_1.jpg").substr(400, 24);
    for (const auto& place : {std::string("\"carried\":"), std::string("spring hanger"), picture,
                              std::string("SQLite format")}) {
        const auto at = whole.find(place);
        REQUIRE(at != std::string::npos);
        spoilt.push_back(whole);
        spoilt.back()[at + 2] = static_cast<char>(spoilt.back()[at + 2] ^ 0x40);
    }
    for (const auto& bytes : spoilt) {
        write_file(machines.set, bytes);
        const auto met = run(machines.house, {"meet", machines.set.string()});
        CHECK(met.code == 1);
        CHECK(listed() == before);
        CHECK(run(machines.house, {"part", "show", "P9"}).code == 1);
    }
    write_file(machines.set, whole);
    CHECK(machines.answer_at(machines.house, {"meet", machines.set.string()})["photos"] == 1);
}
