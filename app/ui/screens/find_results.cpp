#include "ui/screens/find_results.h"

#include "base/text.h"
#include "notebook/parts.h"
#include "notebook/people.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/photos/photo_filters.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/overlay.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

constexpr int kMost = 12;
constexpr float kWidth = 480, kRow = 48, kCropWide = 120, kCropTall = 44;
constexpr Chord kFind{static_cast<int>(Key::f), true}; // as the field's own (shell.cpp)
constexpr Chord kKind{'K', false, false, true}, kDays{'D', false, false, true},
    kPart{'P', false, false, true}, kMaker{'M', false, false, true};

std::string one_line(std::string text) {
    std::ranges::replace(text, '\n', ' ');
    return text;
}

// Up and down walk the list while the field is written in.
void walk(FindState& state, int count) {
    if (ImGui::IsKeyPressed(static_cast<int>(Key::down))) ++state.at;
    if (ImGui::IsKeyPressed(static_cast<int>(Key::up))) --state.at;
    state.at = std::clamp(state.at, 0, std::max(0, count - 1));
}

template <class T, class Into>
void read_into(const std::string& typed, std::string& error, Into& into, const Result<T>& read) {
    if (trim(typed).empty()) return;
    if (read)
        into = *read;
    else
        error = read.failure().sentence;
}

FindRead read_narrowed(const Notebook& book, const FindNarrowed& narrowed) {
    FindRead read;
    FindFilter& filter = read.filter;
    if (narrowed.kind > 0) filter.kind = kFoundKinds[std::size_t(narrowed.kind - 1)];
    read_into(narrowed.from, read.from_error, filter.from, parse_day(trim(narrowed.from)));
    read_into(narrowed.to, read.to_error, filter.to, parse_day(trim(narrowed.to)));
    const std::string maker(trim(narrowed.maker));
    read_into(narrowed.maker, read.maker_error, filter.maker, maker_called(book, maker));
    const auto part = part_tagged(book, std::string(trim(narrowed.part)));
    if (part)
        filter.part = part->id;
    else if (!trim(narrowed.part).empty())
        read.part_error = part.failure().sentence;
    if (filter.from && filter.to && *filter.to < *filter.from) {
        read.to_error = "before the first day: " + to_words(*filter.from) + " or later is accepted";
        filter.to.reset();
    }
    return read;
}

Result<std::vector<FoundShown>> read_found(const Notebook& book, const FindFilter& filter) {
    auto found = find(book, filter, kMost);
    if (!found) return found.failure();
    std::vector<FoundShown> all;
    for (Found& one : *found) {
        FoundShown& with = all.emplace_back(FoundShown{std::move(one), std::nullopt});
        if (with.found.kind != FoundKind::mark) continue;
        const auto mark = mark_by_id(book, MarkId{with.found.id});
        if (!mark) return mark.failure();
        auto crop = shown(book, *mark);
        if (!crop) return crop.failure();
        with.mark = std::move(*crop);
    }
    return all;
}

const std::vector<std::string>& kind_words() {
    static const std::vector<std::string> words = [] {
        std::vector<std::string> all = {"everything"};
        for (const FoundKind kind : kFoundKinds)
            all.emplace_back(word(kind));
        return all;
    }();
    return words;
}

struct Narrower {
    const char* key;
    const char* label;
    const char* hint;
    std::string& typed;
    const std::string& error;
    const char* hint_of_key = "";
    bool take_focus = false;
};

// Two fields side by side; true when one was edited.
bool pair_of_fields(Page& page, const Narrower& one, const Narrower& other) {
    const float each = (kWidth - 2 * Measure::kGap - Measure::kStep) / 2 - Measure::kHair;
    bool edited = false;
    for (const Narrower* field : {&one, &other}) {
        if (field == &other) ImGui::SameLine(0, page.px(Measure::kStep));
        ImGui::BeginGroup();
        edited |= text_field(page, field->key, field->typed,
                             {.label = field->label,
                              .hint = field->hint,
                              .error = field->error,
                              .key_hint = field->hint_of_key,
                              .width = each,
                              .take_focus = field->take_focus})
                      .edited;
        ImGui::EndGroup();
    }
    return edited;
}

void draw_narrowing(Page& page, FindState& state, const FindRead& read) {
    FindNarrowed& narrowed = state.narrowed;
    bool edited = choice(page, "find.kind", kind_words(), narrowed.kind);
    ImGui::SameLine(0, page.px(Measure::kGap));
    words_beside(page, words_of(kKind), Role::pencil, Face::fine);
    if (pressed(kKind, true)) {
        narrowed.kind = (narrowed.kind + 1) % int(kind_words().size());
        edited = true;
    }
    edited |= pair_of_fields(page,
                             {"find.from", "from", "7 Mar 2026", narrowed.from, read.from_error,
                              "Alt D", pressed(kDays, true)},
                             {"find.to", "to", "today", narrowed.to, read.to_error});
    edited |= pair_of_fields(page,
                             {"find.part", "part", "a tag", narrowed.part, read.part_error, "Alt P",
                              pressed(kPart, true)},
                             {"find.maker", "maker", "the beginning of a name", narrowed.maker,
                              read.maker_error, "Alt M", pressed(kMaker, true)});
    if (edited) state.at = 0;
    rule(page);
}

