// A book's blocks as strips from the top downwards: one line of text, a row of a table, a row of
// photos with their captions. A strip is never broken; pages are broken between strips. For the
// files book_*.cpp of this room alone.
#pragma once

#include "desk/book_layout.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace fettle::desk {

struct Strip {
    double height = 0;
    double before = 0;            // room above it; none at the top of a page
    bool keep = false;            // with the next one
    bool whole_width = false;     // goes into the narrow column as well
    bool in_sheet = false;        // a line beside it shows where the worked sheet goes
    std::vector<Placed> placed{}; // from the strip's own top
    std::vector<Placed> aside{};  // in the narrow column, beside it and what follows
    double aside_height = 0;
    std::optional<std::size_t> head{}; // of the table it is a row of: repeated on the next page
    std::optional<Bookmark> bookmark{};
    std::vector<std::string> anchors{};
};

struct Strips {
    std::vector<Strip> strips;
    std::vector<Strip> heads; // of tables
};

// The strips of one chapter, its title among them, handed over by and by, together with all heads
// so far: whenever none of them is kept with one to come. A chapter of thousands of entries is
// never there as strips whole.
using TakeStrips = std::function<void(const Strips&)>;
void each_strips(const Chapter& chapter, const BookContent& content, Typesetter& types,
                 const TakeStrips& take);

// Inside: what the files share.
class StripMaker {
  public:
    StripMaker(const BookContent& content, Typesetter& types) : content_(content), types_(types) {}
    void chapter_title(const Chapter& chapter);
    void add(const Block& block);
    void hand_over(const TakeStrips& take);
    void end(const TakeStrips& take);

  private:
    struct Column {
        double left = grid::kBody, width = grid::kBodyWidth;
    };
    struct Said {
        std::string text;
        Type type;
        Column column;
        std::string_view tag = "P";
        double before = 0;
        bool together = false; // on one page, whatever its length
        Spans spans = {};
    };
    // Gives the index of its first strip.
    std::size_t text(const Said& said);
    void add(const Words& words);
    void add(const Written& written);
    void blocks(const std::vector<TextBlock>& all, const Column& column, bool in_quote);
    void runs(const TextBlock& block, const Column& column, double before);
    void quote(const TextBlock& block, const Column& column, double before);
    void item(const TextBlock& block, const Column& column);
    void add(const Title& title);
    void add(const Aside& aside);
    void add(const Facts& facts);
    void add(const TableOf& table);
    void add(const Shots& shots);
    void add(const BeforeAfter& pair);
    void add(const Notice& notice);
    void add(const Drawing& drawing);
    void add(const SheetEdge& edge);
    void row_of_photos(const std::vector<Shot>& row, double most_tall, bool keep_labels);
    double aspect_of(const Shot& shot) const;
    Strip& push(Strip strip);
    void end_aside();

    const BookContent& content_;
    Typesetter& types_;
    Strips made_;
    bool in_sheet_ = false;
    std::optional<Strip> waiting_; // an aside for the next strip
    double next_before_ = 0;
};

// A text in place, `count` lines of it.
TextAt text_at(std::string text, const Type& type, Typesetter::Place place,
               std::string_view tag = "P");
// The next line of the grid at or below.
double on_grid(double height);

// The strips of a table, its head first when it has one. (book_tables.cpp)
struct TableStrips {
    std::optional<Strip> head;
    std::vector<Strip> rows;
    bool whole_width = false;
};
TableStrips table_strips(const TableOf& table, Typesetter& types, bool in_sheet);

} // namespace fettle::desk
