#include "photos/decoder.h"
#include "photos/jpeg.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>

using namespace photo_tests;
using namespace fettle::photos;
using fettle::FailureKind;

namespace {

// Where the marker FF `code` stands.
std::size_t marker(const Bytes& jpeg, unsigned char code) {
    const std::byte pattern[] = {std::byte{0xff}, std::byte{code}};
    const auto found =
        std::search(jpeg.begin(), jpeg.end(), std::begin(pattern), std::end(pattern));
    REQUIRE(found != jpeg.end());
    return std::size_t(found - jpeg.begin());
}

std::size_t segment_length(const Bytes& jpeg, std::size_t at) {
    return std::to_integer<std::size_t>(jpeg[at + 2]) << 8 |
           std::to_integer<std::size_t>(jpeg[at + 3]);
}

// The JPEG with another size in its frame header (ITU-T T.81, B.2.2).
Bytes claiming(Bytes jpeg, unsigned width, unsigned height) {
    const auto sof = marker(jpeg, 0xc0);
    jpeg[sof + 5] = static_cast<std::byte>(height >> 8);
    jpeg[sof + 6] = static_cast<std::byte>(height);
    jpeg[sof + 7] = static_cast<std::byte>(width >> 8);
    jpeg[sof + 8] = static_cast<std::byte>(width);
    return jpeg;
}

std::span<const std::byte> first(const Bytes& bytes, std::size_t count) {
    return std::span(bytes).first(count);
}

// A PNG signature and header that claim 100000 x 100000 pixels, and nothing more.
constexpr std::string_view kHugePng("\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\x01\x86\xa0\0\x01\x86\xa0"
                                    "\x08\x02\0\0\0\x4b\x1f\xb6\x31",
                                    33);

struct Expected {
    const char* file;
    FailureKind kind;
    std::string sentence;
};

void check(const Scratch& scratch, const Expected& expected) {
    CAPTURE(expected.file);
    auto decoder = photo_tests::decoder();
    auto look = decoder.look(scratch / expected.file);
    REQUIRE_FALSE(look.ok());
    CHECK(look.failure().sentence == expected.sentence);
    CHECK(look.failure().kind == expected.kind);
    CHECK(sentence_of(decoder.picture(scratch / expected.file)) == expected.sentence);
    CHECK(sentence_of(decoder.region(scratch / expected.file, {0, 0, 1, 1, 1})) ==
          expected.sentence);
}

} // namespace

TEST_CASE("what is no picture file is refused with a sentence that says what it is") {
    Scratch scratch;
    write_file(scratch / "notes.jpg",
               std::string_view("Leaf 3 cracked at the eye, \xc2\xbd in.\n"));
    write_file(scratch / "empty.jpg", std::string_view());
    write_file(scratch / "phone.jpg", std::string_view("\0\0\0\x18"
                                                       "ftypqt  \0\0\0\0",
                                                       16));
    write_file(scratch / "scan.tga", std::string_view("%PDF-1.7", 8));
    write_file(scratch / "noise.bmp", std::string_view("\x01\x02\x03\x04\x05\x06\x07\x08", 8));
    fs::create_directory(scratch / "folder.jpg");
    REQUIRE(mkfifo((scratch / "pipe.jpg").c_str(), 0600) == 0);
    fs::create_symlink(scratch / "circle.jpg", scratch / "circle.jpg");
    const std::string readable =
        "JPEG, HEIC, HEIF, AVIF, PNG, WebP, TIFF, BMP, GIF and TGA can be read.";
    for (const auto& expected : {
             Expected{"notes.jpg", FailureKind::invalid,
                      "notes.jpg is not a picture: it starts with text."},
             Expected{"empty.jpg", FailureKind::invalid,
                      "empty.jpg is empty: the file has 0 bytes."},
             Expected{"phone.jpg", FailureKind::invalid, "phone.jpg is a film; " + readable},
             Expected{"scan.tga", FailureKind::invalid, "scan.tga is a PDF document; " + readable},
             Expected{"noise.bmp", FailureKind::invalid,
                      "noise.bmp is not a picture of a kind that is known; " + readable},
             Expected{"folder.jpg", FailureKind::invalid,
                      "folder.jpg is a folder, not a picture file."},
             Expected{"pipe.jpg", FailureKind::invalid,
                      "pipe.jpg is a device or a pipe, not a picture file."},
             Expected{"circle.jpg", FailureKind::io,
                      "circle.jpg may not be read: Too many levels of symbolic links."},
             Expected{"gone.jpg", FailureKind::not_found,
                      "There is no file gone.jpg in " + scratch.path().string() + "."},
         })
        check(scratch, expected);
}

