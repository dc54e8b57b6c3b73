// Draws one page of a book: the same strokes and letters into a PDF and into the picture that the
// window shows. Whoever calls it has the photos.
#pragma once

#include "desk/book_layout.h"

#include <functional>

namespace fettle::desk {

// Draws a photo into its box, or says in it that it cannot.
using PhotoPen = std::function<void(cairo_t*, const PhotoAt&)>;

// `pen` in millimetres. Structure tags and links go to where they mean something: into a PDF.
void draw_page(cairo_t* pen, const BookPage& page, Typesetter& types, const PhotoPen& photo);

// For those who draw photos: a frame with a sentence in it.
void draw_missing(cairo_t* pen, const Box& box, const std::string& said, Typesetter& types);
// The largest box of that shape within, in the middle of it.
Box within(const Box& box, double width, double height);

} // namespace fettle::desk
