// What the notebook knows of its photos, for other programs: XMP sidecars beside originals left in
// place, or a folder of copies with sidecars; and read back when photos are taken in.
//
// A tie to a part is the subject "fettlebook:TAG name, stage", a mark a region named by its
// reading. Where a photo was taken is told only when asked for, in copies as well.
#pragma once

#include "notebook/notebook.h"
#include "notebook/photos.h"
#include "photos/sidecar.h"

#include <functional>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::desk {

struct OutWish {
    PhotoFilter photos;             // which
    std::vector<PhotoId> only = {}; // of those; empty: all
    bool with_place = false;
    std::stop_token stop; // heeded between photos; what was written stays
    // done, total, name; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct LeftOut {
    PhotoId photo;
    std::string sentence;
};

struct OutReport {
    std::size_t written = 0; // photos
    std::vector<LeftOut> left_out;
    bool stopped = false;
};

// Writes a sidecar beside each photo that was left in place; photos on the shelf have none. What
// other programs wrote into a sidecar stays. Originals are not touched.
Result<OutReport> write_sidecars(const Notebook& notebook, const OutWish& wish);

// Copies photos and their sidecars into `folder`, which is made when missing, under their own
// names. A name that is taken gets -2, -3, ...; a copy that stands there already is left. Photos
// whose place cannot be taken out are left out, and named.
Result<OutReport> export_photos(const Notebook& notebook, const std::filesystem::path& folder,
                                const OutWish& wish);

// What is told of a photo.
Result<photos::Sidecar> sidecar_of(const Notebook& notebook, const Photo& photo, bool with_place);

struct ReadBack {
    int tied = 0;                          // to parts
    int marks = 0;                         // added
    std::vector<std::string> without_part; // tags named there that no part has
};

// Ties the photo to the parts its sidecar names, and adds the marks it has. What the notebook says
// already is left as it is.
Result<ReadBack> keep_sidecar(Notebook& notebook, PhotoId photo, const photos::Sidecar& sidecar,
                              Step step = {});

} // namespace fettle::desk
