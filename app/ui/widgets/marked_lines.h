// Runs of marked text set in lines of one width: each in its face, on one foot, broken at blanks; a
// word longer than a line is broken somewhere. A line with letters that are written from the right
// is set in their order (scripts.h). Letters that the strong and the emphasised face lack are made
// heavier and slanted from those of the body.
#pragma once

#include "base/marked_text.h"
#include "ui/frame/page.h"

#include <string>
#include <string_view>
#include <vector>

struct ImDrawList;
struct ImFont;

namespace fettle::ui {

// Words of one line that lead somewhere.
struct NameInLine {
    const TextRun* run = nullptr;
    std::string words;
    Rect rect;
};

class MarkedLines {
  public:
    // From the upper left corner, all in pixels. Without a list to draw into, what is set is only
    // measured.
    MarkedLines(const Page& page, ImDrawList* into, float left, float top, float width);

    // The runs of one block, which must outlive this. Answers the height.
    float set(const TextBlock& block);
    const std::vector<NameInLine>& names() const { return names_; }

  private:
    struct Piece {
        const ImFont* font = nullptr;
        std::string_view text;
        const TextRun* run = nullptr;
        bool heavier = false, slanted = false; // than the letters of the font are
        float width = 0;
        float left = 0; // in its line
        bool like(const Piece& other) const {
            return font == other.font && run == other.run && heavier == other.heavier &&
                   slanted == other.slanted;
        }
    };

    bool large() const { return block_->kind == TextBlock::Kind::heading && block_->level == 1; }
    const ImFont& face_of(const TextRun& run) const;
    Piece piece_of(const TextRun& run, unsigned letter, std::string_view sign) const;
    void add(const TextRun& run);
    void add_to_word(const Piece& sign);
    void end_word();
    void put(Piece piece);
    void place(Piece piece, std::string_view text);
    void end_line();
    void draw_from_right();
    void draw(const Piece& piece, std::string_view text);
    void add_name(const Piece& piece, std::string_view text);

    const Page& page_;
    ImDrawList* into_;
    float left_, top_, width_;
    const TextBlock* block_ = nullptr;
    const ImFont* usual_ = nullptr; // whose lines all stand on
    std::vector<Piece> word_, placed_;
    std::vector<NameInLine> names_;
    float x_ = 0, y_ = 0, line_ = 0, blank_ = 0;
};

} // namespace fettle::ui
