// A book as Markdown (CommonMark, with pipe tables) and its photos beside it, for sending to others
// or putting on a page of one's own. Whatever a user typed stands in it as text.
#pragma once

#include "desk/book_pdf.h"

namespace fettle::desk {

inline constexpr const char* kMarkdownFile = "since.md";

// Makes the folder, or writes over one it wrote before. Failures as of write_book_html.
Result<BookFileReport> write_book_markdown(const BookContent& content,
                                           const std::filesystem::path& folder,
                                           const BookFileWish& wish);

// Signs that mean something to Markdown or HTML, written so that they mean themselves.
std::string escaped_markdown(std::string_view text);

} // namespace fettle::desk
