#include "ui/screens/parts/part_page.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

Result<std::vector<TaskStanding>> tasks_on(const Notebook& book, const Part& part,
                                           const std::vector<Entry>& entries) {
    auto tasks = list_tasks(book, today());
    if (!tasks) return tasks;
    std::erase_if(*tasks, [&](const TaskStanding& standing) {
        const Task& task = standing.task;
        const bool needs_it =
            part.position && std::ranges::find(task.positions, part.position,
                                               &NeededPosition::position) != task.positions.end();
        const bool worked_on = std::ranges::any_of(entries, [&](const Entry& entry) {
            return std::ranges::find(entry.tasks, task.id) != entry.tasks.end();
        });
        return !needs_it && !worked_on;
    });
    return tasks;
}

void put_into_draft(Context& context, PartId part) {
    auto& parts = context.draft.parts;
    if (std::ranges::find(parts, part) == parts.end()) parts.push_back(part);
    context.draft_edited = true;
}

void top(Page& page, Context& context, PartPageState& state, const Part& part) {
    const float start = ImGui::GetCursorPosY();
    {
        const InFace large(page, Face::heading);
        tag_chip(page, "part.tag", part.tag);
        if (state.takes_keyboard) put_keyboard_here();
        state.takes_keyboard = false;
    }
    ImGui::SameLine(0, page.px(Measure::kGap));
    const float room = ImGui::GetContentRegionAvail().x;
    ImGui::SetCursorPosY(start + page.px(3));
    heading(page, cut_to(page, part.name, room, Face::heading));
    note(page, "part.name", part.name);
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, std::string_view hint) {
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    if (act("part.back", "all parts", "Esc") ||
        (pressed({.key = static_cast<int>(Key::escape)}) && state.active.empty()))
        state.part = {};
    if (act("part.into_entry", "into the entry", "E") || pressed({.key = 'E'}))
        put_into_draft(context, part.id);
    if (part.position && (act("part.to_position", "its position", "P") || pressed({.key = 'P'})))
        context.go = Place{"parts", part.position.value, 0, 0, "positions"};
    if (act("part.dossier", "dossier", "B") || pressed({.key = 'B'}))
        context.go = Place{"book", part.id.value, 0, 0, "part"};
}

void store_field(Context& context, PartPageState& state, const Part& shown,
                 const std::string& field) {
    // As it is now: what is shown may be a moment old, and the part is written as a whole.
    const auto part = part_by_id(context.book, shown.id);
    if (!context.went_well(part)) return;
    Part changed = *part;
    if (!read_field(context.book, state.fields, field, changed)) return;
    if (text_of(changed, field) == text_of(*part, field) && changed.position == part->position)
        return;
    const Done set = set_part(context.book, changed);
    if (set)
        context.went_well(set);
    else
        note_refusal(state.fields, set.failure().sentence);
}

// Not from facts that are older than what may have been typed and kept since.
void fill_fields(PartPageState& state, const Part& part) {
    if (state.facts.is_reading() || state.filled_for == state.facts.readings()) return;
    state.fields.fill(part, state.active);
    state.filled_for = state.facts.readings();
}

// "from Ansel Thrupp, 10 Jan 2026, 45.00 GBP, new old stock"; blank when nothing is known.
std::string whence_words(const Part& part) {
    std::vector<std::string> said;
    if (!part.from.empty()) said.push_back("from " + part.from);
    if (part.acquired) said.push_back("here since " + to_words(*part.acquired));
    if (part.cost) said.push_back(to_words(*part.cost));
    if (part.origin != Origin::unknown) said.emplace_back(word(part.origin));
    if (!part.maker.empty()) said.push_back("made by " + part.maker);
    return join(said, ", ");
}

// Where it is now; with whom it is, when it is away, stands below with the way there.
std::string where_words(const PartFacts& facts) {
    const Part& part = facts.part;
    int away = 0;
    for (const Away& one : facts.away)
        if (one.inward || one.since || !one.within.empty()) away += one.pieces;
    const bool all_away = away > 0 && away >= part.left();
    const bool built_in = facts.holder && !facts.holder->split_on;
    const std::string& place = built_in ? facts.holder->place : part.place;
    std::string said = built_in   ? "within " + facts.holder->tag + ", " + facts.holder->name
                       : all_away ? "away"
                       : part.left() == 0 ? "all used"
                       : !place.empty()   ? "kept: " + place
                                          : "no place written down";
    if (built_in && !all_away && !place.empty()) said += ", kept: " + place;
    if (built_in && all_away) said += ", away";
    if (!part.position_name.empty()) said += "     for " + part.position_name;
    return said;
}

