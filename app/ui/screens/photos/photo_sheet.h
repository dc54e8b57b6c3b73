// The sheet of photos below the acts: heads of spells and thumbnails, of which only those in sight
// are drawn and fetched; choosing by pointer and keyboard.
#pragma once

#include "ui/screens/photos/photos.h"

namespace fettle::ui {

void draw_photo_sheet(Page& page, Context& context, PhotosState& state, const PhotoList& list);

// The chosen photos in the order of time; with none chosen, the one under the keyboard's frame.
std::vector<PhotoId> photos_acted_on(const PhotosState& state);
// Chooses all of the spell under the keyboard's frame.
void choose_spell(PhotosState& state, const PhotoList& list);

} // namespace fettle::ui
