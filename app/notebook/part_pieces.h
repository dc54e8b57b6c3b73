// Lots of which some pieces are used or that are divided in two, and assemblies that are split into
// their pieces and put together again. Pieces are parts with tags of their own; whatever is within
// an assembly that is together goes where it goes. All acts can be undone.
#pragma once

#include "notebook/parts.h"

namespace fettle {

// Marks so many more pieces of a lot as used, in their place; a negative number takes some back.
// Refused: more than are at hand, taking back more than are used.
Done use_pieces(Notebook& notebook, PartId lot, int pieces);

// Puts so many pieces of a lot, neither used nor on a consignment, into a bag of their own with
// another tag; blank: the lot's with a number. It takes over all that is known of the lot; the cost
// stays with that. Gives the new one. Refused: fewer than 1, all of them, more than are free, a tag
// in use.
Result<Part> divide_lot(Notebook& notebook, PartId lot, int pieces, const std::string& tag = {});

struct NewPiece {
    std::string name;
    int quantity = 1;
    std::string tag; // blank: the assembly's with a number, "D1-2"
};
// "crown wheel bolt", "10 x crown wheel bolt", "PN = bevel pinion" with its tag: how a new piece is
// typed.
Result<NewPiece> parse_piece(std::string_view text);

// Splits an assembly that is at hand: it lies in its pieces from now on. New pieces take over its
// vehicle, origin, maker, condition, decision, place, from whom and since when, the cost stays with
// it; those of an earlier time are its pieces still. Gives all its pieces. Refused: split already,
// out or on its way, a lot, no pieces.
Result<std::vector<Part>> split_part(Notebook& notebook, PartId assembly,
                                     const std::vector<NewPiece>& pieces, Day on);

// Puts it together from all its pieces and the further ones named, which become its pieces; its
// condition becomes that of the piece least far along. Refused with a sentence: neither split nor
// further pieces named; itself or a further piece out; a piece out, lost, scrap or split itself; a
// further one that is a piece already, or holds the assembly.
Done join_part(Notebook& notebook, PartId assembly, Day on,
               const std::vector<PartId>& further = {});

// Takes one piece out of its assembly, which stays as it is. Refused: a piece of nothing, one that
// is away with its assembly or by itself.
Done take_out_piece(Notebook& notebook, PartId piece);

} // namespace fettle
