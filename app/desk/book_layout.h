// The pages of a book: what stands where on them, before a pen draws it. Made of its content alone,
// without a pixel of a photo, so that a book of hundreds of pages is laid out in a moment and any
// page can be drawn by itself. Millimetres from the top left corner of an A4 page.
//
// Two columns: what belongs beside in the narrow one, what is told in the wide one; photos and wide
// tables go over both. Everything stands on lines of one grid.
#pragma once

#include "calc/plot.h"
#include "desk/book_content.h"
#include "desk/pdf.h"
#include "desk/typesetter.h"

#include <memory>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fettle::desk {

namespace grid {
inline constexpr double kPageWidth = 210, kPageHeight = 297;
inline constexpr double kLeft = 20, kWidth = 170;
inline constexpr double kAside = 40;                           // the narrow column
inline constexpr double kBody = 66;                            // left of the wide one
inline constexpr double kBodyWidth = kLeft + kWidth - kBody;   // 124
inline constexpr double kStep = 2.4;                           // half a line
inline constexpr double kTop = 26, kFoot = kTop + 103 * kStep; // 273.2
} // namespace grid

struct TextAt {
    std::shared_ptr<const std::string> text;
    Type type;
    Typesetter::Place place;
    std::string_view tag; // of the document's structure: "H1", "P"; empty: none
    std::shared_ptr<const std::string> leads_to = {}; // an anchor; nothing: nowhere
    std::shared_ptr<const Spans> spans = {};          // nothing: all of it in one face
};
struct PhotoAt {
    PhotoId photo{};
    std::optional<Region> part;
    Box box;
    std::string shows;
};
struct ChartAt {
    std::shared_ptr<const calc::Plot> plot;
    Box box;
    double units = 1; // of the plot's own, a millimetre
    double text_height = 0;
    std::string shows;
};
struct RuleAt {
    double left = 0, top = 0, right = 0, bottom = 0;
    double strength = 0.15;
    Colour colour = kRule;
};
using Placed = std::variant<TextAt, PhotoAt, ChartAt, RuleAt>;

struct Anchor {
    std::string name;
    double top = 0;
};

struct BookPage {
    std::vector<Placed> placed;
    std::vector<Anchor> anchors;
};

struct Bookmark {
    std::string title;
    int level = 1;        // 1: a chapter
    std::size_t page = 0; // counted from 0
    double top = 0;
};

struct BookLayout {
    std::string title, subject; // of the document
    std::vector<BookPage> pages;
    std::vector<Bookmark> bookmarks;
};

BookLayout lay_out(const BookContent& content, Typesetter& types);
// The same, but each chapter is emptied once it stands on pages: of thousands of entries the
// content and the pages together take hundreds of megabytes. Pages are drawn without the chapters.
BookLayout lay_out_and_empty(BookContent& content, Typesetter& types);

} // namespace fettle::desk
