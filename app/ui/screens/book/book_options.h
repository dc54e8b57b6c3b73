// What the screen of the build book asks: what it tells, of which days, with what in it, and where
// it goes. UI thread only.
#pragma once

#include "ui/screens/book/book.h"

namespace fettle::ui {

inline constexpr float kBookOptions = 300; // the column's width

// What is asked for; a sentence when a day, a tag or a number is none.
Result<desk::BookWish> wish_of(const Notebook& book, const BookState& state);
// Differs whenever the pages might.
std::string key_of(const Notebook& book, const BookState& state);

void draw_book_options(Page& page, Context& context, BookState& state);

} // namespace fettle::ui
