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

Result<int> parse_pieces(const std::string& typed) {
    if (const auto pieces = whole_number(typed)) return *pieces;
    return Failure{FailureKind::invalid,
                   fettle::quoted(typed) +
                       " is no number of pieces: a whole number is accepted, such as 7."};
}

Result<Report> use(const Call& call, const UseWish& wish) {
    const auto pieces = parse_pieces(wish.pieces);
    if (!pieces) return pieces.failure();
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

struct DivideWish {
    std::string tag, pieces, new_tag;
};

void declare_divide(CLI::App& verb, DivideWish& wish) {
    verb.add_option("TAG", wish.tag, "The lot")->required();
    verb.add_option("N", wish.pieces, "How many go into a bag of their own")->required();
    verb.add_option("--tag", wish.new_tag, "Its tag; without it the lot's with a number")
        ->option_text("TAG");
    verb.footer("The new bag takes over all that is known of the lot; the cost stays with that.\n"
                "JSON: a list of the two, {tag, quantity, used, left}.");
}

Result<Report> divide(const Call& call, const DivideWish& wish) {
    auto pieces = parse_pieces(wish.pieces);
    if (!pieces) return pieces.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    auto bag = divide_lot(*notebook, part->id, *pieces, wish.new_tag);
    if (!bag) return bag.failure();
    Columns columns;
    Json json = Json::array();
    for (const PartId id : {part->id, bag->id}) {
        auto one = part_by_id(*notebook, id);
        if (!one) return one.failure();
        columns.row(
            {one->tag, one->name,
             std::to_string(one->left()) + " of " + std::to_string(one->quantity) + " left"});
        json.push_back(Json{{"tag", one->tag},
                            {"quantity", one->quantity},
                            {"used", one->used},
                            {"left", one->left()}});
    }
    return Report{columns.text(), std::move(json)};
}

struct AssemblyWish {
    std::string tag, on;
    std::vector<std::string> pieces;
};

void declare_assembly(CLI::App& verb, AssemblyWish& wish) {
    verb.add_option("TAG", wish.tag, "The assembly")->required();
    verb.add_option("--on", wish.on, "The day; without it today")->option_text("DATE");
    verb.footer(
        "JSON: {tag, split, condition, pieces: a list of {tag, name, quantity, condition}}.");
}

void declare_split(CLI::App& verb, AssemblyWish& wish) {
    declare_assembly(verb, wish);
    verb.add_option("PIECE", wish.pieces,
                    "What it comes apart into: a name, \"10 x crown wheel bolt\" for a lot, \"PN = "
                    "pinion\" to give the tag; pieces of an earlier time are there still");
}

void declare_join(CLI::App& verb, AssemblyWish& wish) {
    declare_assembly(verb, wish);
    verb.add_option("PIECE", wish.pieces,
                    "Tags of further parts that become its pieces; its own go in anyhow");
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
    std::vector<PartId> further;
    for (const auto& tag : wish.pieces) {
        auto piece = part_tagged(*notebook, tag);
        if (!piece) return piece.failure();
        further.push_back(piece->id);
    }
    if (auto done = join_part(*notebook, part->id, *on, further); !done) return done.failure();
    return assembly_report(*notebook, part->id);
}

struct TakeOutWish {
    std::string tag;
};

void declare_take_out(CLI::App& verb, TakeOutWish& wish) {
    verb.add_option("PIECE", wish.tag, "The tag of the piece")->required();
    verb.footer("JSON: of the assembly, as `part join`.");
}

Result<Report> take_out_verb(const Call& call, const TakeOutWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto piece = part_tagged(*notebook, wish.tag);
    if (!piece) return piece.failure();
    if (auto out = take_out_piece(*notebook, piece->id); !out) return out.failure();
    return assembly_report(*notebook, piece->within);
}

} // namespace

void add_part_pieces(Line& line, CLI::App& group) {
    add_verb(line, group, "use", "Mark pieces of a lot as used", declare_use, use);
    add_verb(line, group, "divide", "Put pieces of a lot into a bag of their own", declare_divide,
             divide);
    add_verb(line, group, "split", "Split an assembly into its pieces", declare_split, split_verb);
    add_verb(line, group, "join", "Put an assembly together from its pieces", declare_join,
             join_verb);
    add_verb(line, group, "take-out", "Take one piece out of its assembly", declare_take_out,
             take_out_verb);
}

} // namespace fettle::cli
