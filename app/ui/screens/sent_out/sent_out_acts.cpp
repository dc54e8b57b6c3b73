// What is done with the chosen consignment: parts put on, with the warning where evidence is
// missing, items ticked off, missing ones settled, its papers written.
#include "base/text.h"
#include "desk/consignment_papers.h"
#include "notebook/evidence.h"
#include "notebook/parts.h"
#include "ui/candidates.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/photo_row.h"
#include "ui/screens/sent_out/sent_out.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <charconv>

namespace fettle::ui {
namespace {

constexpr float kFindField = 360, kShort = 112;
constexpr std::size_t kMostLately = 24; // photos to choose papers among

// Blank: all of them.
Result<int> read_pieces(const std::string& typed) {
    const auto text = trim(typed);
    if (text.empty()) return 0;
    int pieces = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), pieces);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || pieces < 1)
        return Failure{FailureKind::invalid, fettle::quoted(typed) +
                                                 " is no number of pieces: a whole number of 1 or "
                                                 "more is accepted, or nothing for all."};
    return pieces;
}

// What was typed for a part that is put on.
Result<PutOn> put_on_of(const SentOutState& state, PartId part) {
    PutOn wish{.part = part, .without_evidence = state.reason};
    auto pieces = read_pieces(state.pieces);
    if (!pieces) return pieces.failure();
    wish.pieces = *pieces;
    if (trim(state.value).empty()) return wish;
    auto value = parse_money(trim(state.value));
    if (!value) return value.failure();
    wish.value = *value;
    return wish;
}

// Puts the part on, or holds it back with the list of what to photograph.
void put_part_on(Context& context, SentOutState& state, ConsignmentId id, PartId part) {
    state.error.clear();
    const auto lacks = evidence_wanted(context.book, id, part);
    if (!context.went_well(lacks)) return;
    if (!lacks->empty() && trim(state.reason).empty()) {
        state.part = part;
        state.lacks = *lacks;
        return;
    }
    const auto wish = put_on_of(state, part);
    const Done put = wish ? put_on(context.book, id, *wish) : Done(wish.failure());
    if (!put) {
        state.error = put.failure().sentence;
        state.line.begin();
        return;
    }
    context.trouble.clear();
    state.begin(Doing::putting_on);
}

