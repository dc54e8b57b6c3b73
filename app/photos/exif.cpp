#include "photos/exif.h"

#include "photos/exif_text.h"

#include <exiv2/exiv2.hpp>

#include <array>
#include <cmath>
#include <initializer_list>
#include <string>

namespace fettle::photos {
namespace {

using Keys = std::initializer_list<const char*>;

// The tag under a key, or null. Never operator[]: that one inserts what is not there.
const Exiv2::Exifdatum* find(const Exiv2::ExifData& exif, const char* key) {
    const auto found = exif.findKey(Exiv2::ExifKey(key));
    return found == exif.end() || found->count() == 0 ? nullptr : &*found;
}

// The first text that is not blank.
std::string text_of(const Exiv2::ExifData& exif, Keys keys) {
    for (const char* key : keys) {
        const auto* tag = find(exif, key);
        if (!tag) continue;
        if (auto text = exif_string(tag->toString()); !text.empty()) return text;
    }
    return {};
}

int orientation_of(const Exiv2::ExifData& exif) {
    const auto* tag = find(exif, "Exif.Image.Orientation");
    if (!tag) return 1;
    const auto orientation = tag->toLong();
    return orientation >= 1 && orientation <= 8 ? static_cast<int>(orientation) : 1;
}

std::optional<Moment> taken_of(const Exiv2::ExifData& exif) {
    struct Source {
        const char *time, *subsecond, *offset;
    };
    constexpr std::array<Source, 3> sources{{
        {"Exif.Photo.DateTimeOriginal", "Exif.Photo.SubSecTimeOriginal",
         "Exif.Photo.OffsetTimeOriginal"},
        {"Exif.Photo.DateTimeDigitized", "Exif.Photo.SubSecTimeDigitized",
         "Exif.Photo.OffsetTimeDigitized"},
        {"Exif.Image.DateTime", "Exif.Photo.SubSecTime", "Exif.Photo.OffsetTime"},
    }};
    for (const auto& [time, subsecond, offset] : sources) {
        auto moment = moment_of_exif(text_of(exif, {time}), text_of(exif, {subsecond}),
                                     text_of(exif, {offset}));
        if (moment) return moment;
    }
    return {};
}

std::optional<double> number_of(const Exiv2::Exifdatum& tag, long at) {
    const auto [numerator, denominator] = tag.toRational(at);
    if (denominator == 0) return {};
    return double(numerator) / double(denominator);
}

// Degrees, minutes and seconds; `negative` is the reference that turns the sign (S, W).
std::optional<double> degrees_of(const Exiv2::ExifData& exif, const char* value_key,
                                 const char* reference_key, char negative, double most) {
    const auto* tag = find(exif, value_key);
    if (!tag) return {};
    std::optional<double> degrees;
    if (tag->typeId() == Exiv2::asciiString) {
        degrees = degrees_of_text(tag->toString());
    } else if (tag->count() == 3) {
        const auto whole = number_of(*tag, 0), minute = number_of(*tag, 1);
        const auto second = number_of(*tag, 2).value_or(0); // some write 0/0 seconds
        if (whole && minute) degrees = *whole + *minute / 60 + second / 3600;
    }
    if (!degrees || !(std::abs(*degrees) <= most)) return {};
    const auto reference = text_of(exif, {reference_key});
    return !reference.empty() && reference[0] == negative ? -*degrees : *degrees;
}

std::optional<Place> place_of(const Exiv2::ExifData& exif) {
    const auto latitude =
        degrees_of(exif, "Exif.GPSInfo.GPSLatitude", "Exif.GPSInfo.GPSLatitudeRef", 'S', 90);
    const auto longitude =
        degrees_of(exif, "Exif.GPSInfo.GPSLongitude", "Exif.GPSInfo.GPSLongitudeRef", 'W', 180);
    if (!latitude || !longitude) return {};
    if (*latitude == 0 && *longitude == 0) return {}; // what a phone without a fix writes
    Place place{*latitude, *longitude, {}};
    if (const auto* tag = find(exif, "Exif.GPSInfo.GPSAltitude"))
        place.altitude_m = number_of(*tag, 0);
    const auto* below = find(exif, "Exif.GPSInfo.GPSAltitudeRef");
    if (place.altitude_m && below && below->toLong() == 1) place.altitude_m = -*place.altitude_m;
    return place;
}

ExifFacts facts_of(const Exiv2::ExifData& exif) {
    ExifFacts facts;
    facts.orientation = orientation_of(exif);
    facts.taken = taken_of(exif);
    // Some phones put maker and model into the wrong directory (0x010f and 0x0110 of Photo).
    facts.camera_make = text_of(exif, {"Exif.Image.Make", "Exif.Photo.0x010f"});
    facts.camera_model = text_of(exif, {"Exif.Image.Model", "Exif.Photo.0x0110"});
    facts.lens = text_of(exif, {"Exif.Photo.LensModel"});
    facts.place = place_of(exif);
    return facts;
}

} // namespace

ExifFacts read_exif(std::span<const std::byte> file) {
    try {
        Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
        Exiv2::enableBMFF(true); // without it HEIC gives no tags, and no exception either
        auto image = Exiv2::ImageFactory::open(reinterpret_cast<const Exiv2::byte*>(file.data()),
                                               static_cast<long>(file.size()));
        try {
            image->readMetadata();
        } catch (const Exiv2::AnyError&) {
            // Thrown for files cut off after the EXIF block, too; what was read by then is right.
        }
        return facts_of(image->exifData());
    } catch (const Exiv2::AnyError&) {
        return {}; // of no kind that holds EXIF
    }
}

} // namespace fettle::photos
