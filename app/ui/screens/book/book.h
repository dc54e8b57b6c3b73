// Build book: what goes in, its pages as they will print, and the act that writes it. UI thread
// only; pages are laid out and drawn beside the window.
#pragma once

#include "desk/book.h"
#include "desk/book_layout.h"
#include "notebook/vehicles.h"
#include "photos/decoder.h"
#include "ui/beside/side_work.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/frame/textures.h"

#include <memory>
#include <set>
#include <string>
#include <vector>

namespace fettle::ui {

// A book as laid out for showing. Made on the other thread, then only read.
struct BookPages {
    desk::BookContent content;
    desk::BookLayout layout;
};
// What draws pages; used on the other thread alone, by one job after the other.
struct BookHand {
    desk::Typesetter types;
    photos::Decoder decoder;
};

// What it tells: everything, the dossier of one part or consignment, or what was done since a day.
enum class BookAbout { whole, part, consignment, since };

// What a person is in the middle of.
struct BookState {
    int about = 0;      // a BookAbout
    int vehicle = 0;    // 0: all of them, else which in the list
    int order = 0;      // by date, by group
    int photo_size = 0; // index into the sizes on the screen
    std::string from, to, out;
    std::string part, consignment; // the tag and the number of the one it is about
    PartId lead_part{};            // somebody was led here from this part
    std::set<desk::BookPart> without;
    Snapshot<std::vector<Vehicle>> vehicles;
    std::optional<Day> told_until; // as kept in the notebook; read when `since` is chosen

    BookAbout tells() const { return BookAbout(about); }
    std::size_t page = 0; // shown
    std::string error;    // of the days or the place to write to

    using Laid = Result<std::shared_ptr<const BookPages>>;
    std::shared_ptr<Coming<Laid>> laying = std::make_shared<Coming<Laid>>();
    std::string laid_for; // what it was asked for
    std::shared_ptr<const BookPages> laid;
    std::string trouble;

    std::shared_ptr<BookHand> hand;
    std::shared_ptr<Coming<Result<photos::Picture>>> drawing =
        std::make_shared<Coming<Result<photos::Picture>>>();
    std::string drawn_for;
    Texture drawn;
};

void lead_to(BookState& state, const Place& place);
void draw_book(Page& page, Context& context, SideWork& work, Surface surface, BookState& state);

} // namespace fettle::ui