// The crop of a mark stands before its row and leads there as the row does.
bool draw_crop(Page& page, Context& context, const std::string& key, const MarkShown& with) {
    const auto& box = with.mark.region;
    const double zoom = std::min(double(page.px(kCropTall)) / std::max(1, box.h),
                                 double(page.px(kCropWide)) / std::max(1, box.w));
    const bool pressed = mark_crop(page, key, context.pixels, with.photo, with.mark, zoom);
    ImGui::SameLine(0, page.px(Measure::kStep));
    return pressed;
}

bool draw_found(Page& page, Context& context, const FoundShown& with, const std::string& key,
                bool chosen) {
    const Found& found = with.found;
    std::string under = found.day ? to_words(*found.day) + "   " : "";
    if (const auto text = one_line(found.excerpt); text != found.title) under += text;
    bool pressed = false;
    if (with.mark) pressed = draw_crop(page, context, key + ".crop", *with.mark);
    pressed |= row(page, key,
                   {.label = found.title,
                    .under = under,
                    .aside = word(found.kind),
                    .selected = chosen,
                    .height = kRow});
    return pressed;
}

// Ctrl F and a press on the field open the list, so that it can be narrowed before a word is typed.
void open_or_close(const FindField& line, FindState& state) {
    const ImVec2 at = ImGui::GetIO().MousePos;
    const bool on_field = at.x >= line.field.left && at.x < line.field.right &&
                          at.y >= line.field.top && at.y < line.field.bottom;
    if (line.edited || line.entered || pressed(kFind, true) ||
        (on_field && ImGui::IsMouseClicked(ImGuiMouseButton_Left)))
        state.open = true;
    if (line.edited) state.at = 0;
    if (ImGui::IsKeyPressed(static_cast<int>(Key::escape), false)) state.open = false;
    if (line.edited || !state.open) state.entered = false;
}

} // namespace

Place place_of(const Found& found) {
    switch (found.kind) {
    case FoundKind::part:
        return {"parts", found.id};
    case FoundKind::task:
        return {"tasks", found.id};
    case FoundKind::entry:
        return {"log", found.id};
    case FoundKind::mark:
        return {"marks", found.id};
    case FoundKind::photo:
        return {"photos", found.id};
    case FoundKind::consignment:
        return {"sent_out", found.id};
    case FoundKind::measurement:
        return {"parts", found.within};
    case FoundKind::cost:
        return {"money", found.id};
    case FoundKind::contact:
        return {"people", found.id};
    case FoundKind::result:
        return {"log", found.within};
    case FoundKind::position:
        return {.screen = "parts", .record = found.id, .view = "positions"};
    }
    return {"parts", 0};
}

std::optional<Place> draw_find_results(Page& page, Context& context, const FindField& line,
                                       FindState& state) {
    open_or_close(line, state);
    if (!state.open) return std::nullopt;
    const FindRead& read =
        state.read.of(context.book, state.narrowed, [&](const FindNarrowed& narrowed) {
            return Result<FindRead>(read_narrowed(context.book, narrowed));
        });
    FindFilter filter = read.filter;
    filter.words = trim(line.words);
    const auto& found = state.found.beside(context.side, context.book, filter, read_found);
    const bool asks = !filter.words.empty() || filter.narrows();
    walk(state, static_cast<int>(found.size()));
    std::optional<Place> taken;
    const float width = page.px(kWidth), top = line.field.bottom + page.px(Measure::kStep);
    const Overlay sheet(page, "find results",
                        {.x = line.field.right - width,
                         .y = top,
                         .width = width,
                         .most_height = ImGui::GetIO().DisplaySize.y - top - page.px(56)});
    const bool enter =
        ImGui::IsKeyPressed(static_cast<int>(Key::enter), false) && sheet.has_caret();
    state.entered |= line.entered || enter;
    // What still stands there from fewer letters is not what was asked for.
    if (!state.found.is_reading() && std::exchange(state.entered, false) && !found.empty())
        taken = place_of(found[std::size_t(state.at)].found);
    ImGui::PushStyleColor(ImGuiCol_FrameBg, page.tone(Role::paper)); // to stand out from the sheet
    draw_narrowing(page, state, read);
    ImGui::PopStyleColor();
    if (found.empty() && state.found.is_reading()) {
        being_read(page, "find.reading");
    } else if (found.empty()) {
        const char* said = asks ? "Nothing in the notebook holds these words."
                                : "Type words, or choose what to list; Enter opens the first.";
        fine_words(page, said);
        note(page, asks ? "find.nothing" : "find.hint", said);
    }
    for (std::size_t i = 0; i < found.size(); ++i)
        if (draw_found(page, context, found[i], "find." + std::to_string(i),
                       static_cast<int>(i) == state.at))
            taken = place_of(found[i].found);
    const ImVec2 at = ImGui::GetIO().MousePos;
    const bool on_field = at.y < top && at.x >= line.field.left;
    if (sheet.pressed_beside() && !on_field) state.open = false;
    if (taken) state.open = false;
    return taken;
}

} // namespace fettle::ui
