// A book as a folder that opens from disk without a network: index.html and its photos. Whatever a
// user typed stands in it as text. No scripts.
#pragma once

#include "desk/book_pdf.h"

namespace fettle::desk {

// Makes the folder, or writes over a book that stands in it. Fails with refused where the folder
// holds something else, with io, and with cancelled when it was stopped: then no page leads to the
// photos that were copied.
Result<BookFileReport> write_book_html(const BookContent& content,
                                       const std::filesystem::path& folder,
                                       const BookFileWish& wish);

// Letters that mean something to HTML, written so that they mean themselves.
std::string escaped_html(std::string_view text);

} // namespace fettle::desk
