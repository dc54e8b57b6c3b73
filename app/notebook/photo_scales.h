// What a length or a rectangle in a photo is in truth, and what was measured by it. The notebook
// keeps both as JSON and knows nothing of pixels; photos/picture_measure.h reads them.
#pragma once

#include "notebook/notebook.h"

#include <optional>
#include <string>

namespace fettle {

struct PhotoScale {
    PhotoId photo;
    std::string known;           // a JSON object
    std::string measured = "[]"; // a JSON list
    bool operator==(const PhotoScale&) const = default;
};

// None: nothing has been set for the photo.
Result<std::optional<PhotoScale>> scale_of_photo(const Notebook& notebook, PhotoId photo);
// Sets or overwrites it, as an act of these words. Fails with not_found for an unknown photo, with
// invalid for what is no JSON.
Done keep_scale(Notebook& notebook, const PhotoScale& scale, const std::string& words);
Done remove_scale(Notebook& notebook, PhotoId photo);

} // namespace fettle
