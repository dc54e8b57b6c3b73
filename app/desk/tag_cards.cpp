#include "desk/tag_cards.h"

#include "base/tag.h"
#include "base/text.h"
#include "desk/pdf.h"

#include <BarcodeFormat.h>
#include <BitMatrix.h>
#include <MultiFormatWriter.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr double kSheetMargin = 8; // what printers leave white
constexpr double kCutMark = 2.5, kBorder = 2.5, kHole = 5;
constexpr int kQuiet = 4;   // light modules around a code, ISO/IEC 18004, 5.3.8
constexpr int kQuarter = 5; // of zxing's eight levels: a quarter of the code may be covered (Q)
constexpr const char* kFont = "DejaVu Sans";

constexpr CardMeasures kCards[] = {
    {"small", 60, 27, 22}, {"medium", 90, 42, 34}, {"large", 120, 62, 52}};
constexpr PaperMeasures kPapers[] = {{"a4", 210, 297}, {"letter", 215.9, 279.4}};

template <class E, std::size_t count, class Measures>
Result<E> called(const Measures (&all)[count], const std::string& noun, const std::string& name) {
    std::vector<std::string> names;
    for (std::size_t at = 0; at < count; ++at) {
        if (same_but_for_case(name, all[at].name)) return static_cast<E>(at);
        names.emplace_back(all[at].name);
    }
    return Failure{FailureKind::invalid, fettle::quoted(name) + " is no " + noun +
                                             ": accepted are " + join(names, ", ") + "."};
}

// Draws cards with millimetres as the unit.
class Sheets {
  public:
    Sheets(cairo_t* cairo, Grid grid, const CardMeasures& card)
        : cairo_(cairo), grid_(grid), card_(card) {}

    void draw(const TagCard& card, int place) {
        const double left = grid_.left + place % grid_.columns * card_.width;
        const int row = place / grid_.columns;
        const double top = grid_.top + row * card_.height;
        draw_cut_marks(left, top);
        draw_code(card.tag, left + kBorder, top + (card_.height - card_.code) / 2);
        draw_hole(left + card_.width - kBorder - kHole / 2, top + kBorder + kHole / 2);
        draw_words(card, left, top);
    }

  private:
    void draw_cut_marks(double left, double top) {
        cairo_set_line_width(cairo_, 0.1);
        for (double x : {left, left + card_.width})
            for (double y : {top, top + card_.height}) {
                cairo_move_to(cairo_, x - kCutMark, y);
                cairo_line_to(cairo_, x + kCutMark, y);
                cairo_move_to(cairo_, x, y - kCutMark);
                cairo_line_to(cairo_, x, y + kCutMark);
            }
        cairo_set_source_rgb(cairo_, 0.55, 0.55, 0.55);
        cairo_stroke(cairo_);
    }

    // One path of all modules: printed as one ink, without hairlines in between.
    void draw_code(const std::string& tag, double left, double top) {
        const auto code = ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
                              .setMargin(0)
                              .setEccLevel(kQuarter)
                              .encode(code_of_tag(tag), 1, 1);
        const double module = card_.code / (code.width() + 2 * kQuiet);
        for (int y = 0; y < code.height(); ++y)
            for (int x = 0, end = 0; x < code.width(); x = std::max(end, x + 1)) {
                if (!code.get(x, y)) continue;
                for (end = x; end < code.width() && code.get(end, y);)
                    ++end;
                cairo_rectangle(cairo_, left + (x + kQuiet) * module, top + (y + kQuiet) * module,
                                (end - x) * module, module);
            }
        cairo_set_source_rgb(cairo_, 0, 0, 0);
        cairo_fill(cairo_);
    }

    void draw_hole(double x, double y) {
        cairo_set_line_width(cairo_, 0.1);
        cairo_arc(cairo_, x, y, kHole / 2, 0, 2 * std::numbers::pi);
        cairo_set_source_rgb(cairo_, 0.75, 0.75, 0.75);
        cairo_stroke(cairo_);
    }

