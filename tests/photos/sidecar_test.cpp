// XMP sidecars against what Python's XML reader finds in them (RDF as ISO 16684-1 nests it), and
// copies without a place against the exiv2 command.
#include "photos/scratch.h"
#include "photos/sidecar.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace photo_tests;
using namespace fettle::photos;

namespace {

const Sidecar kOurs{"H7 spring & hanger, before",
                    {"fettlebook:H7 spring & hanger, before"},
                    {{10, 20, 100, 80, "O<V>", "mark; Orrinvale Forge; likely"}},
                    {}};

std::string text_of(const Bytes& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

void write_packet(const fs::path& file, const Sidecar& sidecar, const Lie& lie) {
    auto decoder = photo_tests::decoder();
    const auto packet = decoder.packet(file, sidecar, lie);
    REQUIRE(sentence_of(packet) == "");
    write_file(file, std::span(*packet));
}

Sidecar read_back(const fs::path& file, const Lie& lie) {
    auto decoder = photo_tests::decoder();
    auto sidecar = decoder.sidecar(file, lie);
    REQUIRE(sentence_of(sidecar) == "");
    return *sidecar;
}

// What an XML reader of its own finds: an expression over `root`, with the namespaces as N[...].
std::string by_xml(const fs::path& file, const std::string& expression) {
    return output_of("python3 -c 'import sys, xml.etree.ElementTree as E\n"
                     "N = {\"rdf\": \"http://www.w3.org/1999/02/22-rdf-syntax-ns#\",\n"
                     "     \"dc\": \"http://purl.org/dc/elements/1.1/\",\n"
                     "     \"rs\": \"http://www.metadataworkinggroup.com/schemas/regions/\",\n"
                     "     \"area\": \"http://ns.adobe.com/xmp/sType/Area#\"}\n"
                     "root = E.parse(sys.argv[1]).getroot()\n"
                     "print(" +
                     expression + ", end=\"\")' " + shell_word(file));
}

std::string area_by_xml(const fs::path& file, const std::string& side) {
    return by_xml(file,
                  "root.find(\".//rs:Area\", N).get(\"{\" + N[\"area\"] + \"}" + side + "\")");
}

} // namespace

TEST_CASE("a sidecar is XML that says subjects, description and regions in their open schemas") {
    Scratch scratch;
    const auto file = scratch / "a.xmp";
    write_packet(file, kOurs, {{400, 300}, 1});
    CHECK(by_xml(file, "root.find(\".//dc:subject/rdf:Bag/rdf:li\", N).text") ==
          "fettlebook:H7 spring & hanger, before");
    CHECK(by_xml(file, "root.find(\".//dc:description/rdf:Alt/rdf:li\", N).text") ==
          "H7 spring & hanger, before");
    CHECK(by_xml(file, "root.find(\".//rs:RegionList//rdf:Description\", N)"
                       ".get(\"{\" + N[\"rs\"] + \"}Name\")") == "O<V>");
    // The middle of the box, as fractions: (10 + 50) / 400, (20 + 40) / 300.
    CHECK(std::stod(area_by_xml(file, "x")) == doctest::Approx(0.15));
    CHECK(std::stod(area_by_xml(file, "y")) == doctest::Approx(0.2));
    CHECK(std::stod(area_by_xml(file, "w")) == doctest::Approx(0.25));
    CHECK(area_by_xml(file, "unit") == "normalized");
    CHECK(read_back(file, {{400, 300}, 1}).subjects == kOurs.subjects);
}

TEST_CASE("regions refer to the picture as stored and come back upright in all orientations") {
    Scratch scratch;
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const auto file = scratch / ("a" + std::to_string(orientation) + ".xmp");
        const Lie lie{{400, 300}, orientation};
        write_packet(file, kOurs, lie);
        const auto back = read_back(file, lie);
        REQUIRE(back.boxes.size() == 1);
        CHECK(back.boxes[0].x == doctest::Approx(10).epsilon(1e-6));
        CHECK(back.boxes[0].y == doctest::Approx(20).epsilon(1e-6));
        CHECK(back.boxes[0].w == doctest::Approx(100).epsilon(1e-6));
        CHECK(back.boxes[0].h == doctest::Approx(80).epsilon(1e-6));
    }
    // EXIF 2.32, orientation 6: the stored picture's left is the top of the upright one, so what is
    // at the upright's (0.15, 0.2) is stored at x 0.2, y 1 - 0.15.
    CHECK(std::stod(area_by_xml(scratch / "a6.xmp", "x")) == doctest::Approx(0.2));
    CHECK(std::stod(area_by_xml(scratch / "a6.xmp", "y")) == doctest::Approx(0.85));
    CHECK(std::stod(area_by_xml(scratch / "a8.xmp", "x")) == doctest::Approx(0.8));
    CHECK(std::stod(area_by_xml(scratch / "a8.xmp", "y")) == doctest::Approx(0.15));
}

