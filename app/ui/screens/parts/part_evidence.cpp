// On the page of a part: where it is, the days of its condition, and the evidence to be had before
// its surface goes.
#include "ui/pictures/photo_row.h"
#include "ui/screens/parts/part_page.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kThumbnail = 112, kKindColumn = 136;

std::string key_of(const EvidenceLine& line) {
    return "part.evidence." + std::to_string(static_cast<int>(line.shows));
}

// What is kept of one kind, or what is to be done about it.
void draw_line(Page& page, Context& context, PartPageState& state, const PartFacts& facts,
               const EvidenceLine& line) {
    const std::string kind(word(line.shows)), key = key_of(line);
    const float left = ImGui::GetCursorPosX();
    words_beside(page, kind);
    ImGui::SameLine(left + page.px(kKindColumn));
    const bool none = !line.none_because.empty();
    const std::string photos =
        line.photos.size() == 1 ? "1 photo" : std::to_string(line.photos.size()) + " photos";
    const std::string said = !line.todo.empty()    ? line.todo
                             : none                ? "none: " + line.none_because
                             : line.photos.empty() ? "not needed"
                                                   : photos;
    const float room = ImGui::GetContentRegionAvail().x - page.px(120);
    words_beside(page, cut_to(page, said, room),
                 !line.todo.empty() ? Role::brass
                 : none             ? Role::pencil
                                    : Role::verdigris);
    note(page, key, kind, said);
    if (none) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, key + ".back", "take back", {.weight = Weight::quiet}))
            context.went_well(drop_no_evidence(context.book, facts.part.id, line.shows));
    } else if (!line.todo.empty() && state.none_of != kind) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, key + ".none", "there is none", {.weight = Weight::quiet})) {
            state.none_of = kind;
            state.none_because.clear();
        }
    }
    if (state.none_of != kind) return;
    const FieldChange why = text_field(
        page, key + ".because", state.none_because,
        {.label = "why there is none, then Enter", .hint = "cast without", .width = 360});
    if (!why.entered) return;
    if (context.went_well(
            note_no_evidence(context.book, facts.part.id, line.shows, state.none_because)))
        state.none_of.clear();
}

bool holds(const std::vector<PhotoId>& photos, PhotoId photo) {
    return std::ranges::find(photos, photo) != photos.end();
}

// A photo with the words for what it shows; what its tie or a mark says stands by itself.
void draw_photo(Page& page, Context& context, const PartFacts& facts, const Photo& photo) {
    const std::string key = "part.shows." + std::to_string(photo.id.value);
    ImGui::BeginGroup();
    if (thumbnail(page, key, context.pixels, photo, page.px(kThumbnail)))
        context.go = Place{"photos", photo.id.value};
    ImGui::EndGroup();
    ImGui::SameLine(0, page.px(Measure::kStep));
    ImGui::BeginGroup();
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    for (const EvidenceLine& line : facts.evidence) {
        bool on = holds(line.photos, photo.id);
        const bool by_itself = on && !holds(line.said, photo.id);
        const std::string kind(word(line.shows));
        if (!check(page, key + "." + std::to_string(static_cast<int>(line.shows)), kind, on) ||
            by_itself)
            continue;
        context.went_well(on ? note_evidence(context.book, facts.part.id, photo.id, line.shows)
                             : drop_evidence(context.book, facts.part.id, photo.id, line.shows));
    }
    ImGui::PopStyleVar();
    ImGui::EndGroup();
}

} // namespace

void draw_whereabouts(Page& page, Context& context, const PartFacts& facts) {
    std::string steps;
    for (const ConditionStep& step : facts.steps)
        steps += (steps.empty() ? "" : "  →  ") + std::string(word(step.condition)) + " " +
                 to_words(step.on);
    if (facts.steps.size() > 1) fine_print(page, steps);
    if (!steps.empty()) note(page, "part.steps", "steps", steps);
    for (const Away& away : facts.away) {
        std::string said = away_words(away, today());
        if (facts.part.quantity > 1)
            said = std::to_string(away.pieces) + " of " + std::to_string(facts.part.quantity) +
                   " " + said;
        const bool late = away.due && *away.due < today() && away.settled_how.empty();
        words_beside(page, cut_to(page, said, ImGui::GetContentRegionAvail().x - page.px(160)),
                     late ? Role::red_lead : Role::brass);
        const std::string number = std::to_string(away.consignment.value);
        note(page, "part.away." + number, "away", said);
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (link(page, "part.consignment." + number, "consignment " + number))
            context.go = Place{"sent_out", away.consignment.value};
    }
}

void draw_evidence(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    // Once the surface is gone nothing more can be photographed.
    if (facts.part.condition > Condition::stripped) return;
    gap(page, Measure::kMargin);
    words(page, "Before its surface goes");
    rule(page);
    for (const EvidenceLine& line : facts.evidence)
        draw_line(page, context, state, facts, line);
    Flow flow(page, Measure::kGap);
    for (const PhotoOfPart& shown : facts.photos) {
        const bool as_it_was =
            shown.stage == fettle::Stage::as_found || shown.stage == fettle::Stage::before;
        const bool said = std::ranges::any_of(facts.evidence, [&](const EvidenceLine& line) {
            return holds(line.photos, shown.photo.id);
        });
        if (!as_it_was && !said) continue;
        flow.place(thumbnail_width(shown.photo, page.px(kThumbnail)) + page.px(152));
        ImGui::BeginGroup();
        draw_photo(page, context, facts, shown.photo);
        ImGui::EndGroup();
    }
}

} // namespace fettle::ui