TEST_CASE("too many bytes or pixels are refused before any is decoded, with size and limit") {
    Scratch scratch;
    write_file(scratch / "huge.jpg", std::string_view("\xff\xd8\xff"));
    fs::resize_file(scratch / "huge.jpg", (1ull << 30) + (5ull << 20)); // sparse
    write_file(scratch / "claim.png", kHugePng);
    const auto small = bytes_of(make_picture(scratch / "small.jpg", 64, 48));
    write_file(scratch / "wide.jpg", claiming(small, 20001, 10000));
    for (const auto& expected : {
             Expected{"huge.jpg", FailureKind::refused,
                      "huge.jpg has 1029 MiB; picture files of at most 1024 MiB are taken."},
             Expected{
                 "claim.png", FailureKind::refused,
                 "claim.png is 100000 x 100000 pixels, 10000 megapixels; at most 200 megapixels "
                 "can be taken."},
             Expected{
                 "wide.jpg", FailureKind::refused,
                 "wide.jpg is 20001 x 10000 pixels, 201 megapixels; at most 200 megapixels can "
                 "be taken."},
         })
        check(scratch, expected);
}

TEST_CASE("a panorama of 102 megapixels is taken, and a region of it shown") {
    Scratch scratch;
    {
        Picture panorama{12000, 8500, std::vector<std::byte>(12000ull * 8500 * 4, std::byte{120})};
        for (std::size_t row = 0; row < 8500; ++row)
            std::fill_n(panorama.rgba.begin() + std::ptrdiff_t(row * 12000 * 4), 6000 * 4,
                        std::byte{30});
        auto jpeg = encode_jpeg(panorama);
        REQUIRE(sentence_of(jpeg) == "");
        write_file(scratch / "panorama.jpg", *jpeg);
    }
    auto decoder = photo_tests::decoder();
    auto look = decoder.look(scratch / "panorama.jpg");
    REQUIRE(sentence_of(look) == "");
    CHECK(look->width == 12000);
    CHECK_FALSE(look->damaged);
    auto region = decoder.region(scratch / "panorama.jpg", {5992, 3000, 16, 1, 1});
    REQUIRE(sentence_of(region) == "");
    CHECK(std::abs(std::to_integer<int>(region->rgba[0]) - 30) < 3);
    CHECK(std::abs(std::to_integer<int>(region->rgba[4 * 15]) - 120) < 3);
}

TEST_CASE("a JPEG cut off in its pixels is shown and marked, one without pixels is refused") {
    Scratch scratch;
    const auto whole = bytes_of(make_picture(scratch / "whole.jpg", 900, 600, "-quality 95"));
    const auto sos = marker(whole, 0xda);
    const auto scan = sos + 2 + segment_length(whole, sos);
    auto decoder = photo_tests::decoder();
    for (const std::size_t kept : {whole.size() - 1000, whole.size() / 2, scan + 2000}) {
        CAPTURE(kept);
        write_file(scratch / "cut.jpg", first(whole, kept));
        auto look = decoder.look(scratch / "cut.jpg");
        REQUIRE(sentence_of(look) == "");
        CHECK(look->damaged);
        CHECK(look->damage == "the file ends before the picture does");
        CHECK(look->width == 900);
        CHECK(decoder.picture(scratch / "cut.jpg").ok());
    }
    for (const std::size_t kept :
         {std::size_t(3), std::size_t(30), marker(whole, 0xc0) + 6, sos, sos + 5, scan}) {
        CAPTURE(kept);
        write_file(scratch / "cut.jpg", first(whole, kept));
        auto look = decoder.look(scratch / "cut.jpg");
        REQUIRE_FALSE(look.ok());
        CHECK(look.failure().kind == FailureKind::damaged);
        CHECK(look.failure().sentence.starts_with("cut.jpg is damaged: "));
    }
}

TEST_CASE("the shown part of a cut JPEG is the picture itself") {
    Scratch scratch;
    const auto whole = bytes_of(make_picture(scratch / "whole.jpg", 400, 400, "-quality 95"));
    write_file(scratch / "cut.jpg", first(whole, whole.size() * 3 / 4));
    auto decoder = photo_tests::decoder();
    auto cut = decoder.region(scratch / "cut.jpg", {0, 0, 400, 160, 1});
    REQUIRE(sentence_of(cut) == "");
    CHECK(mean_difference(*cut, reference_pixels(scratch / "whole.jpg", "-crop 400x160+0+0")) <
          1.0);
}

TEST_CASE("a cut PNG is refused as damaged") {
    Scratch scratch;
    const auto whole = bytes_of(make_picture(scratch / "whole.png", 300, 200));
    write_file(scratch / "cut.png", first(whole, whole.size() / 2));
    write_file(scratch / "stub.png", first(whole, 20));
    check(scratch,
          {"cut.png", FailureKind::damaged, "cut.png is damaged: its pixels cannot be decoded."});
    check(scratch,
          {"stub.png", FailureKind::damaged, "stub.png is damaged: its header holds no picture."});
}

TEST_CASE("a file that may not be read is refused with the reason") {
    Scratch scratch;
    const auto file = make_picture(scratch / "locked.jpg", 20, 20);
    fs::permissions(file, fs::perms::none);
    const bool is_root = geteuid() == 0; // root may read everything: become somebody else meanwhile
    if (is_root) REQUIRE(seteuid(65534) == 0);
    auto decoder = photo_tests::decoder();
    const auto sentence = sentence_of(decoder.look(file));
    if (is_root) REQUIRE(seteuid(0) == 0);
    CHECK(sentence == "locked.jpg may not be read: Permission denied.");
}
