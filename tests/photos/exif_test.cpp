#include "photos/camera_samples.h"
#include "photos/exif.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>

#include <array>
#include <cstdio>

using namespace photo_tests;
using namespace fettle;
using fettle::photos::read_exif;

namespace {

// "2011:08:07 19:22:57", as the reference writes it.
std::string exif_form(const Moment& moment) {
    const auto day = std::chrono::floor<std::chrono::days>(moment.local);
    const std::chrono::year_month_day date(day);
    const std::chrono::hh_mm_ss clock(std::chrono::floor<std::chrono::seconds>(moment.local - day));
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%04d:%02u:%02u %02d:%02d:%02d", int(date.year()),
                  unsigned(date.month()), unsigned(date.day()), int(clock.hours().count()),
                  int(clock.minutes().count()), int(clock.seconds().count()));
    return text.data();
}

// The first of the three times that is a time at all, with its sub-second digits.
std::pair<std::string, std::string> expected_time(const ExpectedTags& tags) {
    for (auto [time, subsecond] : {std::pair{"DateTimeOriginal", "SubSecTimeOriginal"},
                                   std::pair{"DateTimeDigitized", "SubSecTimeDigitized"},
                                   std::pair{"DateTime", "SubSecTime"}}) {
        const auto text = tags.text(time);
        if (text.size() == 19 && text[0] >= '0' && text[0] <= '9' && !text.starts_with("0000"))
            return {text, tags.text(subsecond)};
    }
    return {};
}

double degrees(const ExpectedTags& tags, const std::string& tag, const char* negative) {
    const auto parts = tags.fractions(tag);
    REQUIRE(parts.size() == 3);
    const double value = parts[0] + parts[1] / 60 + parts[2] / 3600;
    return tags.text(tag + "Ref") == negative ? -value : value;
}

} // namespace

TEST_CASE("EXIF of 57 cameras and phones reads as the authors of the reference expect") {
    int with_time = 0, without_time = 0, with_subsecond = 0;
    for (const auto& [file, expected] : camera_samples()) {
        CAPTURE(file);
        const auto exif = read_exif(bytes_of(camera_samples_folder() / file));
        CHECK(exif.camera_make == expected.text("Make"));
        CHECK(exif.camera_model == expected.text("Model"));
        CHECK(exif.lens == expected.text("LensModel"));
        CHECK(exif.orientation == expected.number("Orientation").value_or(1));
        const auto [time, subsecond] = expected_time(expected);
        CHECK(exif.taken.has_value() == !time.empty());
        (exif.taken ? with_time : without_time)++;
        if (!exif.taken) continue;
        CHECK(exif_form(*exif.taken) == time);
        CHECK(exif.taken->has_subsecond == !subsecond.empty());
        if (subsecond.empty()) continue;
        ++with_subsecond;
        const double fraction = std::stod("0." + subsecond);
        const auto second = std::chrono::floor<std::chrono::seconds>(exif.taken->local);
        CHECK((exif.taken->local - second).count() == doctest::Approx(fraction * 1000));
    }
    CHECK(with_time == 56); // counted in the reference's file with another program
    CHECK(without_time == 1);
    CHECK(with_subsecond == 6);
}

TEST_CASE("places of the four camera files that have one") {
    int places = 0, as_text = 0, without_fix = 0;
    for (const auto& [file, expected] : camera_samples()) {
        CAPTURE(file);
        const auto exif = read_exif(bytes_of(camera_samples_folder() / file));
        if (expected.text("GPSLatitudeRef").empty()) {
            CHECK_FALSE(exif.place.has_value());
            continue;
        }
        if (expected.fractions("GPSLatitude").empty()) {
            // Against the standard, as text: "52,00000,50,00000,34,01180" and
            // "11,00000,10,00000,58,28360".
            ++as_text;
            REQUIRE(exif.place.has_value());
            CHECK(exif.place->latitude == doctest::Approx(52 + 50 / 60.0 + 34.0118 / 3600));
            CHECK(exif.place->longitude == doctest::Approx(11 + 10 / 60.0 + 58.2836 / 3600));
            continue;
        }
        const double latitude = degrees(expected, "GPSLatitude", "S");
        const double longitude = degrees(expected, "GPSLongitude", "W");
        if (latitude == 0 && longitude == 0) { // no fix: common practice, no source
            ++without_fix;
            CHECK_FALSE(exif.place.has_value());
            continue;
        }
        ++places;
        REQUIRE(exif.place.has_value());
        CHECK(exif.place->latitude == doctest::Approx(latitude).epsilon(1e-9));
        CHECK(exif.place->longitude == doctest::Approx(longitude).epsilon(1e-9));
        CHECK(exif.place->altitude_m == expected.fractions("GPSAltitude").at(0));
    }
    CHECK(places == 2);
    CHECK(as_text == 1);
    CHECK(without_fix == 1);
}