    void draw_words(const TagCard& card, double card_left, double top) {
        const double left = card_left + kBorder + card_.code + kBorder;
        const double width = card_left + card_.width - kBorder - left;
        cairo_set_source_rgb(cairo_, 0, 0, 0);
        select(true);
        const double tallest = card_.height * 0.34;
        const double tag_size =
            std::min(tallest, tallest * width / std::max(width_of(card.tag, tallest), 0.1));
        cairo_set_font_size(cairo_, tag_size);
        // Below the hole, which the tie goes through.
        const double baseline =
            top + std::max(kBorder + kHole + 1, card_.height * 0.2) + tallest * 0.75;
        cairo_move_to(cairo_, left, baseline);
        cairo_show_text(cairo_, card.tag.c_str());

        select(false);
        const double size = card_.height * 0.105;
        const double line = size * 1.25;
        const double room = top + card_.height - kBorder - (baseline + line * 0.4);
        const int lines = std::max(1, static_cast<int>(room / line));
        double y = baseline + line * 1.3;
        const auto length = [&](const std::string& some) { return width_of(some, size); };
        for (const auto& words : wrapped(card.name, width, lines, length)) {
            cairo_set_font_size(cairo_, size);
            cairo_move_to(cairo_, left, y);
            cairo_show_text(cairo_, words.c_str());
            y += line;
        }
    }

    void select(bool is_bold) {
        cairo_select_font_face(cairo_, kFont, CAIRO_FONT_SLANT_NORMAL,
                               is_bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    }

    double width_of(const std::string& text, double size) {
        cairo_text_extents_t extents;
        cairo_set_font_size(cairo_, size);
        cairo_text_extents(cairo_, text.c_str(), &extents);
        return extents.x_advance;
    }

    cairo_t* cairo_;
    Grid grid_;
    const CardMeasures& card_;
};

} // namespace

const CardMeasures& measures_of(CardSize size) {
    return kCards[static_cast<std::size_t>(size)];
}

const PaperMeasures& measures_of(Paper paper) {
    return kPapers[static_cast<std::size_t>(paper)];
}

Result<Paper> paper_called(const std::string& name) {
    return called<Paper>(kPapers, "paper", name);
}

Result<CardSize> card_size_called(const std::string& name) {
    return called<CardSize>(kCards, "size of tag cards", name);
}

Grid grid_of(Paper paper, CardSize size) {
    const auto& sheet = measures_of(paper);
    const auto& card = measures_of(size);
    Grid grid;
    grid.columns = static_cast<int>((sheet.width - 2 * kSheetMargin) / card.width);
    grid.rows = static_cast<int>((sheet.height - 2 * kSheetMargin) / card.height);
    grid.left = (sheet.width - grid.columns * card.width) / 2;
    grid.top = (sheet.height - grid.rows * card.height) / 2;
    return grid;
}

Result<int> write_tag_cards(const fs::path& file, const std::vector<TagCard>& cards, Paper paper,
                            CardSize size) {
    if (cards.empty())
        return Failure{FailureKind::invalid, "There are no parts to make tag cards for."};
    for (const auto& card : cards)
        if (!is_tag(card.tag))
            return Failure{FailureKind::invalid, fettle::quoted(card.tag) + " is no tag."};
    const auto& sheet = measures_of(paper);
    const auto grid = grid_of(paper, size);
    Pdf pdf(sheet.width, sheet.height, "Tag cards");
    Sheets sheets(pdf.pen(), grid, measures_of(size));
    for (std::size_t at = 0; at < cards.size(); ++at) {
        const int place = static_cast<int>(at % std::size_t(grid.columns * grid.rows));
        if (at > 0 && place == 0) pdf.next_page();
        sheets.draw(cards[at], place);
    }
    if (auto written = pdf.write(file, "tag cards"); !written) return written.failure();
    const auto on_sheet = std::size_t(grid.columns) * grid.rows;
    return static_cast<int>((cards.size() + on_sheet - 1) / on_sheet);
}

} // namespace fettle::desk
