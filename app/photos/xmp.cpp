#include "photos/xmp.h"

#include "base/text.h"

#include <exiv2/exiv2.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace fettle::photos {
namespace {

constexpr const char* kSubjects = "Xmp.dc.subject";
constexpr const char* kDescription = "Xmp.dc.description";
constexpr const char* kRegions = "Xmp.mwg-rs.Regions";
constexpr const char* kList = "Xmp.mwg-rs.Regions/mwg-rs:RegionList";
// The description is ours, and may be written over, when this stands there.
constexpr const char* kTool = "Xmp.xmp.CreatorTool";
constexpr const char* kOurTool = "Fettlebook";

Result<Exiv2::XmpData> decoded(std::string_view packet) {
    Exiv2::XmpData xmp;
    if (trim(packet).empty()) return xmp;
    Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
    try {
        if (Exiv2::XmpParser::decode(xmp, std::string(packet)) == 0) return xmp;
    } catch (const Exiv2::AnyError&) {
    }
    return Failure{FailureKind::damaged, "is no XMP that can be read"};
}

std::string text_at(const Exiv2::XmpData& xmp, const std::string& key) {
    try {
        const auto found = xmp.findKey(Exiv2::XmpKey(key));
        return found == xmp.end() ? std::string() : safe_utf8(found->toString());
    } catch (const Exiv2::AnyError&) {
        return {}; // a key of a namespace nobody declared
    }
}

std::vector<std::string> subjects_in(const Exiv2::XmpData& xmp) {
    std::vector<std::string> subjects;
    const auto found = xmp.findKey(Exiv2::XmpKey(kSubjects));
    if (found == xmp.end()) return subjects;
    for (long at = 0; at < found->count(); ++at)
        subjects.push_back(safe_utf8(found->toString(at)));
    return subjects;
}

// What stands in front of the text of the default language is how exiv2 names that language.
std::string description_in(const Exiv2::XmpData& xmp) {
    const auto found = xmp.findKey(Exiv2::XmpKey(kDescription));
    if (found == xmp.end()) return {};
    if (const auto* alternatives = dynamic_cast<const Exiv2::LangAltValue*>(&found->value()))
        return safe_utf8(alternatives->toString("x-default"));
    return safe_utf8(found->toString());
}

// A fraction of a side, as every locale writes it here: with a point.
std::optional<double> number_at(const Exiv2::XmpData& xmp, const std::string& key) {
    const auto text = text_at(xmp, key);
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(number))
        return {};
    return number;
}

std::string in_digits(double number) {
    char text[32];
    const auto end =
        std::to_chars(text, text + sizeof text, number, std::chars_format::fixed, 9).ptr;
    return {text, end};
}

// A box as fractions of the picture's sides, its middle first, as the schema has it.
struct Fractions {
    double x, y, w, h;
};

// EXIF orientation turns what is stored into what is upright: a point of one in the other, both in
// fractions (EXIF 2.32, tag 0x0112: where the stored row 0 and column 0 lie).
Fractions stored_from_upright(Fractions box, int orientation) {
    const auto [x, y, w, h] = box;
    switch (orientation) {
    case 2:
        return {1 - x, y, w, h};
    case 3:
        return {1 - x, 1 - y, w, h};
    case 4:
        return {x, 1 - y, w, h};
    case 5:
        return {y, x, h, w};
    case 6:
        return {y, 1 - x, h, w};
    case 7:
        return {1 - y, 1 - x, h, w};
    case 8:
        return {1 - y, x, h, w};
    default:
        return box;
    }
}

Fractions upright_from_stored(Fractions box, int orientation) {
    // Each is its own inverse, except the quarter turns, which are each other's.
    if (orientation == 6) return stored_from_upright(box, 8);
    if (orientation == 8) return stored_from_upright(box, 6);
    return stored_from_upright(box, orientation);
}

bool is_inside(const Fractions& box) {
    constexpr double kRounding = 1e-6;
    return box.w > 0 && box.h > 0 && box.x - box.w / 2 >= -kRounding &&
           box.y - box.h / 2 >= -kRounding && box.x + box.w / 2 <= 1 + kRounding &&
           box.y + box.h / 2 <= 1 + kRounding;
}

std::string item(std::size_t number) {
    return std::string(kList) + "[" + std::to_string(number) + "]";
}

