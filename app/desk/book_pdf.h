// A book as PDF: A4 pages with bookmarks, linked contents, embedded fonts and its photos as JPEG
// that hold their pixels alone; tagged with headings, paragraphs and figures. And single pages as
// pictures, drawn by the same hand, for the screen.
#pragma once

#include "desk/book_content.h"
#include "desk/book_layout.h"
#include "photos/decoder.h"

#include <functional>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::desk {

// Pixels of the longer side that print sharply in the widest place of two in a row.
inline constexpr int kUsualPhotoSize = 1000;

struct BookFileWish {
    int photo_size = kUsualPhotoSize; // longest side in pixels; 0: as they are
    std::stop_token stop;             // heeded between photos; then nothing stays
    // done, total, what; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct BookFileReport {
    std::size_t pages = 0;               // of a PDF
    std::size_t photos = 0;              // copied into it, each once
    std::vector<std::string> unreadable; // sentences: their places say so in the book
};

// Fails with io, and with cancelled when it was stopped.
Result<BookFileReport> write_book_pdf(const BookContent& content, const std::filesystem::path& file,
                                      const BookFileWish& wish);

// A page of the layout as a picture, so many pixels high.
Result<photos::Picture> picture_of_page(const BookContent& content, const BookPage& page,
                                        int height, Typesetter& types, photos::Decoder& decoder);

} // namespace fettle::desk
