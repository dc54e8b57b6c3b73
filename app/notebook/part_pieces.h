// Lots of which some pieces are used, and assemblies that are split into their pieces and put
// together again. Pieces are parts with tags of their own; whatever is within an assembly that is
// together goes where it goes. All acts can be undone.
#pragma once

#include "notebook/parts.h"

namespace fettle {

// Marks so many more pieces of a lot as used, in their place; a negative number takes some back.
// Refused: more than are at hand, taking back more than are used.
Done use_pieces(Notebook& notebook, PartId lot, int pieces);

struct NewPiece {
    std::string name;
    int quantity = 1;
    std::string tag; // blank: the assembly's with a number, "D1-2"
};
// "crown wheel bolt", "10 x crown wheel bolt": how a new piece is typed.
Result<NewPiece> parse_piece(std::string_view text);

// Splits an assembly that is at hand: it lies in its pieces from now on. New pieces take over its
// vehicle, origin, condition, decision, place, from whom and since when; those of an earlier time
// are its pieces still. Gives all its pieces. Refused: split already, out or on its way, a lot, no
// pieces.
Result<std::vector<Part>> split_part(Notebook& notebook, PartId assembly,
                                     const std::vector<NewPiece>& pieces, Day on);

// Puts it together from all its pieces; its condition becomes that of the piece least far along.
// Refused with a sentence: it is not split, a piece is out, lost, scrap, used or split itself.
Done join_part(Notebook& notebook, PartId assembly, Day on);

} // namespace fettle