TEST_CASE("what exiv2 writes into a picture is read back, and the exiv2 command agrees") {
    Scratch scratch;
    const auto file = make_picture(scratch / "bench.jpg", 64, 48);
    const std::vector<std::pair<std::string, std::string>> tags{
        {"Exif.Image.Make", "Quernmore Optical"},
        {"Exif.Image.Model", "Box 2 \xc3\xbc"},
        {"Exif.Photo.LensModel", "Meniscus 40 mm"},
        {"Exif.Photo.DateTimeOriginal", "2026:03:07 19:42:05"},
        {"Exif.Photo.SubSecTimeOriginal", "25"},
        {"Exif.Photo.OffsetTimeOriginal", "+01:00"},
        {"Exif.Image.Orientation", "6"},
        {"Exif.GPSInfo.GPSLatitude", "54/1 2/1 3030/100"},
        {"Exif.GPSInfo.GPSLatitudeRef", "S"},
        {"Exif.GPSInfo.GPSLongitude", "2/1 42/1 0/1"},
        {"Exif.GPSInfo.GPSLongitudeRef", "W"},
        {"Exif.GPSInfo.GPSAltitude", "125/10"},
        {"Exif.GPSInfo.GPSAltitudeRef", "1"},
    };
    for (const auto& [key, value] : tags)
        set_exif(file, key, value);
    const auto printed = output_of("exiv2 -Pkv " + shell_word(file));
    for (const auto& [key, value] : tags) {
        const auto line = printed.substr(printed.find(key + " "));
        CHECK(line.substr(0, line.find('\n')).ends_with(" " + value));
    }

    const auto exif = read_exif(bytes_of(file));
    CHECK(exif.camera_make == "Quernmore Optical");
    CHECK(exif.camera_model == "Box 2 \xc3\xbc");
    CHECK(exif.lens == "Meniscus 40 mm");
    CHECK(exif.orientation == 6);
    REQUIRE(exif.taken.has_value());
    CHECK(exif_form(*exif.taken) == "2026:03:07 19:42:05");
    CHECK(exif.taken->local.time_since_epoch().count() % 1000 == 250);
    CHECK(exif.taken->offset == std::chrono::minutes(60));
    REQUIRE(exif.place.has_value());
    CHECK(exif.place->latitude == doctest::Approx(-(54 + 2 / 60.0 + 30.30 / 3600)));
    CHECK(exif.place->longitude == doctest::Approx(-2.7));
    CHECK(exif.place->altitude_m == -12.5);
}

TEST_CASE("a blank original time gives way to the next one, an odd orientation to 1") {
    Scratch scratch;
    const auto file = make_picture(scratch / "bench.jpg", 64, 48);
    set_exif(file, "Exif.Photo.DateTimeOriginal", "0000:00:00 00:00:00");
    set_exif(file, "Exif.Photo.DateTimeDigitized", "    :  :     :  :  ");
    set_exif(file, "Exif.Image.DateTime", "2026:03:07 19:42:05");
    set_exif(file, "Exif.Photo.SubSecTimeOriginal", "99");
    for (const char* orientation : {"0", "9", "36865"}) {
        CAPTURE(orientation);
        set_exif(file, "Exif.Image.Orientation", orientation);
        const auto exif = read_exif(bytes_of(file));
        CHECK(exif.orientation == 1);
        REQUIRE(exif.taken.has_value());
        CHECK(exif_form(*exif.taken) == "2026:03:07 19:42:05");
        CHECK_FALSE(exif.taken->has_subsecond);
    }
}

TEST_CASE("files with a corrupt EXIF block, or none at all, give what is there and no more") {
    const auto folder = camera_samples_folder().parent_path() / "corrupt";
    int files = 0;
    for (const auto& entry : fs::directory_iterator(folder)) {
        const auto exif = read_exif(bytes_of(entry.path()));
        CHECK(exif.orientation >= 1);
        CHECK(exif.orientation <= 8);
        ++files;
    }
    CHECK(files >= 3);
    for (std::string_view text : {"", "only text", "\xff\xd8\xff\xe1"}) {
        const auto exif = read_exif(std::as_bytes(std::span(text)));
        CHECK_FALSE(exif.taken.has_value());
        CHECK(exif.camera_make.empty());
    }
}
