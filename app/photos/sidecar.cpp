#include "photos/sidecar.h"

#include "base/text.h"

#include <system_error>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

fs::path behind(fs::path picture) {
    picture += ".xmp";
    return picture;
}

fs::path instead(fs::path picture) {
    return picture.replace_extension(".xmp");
}

// Whether another file beside it has its name up to the extension: a picture in two formats.
bool shares_its_name(const fs::path& picture) {
    std::error_code error;
    for (fs::directory_iterator at(picture.parent_path(), error), end; !error && at != end;
         at.increment(error)) {
        const auto& other = at->path();
        if (other.stem() == picture.stem() && other.filename() != picture.filename() &&
            lower_ascii(other.extension().native()) != ".xmp")
            return true;
    }
    return false;
}

} // namespace

std::optional<fs::path> sidecar_beside(const fs::path& picture) {
    std::error_code error;
    for (const auto& place : {behind(picture), instead(picture)})
        if (fs::is_regular_file(place, error)) return place;
    auto capital = picture;
    capital.replace_extension(".XMP");
    if (fs::is_regular_file(capital, error)) return capital;
    return {};
}

fs::path sidecar_to_write(const fs::path& picture) {
    if (auto there = sidecar_beside(picture)) return *there;
    return shares_its_name(picture) ? behind(picture) : instead(picture);
}

} // namespace fettle::photos
