#include "notebook/part_pieces.h"

#include "base/tag.h"
#include "base/text.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
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
Result<std::string> keeps_apart(const Notebook& notebook, const Part& piece) {
    auto away = away_of(notebook, piece.id);
    if (!away || !away->empty())
        return away ? Result<std::string>(piece.tag + " is " + *away) : away;
    if (piece.condition == Condition::scrap)
        return piece.tag + " is scrap; take it out of the assembly or put another in its place";
    if (piece.split_on) return piece.tag + " lies in its own pieces";
    return std::string();
}

Done add_pieces(Notebook& notebook, const Part& assembly, const std::vector<NewPiece>& fresh) {
    for (const auto& [name, quantity, tag] : fresh) {
        Part piece;
        piece.name = name;
        piece.quantity = quantity;
        piece.tag = tag.empty() ? tag_for_piece(notebook, assembly.tag) : tag;
        piece.vehicle = assembly.vehicle;
        piece.origin = assembly.origin;
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
    return set_part(notebook, *part);
}

Result<NewPiece> parse_piece(std::string_view text) {
    const auto said = trim(text);
    NewPiece piece{.name = std::string(said)};
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

Done join_part(Notebook& notebook, PartId assembly, Day on) {
    auto part = part_by_id(notebook, assembly);
    if (!part) return part.failure();
    constexpr const char* kAct = "put together";
    if (!part->split_on) return cannot(*part, kAct, "it is not split");
    auto pieces = list_parts(notebook, {.within = assembly});
    if (!pieces) return pieces.failure();
    if (pieces->empty()) return cannot(*part, kAct, "it has no pieces");
    auto condition = Condition::fitted;
    for (const Part& piece : *pieces) {
        auto why = keeps_apart(notebook, piece);
        if (!why) return why.failure();
        if (!why->empty()) return cannot(*part, kAct, *why);
        condition = std::min(condition, piece.condition);
    }
    return notebook.act("put " + part->tag + " together", [&](store::Database& database) -> Done {
        database.run("UPDATE parts SET split_on = NULL WHERE id = ?", assembly);
        if (condition == part->condition) return done();
        return set_condition(notebook, assembly, condition, on);
    });
}

} // namespace fettle
