// A workshop in which a photo is opened large on the Photos screen.
#pragma once

#include "ui/screens/photos/photos.h"
#include "ui/workshop.h"

namespace fettle::ui::testing {

struct PhotoBench : Workshop {
    PhotosState photos;

    // `mark`: the mark it is opened at; 0: none.
    Driver open(PhotoId id, std::int64_t mark = 0) {
        lead_to(photos, {"photos", id.value, mark});
        return drive([this](Page& page) { draw_photos(page, context, photos); });
    }
};

} // namespace fettle::ui::testing
