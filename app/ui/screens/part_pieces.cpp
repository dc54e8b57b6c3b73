// On the page of a part: how many of a lot are used, the pieces of an assembly, splitting it and
// putting it together.
#include "base/text.h"
#include "base/whole_number.h"
#include "ui/acts.h"
#include "ui/fields.h"
#include "ui/flow.h"
#include "ui/screens/part_page.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

constexpr int kLines = 4;

Result<int> read_count(const std::string& typed) {
    if (const auto pieces = whole_number(typed)) return *pieces;
    return Failure{FailureKind::invalid,
                   fettle::quoted(typed) +
                       " is no number of pieces: a whole number is accepted, such as 7; -1 takes "
                       "one back."};
}

void draw_lot(Page& page, Context& context, PartPageState& state, const Part& part) {
    const std::string said = std::to_string(part.quantity) + " pieces, " +
                             std::to_string(part.used) + " used, " + std::to_string(part.left()) +
                             " left";
    words_beside(page, said);
    note(page, "part.lot", said);
    const FieldChange more = text_field(page, "part.use", state.pieces_used,
                                        {.label = "so many more are used, then Enter",
                                         .hint = "7",
                                         .error = state.pieces_trouble,
                                         .width = 240});
    if (more.edited) state.pieces_trouble.clear();
    if (!more.entered) return;
    const auto pieces = read_count(state.pieces_used);
    const Done used = pieces ? use_pieces(context.book, part.id, *pieces) : Done(pieces.failure());
    state.pieces_trouble = used ? std::string() : used.failure().sentence;
    if (used) {
        context.went_well(used);
        state.pieces_used.clear();
    }
}

void split(Context& context, PartPageState& state, const Part& part) {
    std::vector<NewPiece> pieces;
    for (const auto line : fettle::split(state.pieces_typed, '\n')) {
        if (trim(line).empty()) continue;
        auto piece = parse_piece(line);
        if (!piece) {
            state.pieces_trouble = piece.failure().sentence;
            return;
        }
        pieces.push_back(std::move(*piece));
    }
    const auto done = split_part(context.book, part.id, pieces, today());
    state.pieces_trouble = done ? std::string() : done.failure().sentence;
    if (!done) return;
    context.went_well(done);
    state.splitting = false;
    state.pieces_typed.clear();
}

void draw_splitting(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    const FieldChange typed =
        text_area(page, "part.pieces.typed", state.pieces_typed, kLines,
                  {.label = facts.pieces.empty() ? "what it comes apart into, a line each"
                                                 : "further pieces, a line each; those above are "
                                                   "there still",
                   .hint = "crown wheel\n10 x crown wheel bolt",
                   .error = state.pieces_trouble});
    if (typed.edited) state.pieces_trouble.clear();
    if (button(page, "part.pieces.split", "split it", {.weight = Weight::next}))
        split(context, state, facts.part);
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "part.pieces.leave", "leave it together", {.weight = Weight::quiet})) {
        state.splitting = false;
        state.pieces_trouble.clear();
    }
}

void piece_links(Page& page, Context& context, const PartFacts& facts) {
    Flow flow(page, Measure::kGap);
    for (const Part& piece : facts.pieces) {
        std::string said = piece.name;
        if (piece.quantity > 1) said += " × " + std::to_string(piece.quantity);
        said += ", " + std::string(word(piece.condition));
        flow.place(width_of(page, piece.tag) + width_of(page, said) + page.px(48));
        if (tag_chip(page, "part.piece." + piece.tag, piece.tag))
            context.go = Place{"parts", piece.id.value};
        ImGui::SameLine(0, page.px(Measure::kStep));
        words_beside(page, said, piece.condition == Condition::scrap ? Role::red_lead : Role::ink);
    }
}

// A part that is there already becomes a piece: another in the place of one that is scrap.
void put_in(Page& page, Context& context, PartPageState& state, const Part& assembly) {
    const FieldChange tag = text_field(page, "part.pieces.in", state.pieces_typed,
                                       {.label = "put another part in: its tag, then Enter",
                                        .hint = "R6",
                                        .error = state.pieces_trouble,
                                        .width = 320});
    if (tag.edited) state.pieces_trouble.clear();
    if (!tag.entered || trim(state.pieces_typed).empty()) return;
    const auto put =
        set_part_field(context.book, std::string(trim(state.pieces_typed)), "within", assembly.tag);
    state.pieces_trouble = put ? std::string() : put.failure().sentence;
    if (put) {
        context.went_well(put);
        state.pieces_typed.clear();
    }
}

void draw_assembly(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    const Part& part = facts.part;
    const std::string said = part.split_on ? "in its pieces since " + to_words(*part.split_on)
                             : facts.pieces.empty() ? std::string()
                                                    : "together, of these pieces";
    if (!said.empty()) {
        words_beside(page, said, part.split_on ? Role::brass : Role::ink);
        note(page, "part.assembly", said);
    }
    piece_links(page, context, facts);
    if (state.splitting) {
        draw_splitting(page, context, state, facts);
        return;
    }
    if (part.split_on) {
        put_in(page, context, state, part);
        if (button(page, "part.pieces.join", "put it together", {.weight = Weight::plain})) {
            const Done joined = join_part(context.book, part.id, today());
            state.pieces_trouble = joined ? std::string() : joined.failure().sentence;
            if (joined) context.went_well(joined);
        }
    } else if (button(page, "part.pieces.begin", "split it into its pieces",
                      {.weight = Weight::quiet})) {
        state.splitting = true;
        state.pieces_trouble.clear();
    }
}

} // namespace

void draw_pieces(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    const Part& part = facts.part;
    if (part.within) {
        words_beside(page, "a piece of", Role::pencil);
        ImGui::SameLine(0, page.px(Measure::kStep));
        if (tag_chip(page, "part.within", part.within_tag))
            context.go = Place{"parts", part.within.value};
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, "part.within.out", "take it out", {.weight = Weight::quiet}))
            context.went_well(set_part_field(context.book, part.tag, "within", ""));
    }
    if (part.quantity > 1)
        draw_lot(page, context, state, part);
    else if (part.condition != Condition::scrap || part.split_on)
        draw_assembly(page, context, state, facts);
}

} // namespace fettle::ui
