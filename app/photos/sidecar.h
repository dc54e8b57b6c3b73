// What stands beside a picture for other programs to read: an XMP sidecar, as plain values, and
// where it stands. Reading and making the packet itself (ISO 16684-1) is the worker's matter
// (xmp.h); Decoder hands it over.
//
// Schemas: Dublin Core (ISO 15836) for description and subjects, the regions of the Metadata
// Working Group (Guidelines for Handling Image Metadata 2.0, 5.9) for marks, and, only when asked
// for, the EXIF schema for the place.
#pragma once

#include "photos/look.h"
#include "photos/picture.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace fettle::photos {

// A box in a picture with a name, in pixels of the upright picture from its top left corner.
struct NamedBox {
    double x = 0, y = 0, w = 0, h = 0;
    std::string name;
    std::string description;
    bool operator==(const NamedBox&) const = default;
};

// Only what this program wrote or may write: what others wrote in the same sidecar stays there and
// does not appear here. Subjects and descriptions of boxes begin with kOwnSubject and kOwnBox.
struct Sidecar {
    std::string description;           // dc:description, of the default language
    std::vector<std::string> subjects; // dc:subject
    std::vector<NamedBox> boxes;       // mwg-rs:RegionList
    std::optional<Place> place;
    bool operator==(const Sidecar&) const = default;
};

inline constexpr std::string_view kOwnSubject = "fettlebook:";
inline constexpr std::string_view kOwnBox = "mark; ";

// How the picture lies in its file, which regions refer to: before it is turned upright.
struct Lie {
    Size upright;
    int orientation = 1;
};

// The sidecar beside a picture that is there: its name with .xmp for its extension, or behind it.
std::optional<std::filesystem::path> sidecar_beside(const std::filesystem::path& picture);
// Where one is to be written: the one that is there; else the name with .xmp for the extension,
// unless another picture would share it.
std::filesystem::path sidecar_to_write(const std::filesystem::path& picture);

} // namespace fettle::photos