void held_back(Page& page, Context& context, SentOutState& state, const Consignment& all) {
    const auto part = part_by_id(context.book, state.part);
    const std::string tag = part ? part->tag : "It";
    notice(page, "sent_out.lacks", Tell::caution,
           tag + " is not photographed yet for " + all.purpose +
               ", which takes the old surface off. What is not in a photo then is gone.");
    for (std::size_t i = 0; i < state.lacks.size(); ++i) {
        words(page, "     " + state.lacks[i], Role::brass);
        note(page, "sent_out.lacks." + std::to_string(i), state.lacks[i]);
    }
    text_field(page, "sent_out.reason", state.reason,
               {.label = "why it goes without", .hint = "rusted through", .width = kFindField});
    Flow flow(page, Measure::kGap);
    const auto act = [&](std::string_view key, std::string_view label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    if (act("sent_out.to_part", "to the part, to photograph it", {.weight = Weight::next}))
        context.go = Place{"parts", state.part.value};
    if (act("sent_out.without", "send without", {.enabled = !trim(state.reason).empty()}))
        put_part_on(context, state, all.id, state.part);
    if (act("sent_out.not", "not on it", {.weight = Weight::quiet})) state.begin(Doing::putting_on);
}

// What comes next stands beside it.
void short_field(Page& page, std::string_view key, std::string& text, std::string_view label,
                 std::string_view hint) {
    ImGui::BeginGroup();
    text_field(page, key, text, {.label = label, .hint = hint, .width = kShort});
    ImGui::EndGroup();
    ImGui::SameLine(0, page.px(Measure::kGap));
}

void putting_on(Page& page, Context& context, SentOutState& state, const Consignment& all) {
    if (state.part) {
        held_back(page, context, state, all);
        return;
    }
    const auto& parts =
        state.parts.of(context.book, 0, [&](int) { return part_candidates(context.book); });
    short_field(page, "sent_out.pieces", state.pieces, "pieces", "all");
    short_field(page, "sent_out.value", state.value, "value", "40 GBP");
    ImGui::BeginGroup();
    const auto answer = find_as_you_type(page, "sent_out.part", state.line, parts,
                                         {.label = "put on",
                                          .hint = "a few letters of a tag or a name",
                                          .error = state.error,
                                          .keys = "Enter takes the first     Esc leaves",
                                          .width = kFindField});
    ImGui::EndGroup();
    if (answer.edited) state.error.clear();
    if (answer.taken) put_part_on(context, state, all.id, PartId{*answer.taken});
    if (answer.given_up) state.begin(Doing::nothing);
}

std::vector<Candidate> missing_of(const Consignment& all) {
    std::vector<Candidate> missing;
    for (const ConsignmentItem& item : all.items)
        if (item.missing() > 0)
            missing.push_back({item.part.value, item.tag, item.name, standing_words(item)});
    return missing;
}

Result<Receipt> receipt_of(const SentOutState& state) {
    auto on = parse_day(trim(state.day));
    if (!on) return on.failure();
    Receipt receipt{.on = *on};
    if (state.condition > 0) receipt.condition = static_cast<Condition>(state.condition - 1);
    return receipt;
}

void receiving(Page& page, Context& context, SentOutState& state, const Consignment& all) {
    std::vector<std::string> conditions = {"as they went"};
    for (const auto& word : all_words<Condition>())
        conditions.push_back(word);
    fine_words(page, "in which condition they come");
    choice(page, "sent_out.condition", conditions, state.condition);
    short_field(page, "sent_out.day", state.day, "on", "");
    short_field(page, "sent_out.pieces", state.pieces, "pieces", "all");
    ImGui::BeginGroup();
    const auto answer = find_as_you_type(page, "sent_out.tag", state.line, missing_of(all),
                                         {.label = "tick off",
                                          .hint = "a tag",
                                          .error = state.error,
                                          .keys = "Enter takes the first     Esc leaves",
                                          .width = kFindField});
    ImGui::EndGroup();
    if (answer.edited) state.error.clear();
    if (answer.taken) receive_item(context, state, all, PartId{*answer.taken});
    if (answer.given_up) state.begin(Doing::nothing);
}

void settling(Page& page, Context& context, SentOutState& state, const Consignment& all) {
    const ConsignmentItem* item = all.item(state.part);
    if (!item) {
        state.begin(Doing::nothing);
        return;
    }
    const std::string label = "why " + item->tag + " is no longer waited for";
    const FieldChange field = text_field(page, "sent_out.how", state.reason,
                                         {.label = label,
                                          .hint = "lost by the carrier, paid",
                                          .error = state.error,
                                          .width = kFindField,
                                          .take_focus = state.line.take_focus});
    state.line.take_focus = false;
    if (field.edited) state.error.clear();
    const bool wanted =
        button(page, "sent_out.settle", "settle it", {.weight = Weight::next, .key_hint = "Enter"});
    if (ImGui::IsKeyPressed(static_cast<int>(Key::escape), false)) state.begin(Doing::nothing);
    if (!wanted && !field.entered) return;
    const Done settled = settle_item(context.book, all.id, state.part, state.reason, today());
    if (settled)
        state.begin(Doing::nothing);
    else
        state.error = settled.failure().sentence;
}

// The photos taken since it was packed, the last first; one pressed becomes a paper, or is none.
void choosing_papers(Page& page, Context& context, SentOutState& state, const Consignment& all) {
    const auto& photos = state.lately.of(
        context.book, all.id.value, [&](std::int64_t) -> Result<std::vector<Photo>> {
            PhotoFilter since;
            // The day before: papers are written when it is packed.
            if (all.sent_on)
                since.from = std::chrono::sys_days(*all.sent_on) - std::chrono::days(1);
            auto found = list_photos(context.book, since);
            if (!found) return found;
            std::ranges::reverse(*found);
            if (found->size() > kMostLately) found->resize(kMostLately);
            return found;
        });
    fine_words(page, photos.empty() ? "No photo was taken since; take one in of the paper first."
                                    : "press the photos of its papers     Esc leaves");
    std::vector<RowPhoto> row;
    for (const Photo& photo : photos)
        row.push_back(
            {photo, time_of(photo), std::ranges::find(all.papers, photo.id) != all.papers.end()});
    if (const auto chosen = photo_row(page, "sent_out.lately", context.pixels, row, 80)) {
        const bool is_paper = std::ranges::find(all.papers, *chosen) != all.papers.end();
        context.went_well(is_paper ? drop_paper(context.book, all.id, *chosen)
                                   : add_paper(context.book, all.id, *chosen));
    }
    if (ImGui::IsKeyPressed(static_cast<int>(Key::escape), false)) state.begin(Doing::nothing);
}

void ask_paper(Context& context, SideWork& work, SentOutState& state, ConsignmentId id,
               desk::ConsignmentPaper kind) {
    state.paper_said.clear();
    state.paper_failed.clear();
    const Notebook& book = context.book;
    work.ask<Result<std::string>>(state.paper, [&book, id, kind]() -> Result<std::string> {
        const auto file = desk::place_of_paper(book, id, kind);
        std::error_code error;
        std::filesystem::create_directories(file.parent_path(), error);
        auto pages = desk::write_paper(book, id, kind, file);
        if (!pages) return pages.failure();
        return (*pages == 1 ? "1 page" : std::to_string(*pages) + " pages") + " written to " +
               safe_utf8(file.string());
    });
}

void act_buttons(Page& page, Context& context, SideWork& work, SentOutState& state,
                 const Consignment& all) {
    const auto standing = all.state(today());
    const bool packed = standing == ConsignmentState::packed, any = !all.items.empty();
    const bool over = standing == ConsignmentState::over;
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, char letter, bool enabled,
                         Weight weight = Weight::quiet) {
        const std::string hint(1, letter);
        const ButtonLook look{.weight = weight, .key_hint = hint, .enabled = enabled};
        flow.place_button(label, look);
        const bool wanted = button(page, key, label, look);
        return (wanted || pressed({.key = letter})) && enabled;
    };
    if (act("sent_out.put", "put a part on", 'P', !over)) state.begin(Doing::putting_on);
    if (packed && act("sent_out.send", all.inward ? "on its way today" : "sent today", 'S', any))
        context.went_well(send_consignment(context.book, all.id, today()));
    if (!packed && act("sent_out.receive", "tick off what came", 'R', !missing_of(all).empty()))
        state.begin(Doing::receiving);
    if (act("sent_out.change", "change", 'C', true)) {
        state.form = form_of(all);
        state.writing = true;
    }
    if (act("sent_out.papers", "papers", 'A', true)) state.begin(Doing::choosing_papers);
    if (act("sent_out.list", "packing list", 'L', any))
        ask_paper(context, work, state, all.id, desk::ConsignmentPaper::packing_list);
    if (act("sent_out.claim", "claim", 'M', any && !packed))
        ask_paper(context, work, state, all.id, desk::ConsignmentPaper::claim_pack);
    if (act("sent_out.dossier", "dossier", 'B', any))
        context.go = Place{"book", all.id.value, 0, 0, "consignment"};
}

