// Tag cards to be printed, cut out and tied or taped to parts: a QR code that take-in reads in any
// photo of it, the tag in large type and the part's name. A PDF of whole sheets with cut marks.
// Knows no notebook.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <string>
#include <vector>

namespace fettle::desk {

struct TagCard {
    std::string tag;
    std::string name; // of the part; wrapped, and cut short where it does not fit
};

enum class Paper { a4, letter };
enum class CardSize { small, medium, large };

struct CardMeasures { // all in millimetres
    const char* name;
    double width, height;
    double code; // side of the QR code with its light border
};
// Small is for bagged bits, large for a photo of a whole axle: its code is read from further away.
const CardMeasures& measures_of(CardSize size);
struct PaperMeasures {
    const char* name;
    double width, height;
};
const PaperMeasures& measures_of(Paper paper);

// Refused (invalid) with the list of what is accepted.
Result<Paper> paper_called(const std::string& name);
Result<CardSize> card_size_called(const std::string& name);

// How many cards stand side by side and one below the other on a sheet.
struct Grid {
    int columns = 0, rows = 0;
    double left = 0, top = 0; // of the first card, in millimetres
};
Grid grid_of(Paper paper, CardSize size);

// Writes all cards, in their order, and gives the number of sheets. The file appears when it is
// complete. Fails with invalid for no cards or a tag that is none, and with io.
Result<int> write_tag_cards(const std::filesystem::path& file, const std::vector<TagCard>& cards,
                            Paper paper, CardSize size);

} // namespace fettle::desk
