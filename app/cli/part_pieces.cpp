#include "cli/part_pieces.h"

#include "base/text.h"
#include "base/whole_number.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "notebook/part_pieces.h"

namespace fettle::cli {
namespace {

struct UseWish {
    std::string tag, pieces;
};

void declare_use(CLI::App& verb, UseWish& wish) {
    verb.add_option("TAG", wish.tag, "The lot")->required();
    verb.add_option("N", wish.pieces, "How many more are in their place; -2 takes two back")
        ->required();
    verb.footer("What is spoiled or given away goes off the quantity instead: `part set TAG "
                "quantity=N`.\nJSON: {tag, quantity, used, left}.");
}

Result<Report> use(const Call& call, const UseWish& wish) {
    const auto pieces = whole_number(wish.pieces);
    if (!pieces)
        return Failure{FailureKind::invalid,
                       fettle::quoted(wish.pieces) +
                           " is no number of pieces: a whole number is accepted, such as 7."};
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    if (auto used = use_pieces(*notebook, part->id, *pieces); !used) return used.failure();
    part = part_by_id(*notebook, part->id);
    if (!part) return part.failure();
    return Report{one_line(part->tag + "  " + std::to_string(part->used) + " of " +
                           std::to_string(part->quantity) + " used, " +
                           std::to_string(part->left()) + " left") +
                      '\n',
                  {{"tag", part->tag},
                   {"quantity", part->quantity},
                   {"used", part->used},
                   {"left", part->left()}}};
}

struct AssemblyWish {
    std::string tag, on;
    std::vector<std::string> pieces;
};

void declare_join(CLI::App& verb, AssemblyWish& wish) {
    verb.add_option("TAG", wish.tag, "The assembly")->required();
    verb.add_option("--on", wish.on, "The day; without it today")->option_text("DATE");
    verb.footer(
        "JSON: {tag, split, condition, pieces: a list of {tag, name, quantity, condition}}.");
}

void declare_split(CLI::App& verb, AssemblyWish& wish) {
    declare_join(verb, wish);
    verb.add_option("PIECE", wish.pieces,
                    "What it comes apart into: a name, or \"10 x crown wheel bolt\" for a lot; "
                    "pieces of an earlier time are there still");
}

Result<Report> assembly_report(const Notebook& notebook, PartId id) {
    auto part = part_by_id(notebook, id);
    if (!part) return part.failure();
    auto pieces = list_parts(notebook, {.within = id});
    if (!pieces) return pieces.failure();
    Columns columns;
    Json json = Json::array();
    for (const auto& piece : *pieces) {
        columns.row({piece.tag, piece.name,
                     piece.quantity == 1 ? "" : std::to_string(piece.quantity),
                     std::string(word(piece.condition))});
        json.push_back(Json{{"tag", piece.tag},
                            {"name", piece.name},
                            {"quantity", piece.quantity},
                            {"condition", word(piece.condition)}});
    }
    const std::string state = part->split_on ? "in pieces since " + to_words(*part->split_on)
                                             : "together, " + std::string(word(part->condition));
    return Report{one_line(part->tag + "  " + part->name + "  " + state) + '\n' + columns.text(2),
                  {{"tag", part->tag},
                   {"split", part->split_on ? Json(to_iso(*part->split_on)) : Json()},
                   {"condition", word(part->condition)},
                   {"pieces", json}}};
}

Result<Report> split_verb(const Call& call, const AssemblyWish& wish) {
    auto on = parse_day_or_today(wish.on);
    if (!on) return on.failure();
    std::vector<NewPiece> pieces;
    for (const auto& typed : wish.pieces) {
        auto piece = parse_piece(typed);
        if (!piece) return piece.failure();
        pieces.push_back(std::move(*piece));
    }
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    if (auto done = split_part(*notebook, part->id, pieces, *on); !done) return done.failure();
    return assembly_report(*notebook, part->id);
}

Result<Report> join_verb(const Call& call, const AssemblyWish& wish) {
    auto on = parse_day_or_today(wish.on);
    if (!on) return on.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    if (auto done = join_part(*notebook, part->id, *on); !done) return done.failure();
    return assembly_report(*notebook, part->id);
}

} // namespace

void add_part_pieces(Line& line, CLI::App& group) {
    add_verb(line, group, "use", "Mark pieces of a lot as used", declare_use, use);
    add_verb(line, group, "split", "Split an assembly into its pieces", declare_split, split_verb);
    add_verb(line, group, "join", "Put an assembly together from its pieces", declare_join,
             join_verb);
}

} // namespace fettle::cli
