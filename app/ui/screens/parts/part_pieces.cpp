// On the page of a part: how many of a lot are used, the pieces of an assembly, splitting it and
// putting it together.
#include "base/text.h"
#include "base/whole_number.h"
#include "ui/screens/parts/part_page.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

constexpr const char* kTakeOut = "take out";
constexpr int kLines = 4;
constexpr float kCount = 280, kTag = 320;

Result<int> read_count(const std::string& typed) {
    if (const auto pieces = whole_number(typed)) return *pieces;
    return Failure{FailureKind::invalid,
                   fettle::quoted(typed) +
                       " is no number of pieces: a whole number is accepted, such as 7; -1 takes "
                       "one back."};
}

void divide(Context& context, PartPageState& state, const Part& part) {
    const auto pieces = read_count(state.divide_typed);
    const auto bag =
        pieces ? divide_lot(context.book, part.id, *pieces, std::string(trim(state.divide_tag)))
               : Result<Part>(pieces.failure());
    state.divide_trouble = bag ? std::string() : bag.failure().sentence;
    if (!bag) return;
    context.went_well(bag);
    state.divide_typed.clear();
    state.divide_tag.clear();
    context.go = Place{"parts", bag->id.value};
}

// So many into a bag with a tag of its own, and there at once.
void draw_dividing(Page& page, Context& context, PartPageState& state, const Part& part) {
    ImGui::BeginGroup();
    const FieldChange many = text_field(page, "part.divide", state.divide_typed,
                                        {.label = "so many into a bag of their own",
                                         .hint = "7",
                                         .error = state.divide_trouble,
                                         .width = kCount});
    ImGui::EndGroup();
    ImGui::SameLine(0, page.px(Measure::kGap));
    ImGui::BeginGroup();
    const FieldChange tag =
        text_field(page, "part.divide.tag", state.divide_tag,
                   {.label = "with the tag, then Enter", .hint = "the next free", .width = 200});
    ImGui::EndGroup();
    if (many.edited || tag.edited) state.divide_trouble.clear();
    if (many.entered || tag.entered) divide(context, state, part);
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
                                         .width = kCount});
    if (more.edited) state.pieces_trouble.clear();
    if (more.entered) {
        const auto pieces = read_count(state.pieces_used);
        const Done used =
            pieces ? use_pieces(context.book, part.id, *pieces) : Done(pieces.failure());
        state.pieces_trouble = used ? std::string() : used.failure().sentence;
        if (used) {
            context.went_well(used);
            state.pieces_used.clear();
        }
    }
    draw_dividing(page, context, state, part);
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
                   .hint = "crown wheel\n10 x crown wheel bolt\nPN = pinion, with the tag PN",
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

void take_out(Context& context, PartPageState& state, PartId piece) {
    const Done out = take_out_piece(context.book, piece);
    state.pieces_trouble = out ? std::string() : out.failure().sentence;
    if (out) context.went_well(out);
}

void piece_links(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    Flow flow(page, Measure::kGap);
    for (const Part& piece : facts.pieces) {
        std::string said = piece.name;
        if (piece.quantity > 1) said += " × " + std::to_string(piece.quantity);
        said += ", " + std::string(word(piece.condition));
        const ButtonLook quiet{.weight = Weight::quiet};
        flow.place(width_of(page, piece.tag) + width_of(page, said) + width_of(page, kTakeOut) +
                   page.px(96));
        if (tag_chip(page, "part.piece." + piece.tag, piece.tag))
            context.go = Place{"parts", piece.id.value};
        ImGui::SameLine(0, page.px(Measure::kStep));
        words_beside(page, said, piece.condition == Condition::scrap ? Role::red_lead : Role::ink);
        ImGui::SameLine(0, page.px(Measure::kStep));
        if (button(page, "part.piece.out." + piece.tag, kTakeOut, quiet))
            take_out(context, state, piece.id);
    }
}

// A further part becomes a piece, by its tag: into one that is split beside the others, otherwise
// it is put together with it.
void put_in(Context& context, PartPageState& state, const Part& part) {
    const auto piece = part_tagged(context.book, std::string(trim(state.put_in)));
    Done in = piece ? Done(done()) : Done(piece.failure());
    if (piece && part.split_on) {
        Part changed = *piece;
        changed.within = part.id;
        in = set_part(context.book, changed);
    } else if (piece) {
        in = join_part(context.book, part.id, today(), {piece->id});
    }
    state.pieces_trouble = in ? std::string() : in.failure().sentence;
    if (!in) return;
    context.went_well(in);
    state.put_in.clear();
}

void draw_put_in(Page& page, Context& context, PartPageState& state, const Part& part) {
    const FieldChange typed = text_field(page, "part.pieces.in", state.put_in,
                                         {.label = "a further piece, by its tag, then Enter",
                                          .hint = "H7",
                                          .error = state.pieces_trouble,
                                          .width = kTag});
    if (typed.edited) state.pieces_trouble.clear();
    if (typed.entered && !trim(state.put_in).empty()) put_in(context, state, part);
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
    piece_links(page, context, state, facts);
    if (state.splitting) {
        draw_splitting(page, context, state, facts);
        return;
    }
    if (part.split_on) {
        if (button(page, "part.pieces.join", "put it together", {.weight = Weight::plain})) {
            const Done joined = join_part(context.book, part.id, today());
            state.pieces_trouble = joined ? std::string() : joined.failure().sentence;
            if (joined) context.went_well(joined);
        }
    } else {
        if (button(page, "part.pieces.begin", "split it into its pieces",
                   {.weight = Weight::quiet})) {
            state.splitting = true;
            state.pieces_trouble.clear();
        }
        ImGui::SameLine(0, page.px(Measure::kStep));
        if (button(page, "part.pieces.put", "put a part into it", {.weight = Weight::quiet}))
            state.putting_in = !state.putting_in;
    }
    if (part.split_on || state.putting_in) {
        draw_put_in(page, context, state, part); // says the trouble, too
    } else if (!state.pieces_trouble.empty()) {
        fine_print(page, state.pieces_trouble, Role::red_lead);
        note(page, "part.pieces.trouble", state.pieces_trouble);
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
        ImGui::SameLine(0, page.px(Measure::kStep));
        if (button(page, "part.within.out", kTakeOut, {.weight = Weight::quiet}))
            take_out(context, state, part.id);
    }
    if (part.quantity > 1)
        draw_lot(page, context, state, part);
    else if (part.condition != Condition::scrap || part.split_on)
        draw_assembly(page, context, state, facts);
    else if (!state.pieces_trouble.empty()) // taking it out was refused
        fine_print(page, state.pieces_trouble, Role::red_lead);
}

} // namespace fettle::ui
