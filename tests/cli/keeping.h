// A notebook for the tests of what keeps and guards it.
#pragma once

#include "record_text.h"
#include "run.h"

namespace cli_tests {

// A notebook with something in many tables, two photos in it and one left in place.
struct Keeping : Bench {
    fs::path out = folder / "out", zip = folder / "b.zip", shelf;

    Keeping() {
        CHECK((*this)({"part", "add", "spring hanger", "--tag", "H7", "--cost", "12.50 GBP",
                       "--from", "Ansel \"the spring\" Thrupp"})
                  .code == 0);
        photo("a.jpg", 1);
        photo("b.jpg", 2);
        make_picture(folder / "Präge.jpg", 3);
        CHECK((*this)({"take-in", "--in-place", (folder / "Präge.jpg").string()}).code == 0);
        CHECK((*this)({"tie", "1", "--part", "H7", "--stage", "before"}).code == 0);
        CHECK((*this)({"task", "add", "Blast, then paint"}).code == 0);
        CHECK(
            (*this)({"log", "Pin \"seized\";\nheat, oil.", "--part", "H7", "--photo", "1"}).code ==
            0);
        shelf = book / answer({"photos"}).at(0).at("file").get<std::string>();
        if (!fs::exists(shelf)) shelf = book / "photos" / "undated" / "a.jpg";
        REQUIRE(fs::exists(shelf));
    }

    // Refused in one sentence with these words, and nothing made.
    void not_made(const std::vector<std::string>& arguments, const std::string& holding) const {
        const std::string err = refused(arguments, holding);
        CHECK_FALSE(fs::exists(folder / "new"));
        for (const auto& entry : fs::directory_iterator(folder.path()))
            CHECK(entry.path().filename().string().find(".half-") == std::string::npos);
        CAPTURE(err);
    }
    void python(const std::string& program) const {
        write_file(folder / "p.py", program);
        said_by("cd '" + folder.path().string() + "' && python3 p.py");
    }
};

} // namespace cli_tests