TEST_CASE("what others wrote in a sidecar stays, and ours is replaced, not doubled") {
    Scratch scratch;
    const auto file = scratch / "a.xmp";
    const auto set = [&](const std::string& what) {
        output_of("exiv2 -M " + shell_word(what) + " " + shell_word(file));
    };
    write_packet(file, {}, {{400, 300}, 1});
    set("set Xmp.xmp.Rating 4");
    set("set Xmp.dc.subject XmpBag barn");
    set("set Xmp.xmp.CreatorTool something else");
    set("set Xmp.dc.description lang=x-default found in the barn");
    set("set Xmp.mwg-rs.Regions XmpText type=Struct");
    set("set Xmp.mwg-rs.Regions/mwg-rs:RegionList XmpText type=Bag");
    set("set Xmp.mwg-rs.Regions/mwg-rs:RegionList[1]/mwg-rs:Name A. Person");
    set("set Xmp.mwg-rs.Regions/mwg-rs:RegionList[1]/mwg-rs:Type Face");
    for (int time = 0; time < 2; ++time)
        write_packet(file, kOurs, {{400, 300}, 1});
    const auto said = output_of("exiv2 -px " + shell_word(file));
    const auto count = [&](const std::string& piece) {
        std::size_t found = 0;
        for (auto at = said.find(piece); at != std::string::npos; at = said.find(piece, at + 1))
            ++found;
        return found;
    };
    CHECK(count("Xmp.xmp.Rating") == 1);
    CHECK(count("barn, fettlebook:H7") == 1);
    CHECK(count("found in the barn") == 1); // their words, not ours over them
    CHECK(count("A. Person") == 1);
    CHECK(count("Face") == 1);
    CHECK(count("Orrinvale Forge") == 1);
    const auto back = read_back(file, {{400, 300}, 1});
    CHECK(back.subjects == kOurs.subjects);
    REQUIRE(back.boxes.size() == 1); // a face is no mark
    CHECK(back.boxes[0].name == "O<V>");
}

TEST_CASE("the place stands in a sidecar only when it is asked for") {
    Scratch scratch;
    const auto file = scratch / "a.xmp";
    Sidecar placed = kOurs;
    placed.place = Place{-54.5125, 2.75, 12.5};
    write_packet(file, placed, {{400, 300}, 1});
    const auto said = output_of("exiv2 -px " + shell_word(file));
    // 0.5125 degrees are 30.75 minutes.
    CHECK(said.find("54,30.750000S") != std::string::npos);
    CHECK(said.find("2,45.000000E") != std::string::npos);
    CHECK(said.find("1250/100") != std::string::npos);
    write_packet(file, kOurs, {{400, 300}, 1});
    CHECK(output_of("exiv2 -px " + shell_word(file)).find("GPS") == std::string::npos);
}

TEST_CASE("a sidecar that is none is named, and one with wild regions gives no boxes") {
    Scratch scratch;
    auto decoder = photo_tests::decoder();
    write_file(scratch / "no.xmp", std::string_view("<x:xmpmeta never closed"));
    CHECK(sentence_of(decoder.sidecar(scratch / "no.xmp", {{4, 3}, 1})) ==
          "no.xmp is no XMP that can be read.");
    CHECK(sentence_of(decoder.packet(scratch / "no.xmp", kOurs, {{4, 3}, 1})) != "");
    const auto file = scratch / "wild.xmp";
    Sidecar outside = kOurs;
    outside.boxes[0].x = 390; // over the edge
    write_packet(file, outside, {{400, 300}, 1});
    CHECK(read_back(file, {{400, 300}, 1}).boxes.empty());
}

TEST_CASE("a sidecar stands beside its picture by either name") {
    Scratch scratch;
    const auto picture = scratch / "a.jpg";
    write_file(picture, std::string_view("x"));
    CHECK_FALSE(sidecar_beside(picture));
    CHECK(sidecar_to_write(picture) == scratch / "a.xmp");
    write_file(scratch / "a.heic", std::string_view("y"));
    CHECK(sidecar_to_write(picture) == scratch / "a.jpg.xmp"); // a.xmp could be either's
    write_file(scratch / "a.xmp", std::string_view("z"));
    CHECK(sidecar_beside(picture) == scratch / "a.xmp");
    CHECK(sidecar_to_write(picture) == scratch / "a.xmp");
    write_file(scratch / "a.jpg.xmp", std::string_view("z"));
    CHECK(sidecar_beside(picture) == scratch / "a.jpg.xmp");
}