std::optional<NamedBox> box_in(const Exiv2::XmpData& xmp, const std::string& region,
                               const Lie& lie) {
    const auto area = region + "/mwg-rs:Area/stArea:";
    const auto x = number_at(xmp, area + "x"), y = number_at(xmp, area + "y");
    const auto w = number_at(xmp, area + "w"), h = number_at(xmp, area + "h");
    const auto unit = text_at(xmp, area + "unit");
    if (!x || !y || !w || !h || (!unit.empty() && unit != "normalized")) return {};
    const auto box = upright_from_stored({*x, *y, *w, *h}, lie.orientation);
    if (!is_inside(box)) return {};
    const double width = lie.upright.width, height = lie.upright.height;
    return NamedBox{(box.x - box.w / 2) * width,
                    (box.y - box.h / 2) * height,
                    box.w * width,
                    box.h * height,
                    text_at(xmp, region + "/mwg-rs:Name"),
                    text_at(xmp, region + "/mwg-rs:Description")};
}

std::size_t regions_in(const Exiv2::XmpData& xmp) {
    std::size_t most = 0;
    const std::string start = std::string(kList) + "[";
    for (const auto& property : xmp) {
        const auto key = property.key();
        if (!key.starts_with(start)) continue;
        std::size_t number = 0;
        std::from_chars(key.data() + start.size(), key.data() + key.size(), number);
        most = std::max(most, number);
    }
    return most;
}

// The regions others wrote, property by property, so that they can be put back whole.
std::vector<std::vector<Exiv2::Xmpdatum>> foreign_regions(const Exiv2::XmpData& xmp) {
    std::vector<std::vector<Exiv2::Xmpdatum>> foreign;
    for (std::size_t number = 1; number <= regions_in(xmp); ++number) {
        const auto region = item(number);
        if (text_at(xmp, region + "/mwg-rs:Description").starts_with(kOwnBox)) continue;
        auto& properties = foreign.emplace_back();
        for (const auto& property : xmp)
            if (property.key() == region || property.key().starts_with(region + "/"))
                properties.push_back(property);
    }
    return foreign;
}

void put_text(Exiv2::XmpData& xmp, const std::string& key, const std::string& text) {
    Exiv2::XmpTextValue value(text);
    xmp.add(Exiv2::XmpKey(key), &value);
}

void put_shell(Exiv2::XmpData& xmp, const std::string& key, Exiv2::XmpValue::XmpArrayType array,
               Exiv2::XmpValue::XmpStruct structure) {
    Exiv2::XmpTextValue value;
    value.setXmpArrayType(array);
    value.setXmpStruct(structure);
    xmp.add(Exiv2::XmpKey(key), &value);
}

void put_struct(Exiv2::XmpData& xmp, const std::string& key) {
    put_shell(xmp, key, Exiv2::XmpValue::xaNone, Exiv2::XmpValue::xsStruct);
}

void put_box(Exiv2::XmpData& xmp, const std::string& region, const NamedBox& box, const Lie& lie) {
    const double width = lie.upright.width, height = lie.upright.height;
    const auto stored = stored_from_upright(
        {(box.x + box.w / 2) / width, (box.y + box.h / 2) / height, box.w / width, box.h / height},
        lie.orientation);
    put_struct(xmp, region);
    put_text(xmp, region + "/mwg-rs:Name", box.name);
    put_text(xmp, region + "/mwg-rs:Description", box.description);
    const auto area = region + "/mwg-rs:Area";
    put_struct(xmp, area);
    put_text(xmp, area + "/stArea:x", in_digits(stored.x));
    put_text(xmp, area + "/stArea:y", in_digits(stored.y));
    put_text(xmp, area + "/stArea:w", in_digits(stored.w));
    put_text(xmp, area + "/stArea:h", in_digits(stored.h));
    put_text(xmp, area + "/stArea:unit", "normalized");
}

// A foreign region's properties under another number of the list.
void put_back(Exiv2::XmpData& xmp, const std::vector<Exiv2::Xmpdatum>& properties,
              const std::string& region) {
    for (const auto& property : properties) {
        const auto key = property.key();
        const auto below = key.substr(key.find(']', std::string_view(kList).size()) + 1);
        xmp.add(Exiv2::XmpKey(region + below), &property.value());
    }
}

void put_regions(Exiv2::XmpData& xmp, const std::vector<NamedBox>& boxes, const Lie& lie) {
    const auto foreign = foreign_regions(xmp);
    const auto is_region = [](const Exiv2::Xmpdatum& property) {
        return property.key() == kRegions ||
               property.key().starts_with(std::string(kRegions) + "/");
    };
    for (auto at = xmp.begin(); at != xmp.end();)
        at = is_region(*at) ? xmp.erase(at) : std::next(at);
    if (foreign.empty() && boxes.empty()) return;
    const auto stored = upright_size(lie.upright, lie.orientation); // turning twice turns back
    const std::string dimensions = std::string(kRegions) + "/mwg-rs:AppliedToDimensions";
    put_struct(xmp, kRegions);
    put_struct(xmp, dimensions);
    put_text(xmp, dimensions + "/stDim:w", std::to_string(stored.width));
    put_text(xmp, dimensions + "/stDim:h", std::to_string(stored.height));
    put_text(xmp, dimensions + "/stDim:unit", "pixel");
    put_shell(xmp, kList, Exiv2::XmpValue::xaBag, Exiv2::XmpValue::xsNone);
    std::size_t number = 0;
    for (const auto& properties : foreign)
        put_back(xmp, properties, item(++number));
    for (const auto& box : boxes)
        put_box(xmp, item(++number), box, lie);
}

