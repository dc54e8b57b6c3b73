// Photos with what is known of them, out into a folder and back into another notebook.
#include "run.h"

using namespace cli_tests;

namespace {

void place(const fs::path& file) {
    output_of("exiv2 -M 'set Exif.GPSInfo.GPSLatitude 54/1 2/1 30/1' -M 'set "
              "Exif.GPSInfo.GPSLatitudeRef N' -M 'set Exif.GPSInfo.GPSLongitude 2/1 42/1 0/1' -M "
              "'set Exif.GPSInfo.GPSLongitudeRef W' " +
              shell_word(file.string()));
}

} // namespace

TEST_CASE("an exported folder tells another notebook ties and marks, and not the place") {
    Bench bench;
    CHECK(bench({"part", "add", "spring hanger", "--tag", "H7"}).code == 0);
    make_picture(bench.folder / "a.jpg", 1, "2026:03:07 19:42:05");
    place(bench.folder / "a.jpg");
    make_picture(bench.folder / "b.jpg", 2);
    CHECK(bench({"take-in", (bench.folder / "a.jpg").string(), (bench.folder / "b.jpg").string()})
              .code == 0);
    CHECK(bench({"tie", "1", "--part", "H7", "--stage", "before"}).code == 0);
    CHECK(bench({"mark", "1", "--region", "10,20,100,80", "--reading", "OV", "--maker",
                 "Orrinvale Forge", "--sure", "certain"})
              .code == 0);
    const auto out = (bench.folder / "out").string();
    const json report = bench.answer({"export", out});
    CHECK(report.at("written") == 2);
    CHECK(report.at("left_out") == json::array());
    // The same again makes no second copies.
    CHECK(bench({"export", out}).out == "2 photos with sidecars in " + out + "\n");
    CHECK(output_of("ls " + shell_word(out)) == "a.jpg\na.xmp\nb.jpg\nb.xmp\n");

    Bench other;
    CHECK(other({"part", "add", "hanger", "--tag", "h7"}).code == 0);
    const Ran taken = other({"take-in", out});
    CHECK(taken.code == 0);
    CHECK(holds(taken.out, "taken 2,"));
    CHECK(holds(taken.out, "by sidecars: 1 tie, 1 mark\n"));
    const json photos = other.answer({"photos", "--part", "h7"});
    REQUIRE(photos.size() == 1);
    CHECK(photos[0].at("latitude").is_null());
    CHECK(photos[0].at("ties")[0].at("stage") == "before");
    const json part = other.answer({"part", "show", "h7"});
    REQUIRE(part.at("marks").size() == 1);
    CHECK(part.at("marks")[0].at("reading") == "OV");
    CHECK(part.at("marks")[0].at("maker") == "Orrinvale Forge");
    CHECK(part.at("marks")[0].at("sure") == "certain");
    // Taken in once more, nothing is tied or marked twice; one undo takes it all back.
    CHECK_FALSE(holds(other({"take-in", out}).out, "sidecars"));
    CHECK(other({"undo"}).code == 0);
    CHECK(other.answer({"photos"}).empty());
}

TEST_CASE("the place goes along when it is asked for") {
    Bench bench;
    make_picture(bench.folder / "a.jpg", 1);
    place(bench.folder / "a.jpg");
    CHECK(bench({"take-in", (bench.folder / "a.jpg").string()}).code == 0);
    const auto out = bench.folder / "out";
    CHECK(bench({"export", out.string(), "--with-place"}).code == 0);
    CHECK(output_of("exiv2 -px " + shell_word((out / "a.xmp").string())).find("54,2.5") !=
          std::string::npos);
    CHECK(output_of("cmp " + shell_word((out / "a.jpg").string()) + " " +
                    shell_word((bench.folder / "a.jpg").string()) + " && echo same") == "same\n");
}

TEST_CASE("sidecars are written beside originals left in place, which stay as they are") {
    Bench bench;
    make_picture(bench.folder / "a.jpg", 1);
    bench.photo("b.jpg", 2); // on the shelf: no sidecar
    const auto before = output_of("sha256sum " + shell_word((bench.folder / "a.jpg").string()));
    CHECK(bench({"take-in", "--in-place", (bench.folder / "a.jpg").string()}).code == 0);
    CHECK(bench({"part", "add", "spring hanger", "--tag", "H7"}).code == 0);
    CHECK(bench({"tie", "2", "--part", "H7"}).code == 0);
    CHECK(bench({"sidecars"}).out == "1 photo given a sidecar\n");
    CHECK(fs::exists(bench.folder / "a.xmp"));
    CHECK(output_of("sha256sum " + shell_word((bench.folder / "a.jpg").string())) == before);
    // A tag no part has is told, and the photo is taken in all the same.
    Bench other;
    const Ran taken = other({"take-in", (bench.folder / "a.jpg").string()});
    CHECK(taken.code == 0);
    CHECK(holds(taken.err, "The tag H7 was read, but no part has it"));
    fs::remove(bench.folder / "a.jpg");
    const Ran gone = bench({"sidecars"});
    CHECK(gone.code == 1);
    CHECK(holds(gone.err, "Photo 2 is left out: "));
    CHECK(gone.one_sentence());
}
