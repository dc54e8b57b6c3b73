#include "notebook/part_pieces.h"

#include "base/tag.h"
#include "base/text.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments_within.h"
#include "notebook/rules.h"
#include "notebook/stock_within.h"

#include <charconv>

namespace fettle {
namespace {

Failure cannot(const Part& part, const std::string& act, const std::string& why) {
    return {FailureKind::refused, part.tag + " cannot be " + act + ": " + why + "."};
}

// Where the part is, when it is away; blank when it is at hand. What is packed counts as away.
Result<std::string> away_of(const Notebook& notebook, PartId part) {
    auto away = whereabouts(notebook, part);
    if (!away) return away.failure();
    if (away->empty()) return std::string();
    return away_words(away->front(), today()) + " (consignment " +
           std::to_string(away->front().consignment.value) + ")";
}

bool is_free(const Notebook& notebook, const std::string& tag) {
    return !part_tagged(notebook, tag);
}

std::string tag_for_piece(const Notebook& notebook, const std::string& assembly) {
    for (int number = 1; number < 1000; ++number) {
        const auto tag = assembly + "-" + std::to_string(number);
        if (!is_tag(tag)) break;
        if (is_free(notebook, tag)) return tag;
    }
    return {}; // add_part finds the next free one
}

Done may_split(const Notebook& notebook, const Part& part, const std::vector<NewPiece>& fresh,
               const std::vector<Part>& held) {
    if (part.split_on)
        return cannot(part, "split", "it lies in its pieces since " + to_words(*part.split_on));
    if (part.quantity > 1)
        return cannot(part, "split", "it is a lot of " + std::to_string(part.quantity));
    auto away = away_of(notebook, part.id);
    if (!away) return away.failure();
    if (!away->empty()) return cannot(part, "split", "it is " + *away);
    if (fresh.empty() && held.empty())
        return cannot(part, "split", "no pieces are named; name what it comes apart into");
    return done();
}

// Why a piece cannot go into its assembly; blank: it can.
Result<std::string> keeps_apart(const Notebook& notebook, const Part& piece, const Part& assembly) {
    auto away = away_of(notebook, piece.id);
    if (!away || !away->empty())
        return away ? Result<std::string>(piece.tag + " is " + *away) : away;
    if (piece.condition == Condition::scrap)
        return piece.tag + " is scrap; take it out of the assembly or put another in its place";
    if (piece.split_on) return piece.tag + " lies in its own pieces";
    if (piece.within && piece.within != assembly.id)
        return piece.tag + " is a piece of " + piece.within_tag + "; take it out of that first";
    return std::string();
}

constexpr const char* kJoined = "put together";

Done may_join(const Notebook& notebook, const Part& part, bool has_pieces, bool names_further) {
    if (!part.split_on && !names_further) return cannot(part, kJoined, "it is not split");
    if (!has_pieces && !names_further) return cannot(part, kJoined, "it has no pieces");
    if (part.quantity > 1)
        return cannot(part, kJoined, "it is a lot of " + std::to_string(part.quantity));
    auto away = away_of(notebook, part.id);
    if (!away) return away.failure();
    return away->empty() ? done() : Done(cannot(part, kJoined, "it is " + *away));
}

// One that is to become a piece: not the assembly itself, nor one that holds it.
Result<Part> further_piece(const Notebook& notebook, const Part& assembly, PartId id) {
    auto piece = part_by_id(notebook, id);
    if (!piece) return piece;
    if (id == assembly.id) return cannot(assembly, kJoined, "it cannot be a piece of itself");
    for (PartId at = assembly.within; at;) {
        auto holder = part_by_id(notebook, at);
        if (!holder) return holder;
        if (at == id) return cannot(assembly, kJoined, "it is within " + piece->tag + " itself");
        at = holder->within;
    }
    return piece;
}

Done add_pieces(Notebook& notebook, const Part& assembly, const std::vector<NewPiece>& fresh) {
    for (const auto& [name, quantity, tag] : fresh) {
        Part piece;
        piece.name = name;
        piece.quantity = quantity;
        piece.tag = tag.empty() ? tag_for_piece(notebook, assembly.tag) : tag;
        piece.vehicle = assembly.vehicle;
        piece.origin = assembly.origin;
        piece.maker = assembly.maker;
        piece.condition = assembly.condition;
        piece.decision = assembly.decision;
        piece.place = assembly.place;
        piece.from = assembly.from;
        piece.acquired = assembly.acquired;
        piece.within = assembly.id;
        if (auto added = add_part(notebook, piece); !added) return added.failure();
    }
    return done();
}

} // namespace

Done use_pieces(Notebook& notebook, PartId lot, int pieces) {
    auto part = part_by_id(notebook, lot);
    if (!part) return part.failure();
    const int at_hand = notebook
                            .read([&](store::Database& database) {
                                return Stocks(database).of(lot, part->quantity, part->used);
                            })
                            ->at_hand();
    if (pieces > at_hand)
        return Failure{FailureKind::refused, std::to_string(pieces) + " pieces of " + part->tag +
                                                 " cannot be used: " + std::to_string(at_hand) +
                                                 " of " + std::to_string(part->quantity) +
                                                 (at_hand == 1 ? " is" : " are") + " at hand."};
    if (pieces == 0 || part->used + pieces < 0)
        return Failure{FailureKind::invalid,
                       std::to_string(pieces) + " is no number of pieces to use: " +
                           std::to_string(part->used) + " of " + part->tag +
                           " are used, and at most as many can be taken back."};
    part->used += pieces;
    const auto words = (pieces > 0 ? "used " : "took back ") +
                       pieces_of(std::abs(pieces), part->tag) + ", " +
                       std::to_string(part->left()) + " left";
    return notebook.act(words, [&](store::Database&) { return set_part(notebook, *part); });
}

Result<Part> divide_lot(Notebook& notebook, PartId lot, int pieces, const std::string& tag) {
    auto part = part_by_id(notebook, lot);
    if (!part) return part.failure();
    const auto free = notebook.read(
        [&](store::Database& database) { return part->left() - pieces_away(database, lot); });
    if (!free) return free.failure();
    const int most = std::min(*free, part->quantity - 1);
    if (most < 1)
        return cannot(*part, "divided",
                      part->quantity == 1 ? "it is a single piece" : "no piece of it is free");
    if (pieces < 1 || pieces > most)
        return Failure{FailureKind::invalid, std::to_string(pieces) + " pieces of " + part->tag +
                                                 " cannot go into another bag: accepted are 1 to " +
                                                 std::to_string(most) + "."};
    Part bag = *part;
    bag.id = {};
    bag.tag = tag.empty() ? tag_for_piece(notebook, part->tag) : tag;
    bag.quantity = pieces;
    bag.used = 0;
    bag.cost.reset();
    part->quantity -= pieces;
    const auto words = "put " + pieces_of(pieces, part->tag) + " into a bag of their own";
    return notebook.act(words, [&](store::Database& database) -> Result<Part> {
        auto added = add_part(notebook, bag);
        if (!added) return added;
        database.run("DELETE FROM condition_steps WHERE part_id = ?", added->id);
        copy_steps(database, lot, added->id);
        if (auto less = set_part(notebook, *part); !less) return less.failure();
        return added;
    });
}

Result<NewPiece> parse_piece(std::string_view text) {
    auto said = trim(text);
    NewPiece piece;
    const auto equals = said.find('=');
    if (const std::string tag(trim(said.substr(0, equals)));
        equals != std::string_view::npos && is_tag(tag)) {
        piece.tag = tag;
        said = trim(said.substr(equals + 1));
    }
    const auto [end, error] =
        std::from_chars(said.data(), said.data() + said.size(), piece.quantity);
    std::string_view rest(end, std::size_t(said.data() + said.size() - end));
    rest = trim(rest);
    for (const std::string_view times : {"x ", "X ", "×", "*"})
        if (error == std::errc() && rest.starts_with(times)) {
            piece.name = trim(rest.substr(times.size()));
            if (piece.quantity >= 1 && !piece.name.empty()) return piece;
            return Failure{FailureKind::invalid,
                           fettle::quoted(said) + " is no piece: accepted are a name, or a whole "
                                                  "number from 1, x and a name."};
        }
    piece.quantity = 1;
    piece.name = said;
    if (piece.name.empty()) return Failure{FailureKind::invalid, "A piece has no name."};
    return piece;
}

Result<std::vector<Part>> split_part(Notebook& notebook, PartId assembly,
                                     const std::vector<NewPiece>& pieces, Day on) {
    auto part = part_by_id(notebook, assembly);
    if (!part) return part.failure();
    auto held = list_parts(notebook, {.within = assembly});
    if (!held) return held;
    if (auto fine = may_split(notebook, *part, pieces, *held); !fine) return fine.failure();
    auto split = notebook.act(
        "split " + part->tag + " into its pieces", [&](store::Database& database) -> Done {
            database.run("UPDATE parts SET split_on = ? WHERE id = ?", to_iso(on), assembly);
            return add_pieces(notebook, *part, pieces);
        });
    if (!split) return split.failure();
    return list_parts(notebook, {.within = assembly});
}

Done join_part(Notebook& notebook, PartId assembly, Day on, const std::vector<PartId>& further) {
    auto part = part_by_id(notebook, assembly);
    if (!part) return part.failure();
    auto pieces = list_parts(notebook, {.within = assembly});
    if (!pieces) return pieces.failure();
    if (auto fine = may_join(notebook, *part, !pieces->empty(), !further.empty()); !fine)
        return fine;
    for (const PartId id : further) {
        auto piece = further_piece(notebook, *part, id);
        if (!piece) return piece.failure();
        if (std::ranges::find(*pieces, id, &Part::id) == pieces->end())
            pieces->push_back(std::move(*piece));
    }
    // An assembly that was together has a condition of its own besides.
    auto condition = part->split_on ? Condition::fitted : part->condition;
    for (const Part& piece : *pieces) {
        auto why = keeps_apart(notebook, piece, *part);
        if (!why) return why.failure();
        if (!why->empty()) return cannot(*part, kJoined, *why);
        condition = std::min(condition, piece.condition);
    }
    return notebook.act("put " + part->tag + " together", [&](store::Database& database) -> Done {
        for (const Part& piece : *pieces)
            database.run("UPDATE parts SET within_id = ? WHERE id = ?", assembly, piece.id);
        database.run("UPDATE parts SET split_on = NULL WHERE id = ?", assembly);
        if (condition == part->condition) return done();
        return set_condition(notebook, assembly, condition, on);
    });
}

Done take_out_piece(Notebook& notebook, PartId id) {
    auto piece = part_by_id(notebook, id);
    if (!piece) return piece.failure();
    if (!piece->within) return cannot(*piece, "taken out", "it is not a piece of an assembly");
    auto away = away_of(notebook, id);
    if (!away) return away.failure();
    if (!away->empty())
        return cannot(*piece, "taken out of " + piece->within_tag, "it is " + *away);
    return notebook.act("took " + piece->tag + " out of " + piece->within_tag,
                        [&](store::Database& database) -> Done {
                            database.run("UPDATE parts SET within_id = NULL WHERE id = ?", id);
                            return done();
                        });
}

} // namespace fettle