void paper_line(Page& page, SentOutState& state) {
    if (auto come = state.paper->take()) {
        if (*come)
            state.paper_said = **come;
        else
            state.paper_failed = come->failure().sentence;
    }
    if (state.paper->awaited()) words(page, "writing …", Role::pencil);
    if (!state.paper_said.empty()) {
        body(page, state.paper_said, Role::verdigris);
        note(page, "sent_out.written", state.paper_said);
    }
    if (!state.paper_failed.empty())
        notice(page, "sent_out.not_written", Tell::stop, state.paper_failed);
}

} // namespace

void SentOutState::begin(Doing what) {
    bring_up = doing != what && what != Doing::nothing;
    doing = what;
    line.begin();
    pieces.clear();
    value.clear();
    reason.clear();
    error.clear();
    part = {};
    lacks.clear();
    if (what == Doing::receiving && day.empty()) day = to_words(today());
    if (what == Doing::nothing) day.clear();
}

void receive_item(Context& context, SentOutState& state, const Consignment& all, PartId part) {
    state.error.clear();
    auto receipt = receipt_of(state);
    const auto pieces = read_pieces(state.pieces);
    Done came = !receipt ? Done(receipt.failure()) : !pieces ? Done(pieces.failure()) : done();
    if (came) {
        receipt->items = {{part, *pieces}};
        came = receive(context.book, all.id, *receipt);
    }
    if (came)
        state.begin(Doing::receiving);
    else
        state.error = came.failure().sentence;
}

void draw_consignment_acts(Page& page, Context& context, SideWork& work, SentOutState& state,
                           const ShownConsignment& shown) {
    act_buttons(page, context, work, state, shown.all);
    paper_line(page, state);
    switch (state.doing) {
    case Doing::putting_on:
        putting_on(page, context, state, shown.all);
        break;
    case Doing::receiving:
        receiving(page, context, state, shown.all);
        break;
    case Doing::settling:
        settling(page, context, state, shown.all);
        break;
    case Doing::choosing_papers:
        choosing_papers(page, context, state, shown.all);
        break;
    case Doing::nothing:
        break;
    }
}

} // namespace fettle::ui