void remove(Exiv2::XmpData& xmp, const char* key) {
    const auto found = xmp.findKey(Exiv2::XmpKey(key));
    if (found != xmp.end()) xmp.erase(found);
}

void put_subjects(Exiv2::XmpData& xmp, const std::vector<std::string>& ours) {
    auto subjects = subjects_in(xmp);
    std::erase_if(subjects,
                  [](const std::string& subject) { return subject.starts_with(kOwnSubject); });
    subjects.insert(subjects.end(), ours.begin(), ours.end());
    remove(xmp, kSubjects);
    if (subjects.empty()) return;
    Exiv2::XmpArrayValue bag(Exiv2::xmpBag);
    for (const auto& subject : subjects)
        bag.read(subject);
    xmp.add(Exiv2::XmpKey(kSubjects), &bag);
}

void put_description(Exiv2::XmpData& xmp, const std::string& description) {
    const auto tool = text_at(xmp, kTool);
    const bool is_ours = tool == kOurTool || description_in(xmp).empty();
    if (!is_ours) return;
    remove(xmp, kDescription);
    if (!description.empty()) {
        Exiv2::LangAltValue value;
        value.read("lang=x-default " + description);
        xmp.add(Exiv2::XmpKey(kDescription), &value);
    }
    if (tool.empty()) put_text(xmp, kTool, kOurTool);
}

// "52,30.2500N", as the EXIF schema of XMP writes degrees and minutes.
std::string degrees_text(double degrees, char positive, char negative) {
    const double size = std::abs(degrees);
    const double whole = std::floor(size);
    char text[48];
    std::snprintf(text, sizeof text, "%.0f,%.6f%c", whole, (size - whole) * 60,
                  degrees < 0 ? negative : positive);
    return text;
}

void put_place(Exiv2::XmpData& xmp, const std::optional<Place>& place) {
    for (auto at = xmp.begin(); at != xmp.end();)
        at = at->key().starts_with("Xmp.exif.GPS") ? xmp.erase(at) : std::next(at);
    if (!place) return;
    put_text(xmp, "Xmp.exif.GPSLatitude", degrees_text(place->latitude, 'N', 'S'));
    put_text(xmp, "Xmp.exif.GPSLongitude", degrees_text(place->longitude, 'E', 'W'));
    if (!place->altitude_m) return;
    const auto centimetres = std::llround(std::abs(*place->altitude_m) * 100);
    put_text(xmp, "Xmp.exif.GPSAltitude", std::to_string(centimetres) + "/100");
    put_text(xmp, "Xmp.exif.GPSAltitudeRef", *place->altitude_m < 0 ? "1" : "0");
}

} // namespace

Result<Sidecar> read_xmp(std::string_view packet, const Lie& lie) {
    auto xmp = decoded(packet);
    if (!xmp) return xmp.failure();
    Sidecar sidecar;
    sidecar.description = description_in(*xmp);
    for (auto& subject : subjects_in(*xmp))
        if (subject.starts_with(kOwnSubject)) sidecar.subjects.push_back(std::move(subject));
    for (std::size_t number = 1; number <= regions_in(*xmp); ++number)
        if (auto box = box_in(*xmp, item(number), lie);
            box && box->description.starts_with(kOwnBox))
            sidecar.boxes.push_back(std::move(*box));
    return sidecar;
}

Result<std::string> with_sidecar(std::string_view packet, const Sidecar& sidecar, const Lie& lie) {
    auto xmp = decoded(packet);
    if (!xmp) return xmp.failure();
    try {
        put_subjects(*xmp, sidecar.subjects);
        put_description(*xmp, sidecar.description);
        put_regions(*xmp, sidecar.boxes, lie);
        put_place(*xmp, sidecar.place);
        std::string made;
        if (Exiv2::XmpParser::encode(made, *xmp,
                                     Exiv2::XmpParser::omitPacketWrapper |
                                         Exiv2::XmpParser::useCompactFormat) == 0)
            return made + '\n';
    } catch (const Exiv2::AnyError& error) {
        return Failure{FailureKind::io, "could not be made into XMP", error.what()};
    }
    return Failure{FailureKind::io, "could not be made into XMP"};
}

} // namespace fettle::photos
