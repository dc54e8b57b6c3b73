// The options by which verbs choose photos: --part, --from, --to.
#pragma once

#include "cli/verb.h"
#include "notebook/photos.h"

namespace fettle::cli {

struct WhichPhotos {
    std::string part, from, to;
};

void add_which_photos(CLI::App& verb, WhichPhotos& which);
Result<PhotoFilter> filter_of(const Notebook& notebook, const WhichPhotos& which);

} // namespace fettle::cli