namespace {

void set_place(const fs::path& file) {
    output_of("exiv2 -M 'set Exif.GPSInfo.GPSLatitude 54/1 2/1 3030/100' "
              "-M 'set Exif.GPSInfo.GPSLatitudeRef N' -M 'set Exif.GPSInfo.GPSLongitude 2/1 42/1 "
              "0/1' -M 'set Exif.GPSInfo.GPSLongitudeRef W' -M 'set Exif.Image.Model P2026' " +
              shell_word(file));
}

std::string tags_of(const fs::path& file) {
    return output_of("exiv2 -q -PEkt " + shell_word(file) + " || true");
}

// Latitude as it stands in the file: 3030/100, in either order of bytes.
bool holds_seconds(const Bytes& bytes) {
    const std::string little("\xd6\x0b\0\0\x64\0\0\0", 8), big("\0\0\x0b\xd6\0\0\0\x64", 8);
    const auto text = text_of(bytes);
    return text.find(little) != std::string::npos || text.find(big) != std::string::npos;
}

} // namespace

TEST_CASE("a copy says no more where it was taken, in every format, and its pixels are the same") {
    Scratch scratch;
    auto decoder = photo_tests::decoder();
    const auto jpeg = make_picture(scratch / "a.jpg", 320, 240, "-quality 90");
    for (const char* name : {"a.png", "a.webp", "a.tif"})
        output_of("convert " + shell_word(jpeg) + " " + shell_word(scratch / name));
    for (const char* name : {"a.jpg", "a.png", "a.webp", "a.tif"})
        set_place(scratch / name);
    output_of("heif-enc -q 90 -o " + shell_word(scratch / "a.heic") + " " + shell_word(jpeg));
    for (const char* name : {"a.jpg", "a.png", "a.webp", "a.tif", "a.heic"}) {
        const auto file = scratch / name;
        CAPTURE(file.string());
        REQUIRE(tags_of(file).find("GPSLatitude") != std::string::npos);
        // exiv2 packs the block of a PNG; in the others the figures stand plain.
        REQUIRE(holds_seconds(bytes_of(file)) == (file.extension() != ".png"));
        const auto before = bytes_of(file);
        const auto copy = decoder.without_place(file);
        REQUIRE(sentence_of(copy) == "");
        CHECK(bytes_of(file) == before); // originals are never written to
        const auto there = scratch / ("copy" + file.extension().string());
        write_file(there, std::span(*copy));
        CHECK(tags_of(there).find("GPSLatitude") == std::string::npos);
        CHECK_FALSE(holds_seconds(*copy));
        CHECK(tags_of(there).find("P2026") != std::string::npos);
        auto one = decoder.picture(file), other = decoder.picture(there);
        REQUIRE(sentence_of(other) == "");
        CHECK(one->rgba == other->rgba);
        CHECK_FALSE(decoder.look(there)->exif.place);
    }
}

TEST_CASE("the place goes from the second picture of a file of several as well") {
    Scratch scratch;
    auto decoder = photo_tests::decoder();
    const auto first = make_picture(scratch / "a.jpg", 64, 48);
    const auto second = make_picture(scratch / "b.jpg", 32, 24);
    set_place(second);
    auto both = bytes_of(first);
    const auto more = bytes_of(second);
    both.insert(both.end(), more.begin(), more.end());
    const auto file = scratch / "several.jpg";
    write_file(file, std::span(both));
    REQUIRE(holds_seconds(both));
    const auto copy = decoder.without_place(file);
    REQUIRE(sentence_of(copy) == "");
    CHECK_FALSE(holds_seconds(*copy));
    CHECK(copy->size() == both.size());
}

TEST_CASE("a picture without a place is copied as it is") {
    Scratch scratch;
    auto decoder = photo_tests::decoder();
    for (const char* name : {"a.jpg", "a.gif", "a.bmp"}) {
        const auto file = make_picture(scratch / name, 64, 48);
        const auto copy = decoder.without_place(file);
        REQUIRE(sentence_of(copy) == "");
        CHECK(*copy == bytes_of(file));
    }
    write_file(scratch / "no.jpg", std::string_view("no picture"));
    CHECK(sentence_of(decoder.without_place(scratch / "no.jpg")) != "");
}