// Where it came from, how it stands with it and where it is, below its name.
void standing(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    const float room = ImGui::GetContentRegionAvail().x;
    if (const std::string whence = whence_words(facts.part); !whence.empty()) {
        fine_words(page, cut_to(page, whence, room, Face::fine));
        note(page, "part.whence", whence);
    }
    FieldDone done;
    choose_word(page, "part", state.fields, "condition", done);
    choose_word(page, "part", state.fields, "decision", done);
    const std::string where = where_words(facts);
    fine_words(page, cut_to(page, where, room, Face::fine));
    note(page, "part.where", where);
    if (!done.field.empty()) store_field(context, state, facts.part, done.field);
}

// Fields that were written to their end are kept at once; there is nothing to press.
void card(Page& page, Context& context, PartPageState& state, const Part& part) {
    gap(page, Measure::kMargin);
    words(page, "The card");
    rule(page);
    FieldDone done;
    what_it_is(page, context, "part.edit", state.fields, false, done);
    choose_word(page, "part", state.fields, "origin", done);
    what_is_known(page, context, "part.edit", state.fields, done);
    state.active = done.active;
    if (!done.field.empty()) store_field(context, state, part, done.field);
    gap(page, Measure::kMargin);
}

} // namespace

Result<PartFacts> read_part(const Notebook& book, PartId id) {
    PartFacts facts;
    auto part = part_by_id(book, id);
    if (!part) return part.failure();
    auto photos = list_photos(book, {.part = id});
    if (!photos) return photos.failure();
    auto ties = ties_to(book, id);
    if (!ties) return ties.failure();
    auto marks = list_marks(book, {.part = id});
    if (!marks) return marks.failure();
    auto entries = list_entries(book, {.part = id});
    if (!entries) return entries.failure();
    auto tasks = tasks_on(book, *part, *entries);
    if (!tasks) return tasks.failure();
    auto steps = list_condition_steps(book, id);
    if (!steps) return steps.failure();
    auto away = whereabouts(book, id);
    if (!away) return away.failure();
    auto evidence = evidence_of(book, id);
    if (!evidence) return evidence.failure();
    auto pieces = list_parts(book, {.within = id});
    if (!pieces) return pieces.failure();
    auto life = life_of(book, id);
    if (!life) return life.failure();
    auto costs = costs_of_part(book, id);
    if (!costs) return costs.failure();
    for (Photo& photo : *photos) {
        const auto tie = std::ranges::find(*ties, photo.id, &Tie::photo);
        const fettle::Stage stage = tie == ties->end() ? fettle::Stage::during : tie->stage;
        facts.photos.push_back({std::move(photo), stage});
    }
    for (const Mark& mark : *marks) {
        auto photo = photo_by_id(book, mark.photo);
        if (!photo) return photo.failure();
        facts.marked.emplace(mark.photo.value, std::move(*photo));
    }
    facts.part = std::move(*part);
    facts.marks = std::move(*marks);
    facts.entries = std::move(*entries);
    facts.tasks = std::move(*tasks);
    facts.steps = std::move(*steps);
    facts.away = std::move(*away);
    facts.evidence = std::move(*evidence);
    if (facts.part.within) {
        auto holder = part_by_id(book, facts.part.within);
        if (!holder) return holder.failure();
        facts.holder = std::move(*holder);
    }
    facts.pieces = std::move(*pieces);
    facts.life = std::move(*life);
    facts.costs = std::move(*costs);
    return facts;
}

void PartPageState::open(PartId id) {
    part = id;
    filled_for = 0;
    active.clear();
    takes_keyboard = true;
    before = after = 0;
    measuring = {};
    none_of.clear();
    splitting = putting_in = false;
    pieces_typed.clear();
    pieces_used.clear();
    pieces_trouble.clear();
    for (std::string* typed : {&divide_typed, &divide_tag, &divide_trouble, &put_in})
        typed->clear();
}

void draw_part_page(Page& page, Context& context, SideWork& work, PartPageState& state) {
    const PartFacts& facts = state.facts.beside(
        context.side, context.book, state.part.value,
        [](const Notebook& book, std::int64_t id) { return read_part(book, PartId{id}); });
    if (facts.part.id != state.part) {
        if (state.facts.is_reading())
            being_read(page, "part.reading");
        else
            notice(page, "part.trouble", Tell::stop, state.facts.failure());
        if (button(page, "part.back", "all parts", {.key_hint = "Esc"}) ||
            pressed({.key = static_cast<int>(Key::escape)}))
            state.part = {};
        return;
    }
    if (state.measuring.open) {
        draw_measuring(page, context, work, facts.part, state.measuring);
        return;
    }
    fill_fields(state, facts.part);
    top(page, context, state, facts.part);
    standing(page, context, state, facts);
    draw_whereabouts(page, context, facts);
    draw_pieces(page, context, state, facts);
    gap(page);
    draw_part_story(page, context, state, facts);
    card(page, context, state, facts.part);
}

} // namespace fettle::ui
