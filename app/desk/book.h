// The build book of a notebook, the dossier of a part or a consignment, and what happened between
// two days: which of it is wanted, and the content made of it (book_content.h).
#pragma once

#include "base/date.h"
#include "desk/book_content.h"
#include "notebook/notebook.h"

#include <set>

namespace fettle::desk {

enum class BookPart {
    glance,
    photos,
    worked,
    working,
    charts,
    pairs,
    parts,
    marks,
    sent_out,
    costs,
    credits,
    open_points
};
// Its word, and all of them in their order: "before and after" is `pairs`.
std::string_view word(BookPart part);
const std::vector<BookPart>& all_book_parts();
// Refused (invalid) with the list.
Result<BookPart> book_part_called(const std::string& word);

enum class BookOrder { by_date, by_group };

struct BookWish {
    std::optional<Day> from, to; // inclusive: of the entries, and of what else has a day
    std::string vehicle;         // by name; empty: the notebook's first
    PartId part{};               // its dossier alone
    ConsignmentId consignment{}; // its dossier alone
    BookOrder order = BookOrder::by_date;
    std::set<BookPart> without;

    bool with(BookPart wanted) const { return !without.contains(wanted); }
};

// Fails with not_found for a vehicle, part or consignment that is not there, and with refused where
// `from` lies behind `to`.
Result<BookContent> book_content(const Notebook& notebook, const BookWish& wish);

// Between two days, for telling others: entries, what parts have come to, tasks done, what went out
// and came back.
Result<BookContent> content_since(const Notebook& notebook, const BookWish& wish);

} // namespace fettle::desk
