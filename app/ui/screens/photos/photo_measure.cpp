#include "ui/screens/photos/photo_measure.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

using photos::ClickedPoint;
using photos::KnownInPicture;
using photos::KnownLength;
using photos::KnownRectangle;

std::string known_in_words(const KnownInPicture& known) {
    if (const auto* length = std::get_if<KnownLength>(&known)) return length->length.typed;
    const auto& rectangle = std::get<KnownRectangle>(known);
    return rectangle.width.typed + " × " + rectangle.height.typed;
}

MeasuredPhoto::Line measured_line(const KnownInPicture& known, const photos::Distance& ends) {
    MeasuredPhoto::Line line{ends, {}, {}, {}, {}};
    const auto figure = photos::measure(known, ends);
    if (!figure) {
        line.trouble = figure.failure().sentence;
        return line;
    }
    line.figure = *figure;
    line.metric = photos::in_words(*figure, "mm");
    line.inch = photos::in_words(*figure, "in");
    return line;
}

void begin_setting(PhotoMeasureState& state) {
    state.setting.clear();
    state.error.clear();
    state.changing = false;
}

void change_known(PhotoMeasureState& state, const KnownInPicture& known) {
    begin_setting(state);
    state.changing = true;
    state.take_caret = true;
    if (const auto* length = std::get_if<KnownLength>(&known)) {
        state.by_rectangle = false;
        state.setting.assign(length->ends.begin(), length->ends.end());
        state.length = length->length.typed;
        return;
    }
    const auto& rectangle = std::get<KnownRectangle>(known);
    state.by_rectangle = true;
    state.setting.assign(rectangle.corners.begin(), rectangle.corners.end());
    state.width = rectangle.width.typed;
    state.height = rectangle.height.typed;
}

Result<KnownInPicture> known_as_set(const PhotoMeasureState& state) {
    KnownInPicture known;
    if (state.by_rectangle) {
        const auto width = photos::parse_known_size(state.width, "width");
        if (!width) return width.failure();
        const auto height = photos::parse_known_size(state.height, "height");
        if (!height) return height.failure();
        KnownRectangle rectangle{{}, *width, *height};
        std::ranges::copy(state.setting, rectangle.corners.begin());
        known = rectangle;
    } else {
        const auto size = photos::parse_known_size(state.length, "known length");
        if (!size) return size.failure();
        KnownLength length{{}, *size};
        std::ranges::copy(state.setting, length.ends.begin());
        known = length;
    }
    if (auto fine = photos::check_known(known); !fine) return fine.failure();
    return known;
}

void keep_known(Context& context, PhotoMeasureState& state, const MeasuredPhoto& measured) {
    const auto known = known_as_set(state);
    if (!known) {
        state.error = known.failure().sentence;
        state.take_caret = true;
        return;
    }
    std::vector<photos::Distance> distances;
    for (const auto& line : measured.lines)
        distances.push_back(line.ends);
    const PhotoScale scale{measured.photo, to_json(*known), to_json(distances)};
    if (context.went_well(keep_scale(context.book, scale, "set what is known in a photo")))
        begin_setting(state);
}

// "7.938 mm, 0.3125 in", or nothing while it cannot be read.
std::string understood(const std::string& typed, std::string_view what) {
    const auto size = photos::parse_known_size(typed, what);
    if (typed.empty() || !size) return {};
    const photos::MeasuredDistance exact{size->metres, size->within / 2};
    return photos::in_words(exact, "mm") + ", " + photos::in_words(exact, "in");
}

// True when Enter ended it.
bool size_field(Page& page, std::string_view key, std::string& typed, std::string_view label,
                bool& take_caret) {
    const std::string other = understood(typed, label);
    const FieldChange field = text_field(page, key, typed,
                                         {.label = label,
                                          .hint = "25.4 ± 0.1 mm",
                                          .unit = "in",
                                          .other = other,
                                          .width = 148,
                                          .take_focus = std::exchange(take_caret, false)});
    return field.entered;
}

void say(Page& page, std::string_view key, std::string_view text, Role role) {
    body(page, text, role);
    note(page, key, text);
}

void done_act(Page& page, PhotoMeasureState& state) {
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "D"};
    if (button(page, "measure.done", "done", look) || pressed({.key = 'D'})) {
        state.open = false;
        state.leave_photo();
    }
}

void set_up(Page& page, Context& context, PhotoMeasureState& state, const MeasuredPhoto& measured) {
    const std::size_t needed = state.points_needed();
    int kind = state.by_rectangle ? 1 : 0;
    if (!state.changing &&
        choice(page, "measure.kind", {"a known length", "a known rectangle"}, kind)) {
        state.by_rectangle = kind == 1;
        begin_setting(state);
    }
    if (!state.changing) ImGui::SameLine(0, page.px(Measure::kMargin));
    done_act(page, state);
    if (state.setting.size() < needed) {
        say(page, "measure.ask",
            state.by_rectangle
                ? "Press the four corners of something rectangular, one after another round it, "
                  "the "
                  "first two along its width."
                : "Press both ends of something whose length you know. It holds for what lies as "
                  "far from the camera, and square to it.",
            Role::red_lead);
        fine_words(page,
                   std::to_string(state.setting.size()) + " of " + std::to_string(needed) + " set");
        note(page, "measure.set", "set", std::to_string(state.setting.size()));
        return;
    }
    bool entered = false;
    if (state.by_rectangle) {
        entered = size_field(page, "measure.width", state.width, "width", state.take_caret);
        ImGui::SameLine(0, page.px(Measure::kGap));
        bool no_caret = false;
        entered |= size_field(page, "measure.height", state.height, "height", no_caret);
    } else {
        entered =
            size_field(page, "measure.length", state.length, "known length", state.take_caret);
    }
    const bool keep =
        button(page, "measure.keep", "keep", {.weight = Weight::next, .key_hint = "Enter"});
    ImGui::SameLine();
    if (button(page, "measure.again", "set the points anew", {.weight = Weight::quiet})) {
        state.setting.clear();
        state.error.clear();
    }
    if (keep || entered) keep_known(context, state, measured);
}

void into_entry(Context& context, const MeasuredPhoto& measured, const MeasuredPhoto::Line& line,
                const Photo& photo) {
    std::string& text = context.draft.text;
    if (!text.empty() && !text.ends_with('\n')) text += "\n";
    const bool rectangle = std::holds_alternative<KnownRectangle>(*measured.known);
    text += "Measured in " + safe_utf8(photo.original_name) + ": " + line.metric + " (" +
            line.inch + "; k = 2, about 95 in 100), against a known " +
            (rectangle ? "rectangle of " : "length of ") + measured.known_words + ".";
    auto& in_entry = context.draft.photos;
    if (std::ranges::find(in_entry, photo.id, &PhotoAtStage::photo) == in_entry.end())
        in_entry.push_back({photo.id, fettle::Stage::during});
    context.draft_edited = true;
}

void remove_line(Context& context, const MeasuredPhoto& measured, std::size_t at) {
    std::vector<photos::Distance> distances;
    for (std::size_t i = 0; i < measured.lines.size(); ++i)
        if (i != at) distances.push_back(measured.lines[i].ends);
    context.went_well(keep_scale(context.book,
                                 {measured.photo, to_json(*measured.known), to_json(distances)},
                                 "removed a distance in a photo"));
}

void distance_lines(Page& page, Context& context, const MeasuredPhoto& measured,
                    const Photo& photo) {
    for (std::size_t i = 0; i < measured.lines.size(); ++i) {
        const auto& line = measured.lines[i];
        const std::string key = "measure.line." + std::to_string(i);
        Flow flow(page, Measure::kGap);
        const std::string said = std::to_string(i + 1) + "   " +
                                 (line.figure ? line.metric + "   " + line.inch : line.trouble);
        const std::string shown = cut_to(page, said, ImGui::GetContentRegionAvail().x);
        flow.place_words(shown);
        words_beside(page, shown, line.figure ? Role::ink : Role::brass);
        note(page, key, said, line.figure ? line.metric + "  " + line.inch : line.trouble);
        if (line.figure) {
            flow.place_button("into the entry", {.weight = Weight::quiet});
            if (button(page, key + ".entry", "into the entry", {.weight = Weight::quiet}))
                into_entry(context, measured, line, photo);
        }
        flow.place_button("remove", {.weight = Weight::quiet});
        if (button(page, key + ".remove", "remove", {.weight = Weight::quiet})) {
            remove_line(context, measured, i);
            return;
        }
    }
}

void measure(Page& page, Context& context, PhotoMeasureState& state, const MeasuredPhoto& measured,
             const Photo& photo) {
    Flow flow(page, Measure::kGap);
    const std::string known = "known: " + measured.known_words;
    flow.place_words(known);
    words_beside(page, known, Role::verdigris);
    note(page, "measure.known", known);
    flow.place_button("change", {.weight = Weight::quiet});
    if (button(page, "measure.change", "change", {.weight = Weight::quiet}))
        change_known(state, *measured.known);
    flow.place_button("remove", {.weight = Weight::quiet});
    if (button(page, "measure.remove", "remove", {.weight = Weight::quiet}))
        context.went_well(remove_scale(context.book, measured.photo));
    ImGui::SameLine(0, page.px(Measure::kGap));
    done_act(page, state);
    say(page, "measure.ask",
        state.from ? "Press the other end." : "Press both ends of what you want to measure.",
        Role::red_lead);
    fine_print(page, photos::kPlaneCaution, Role::brass);
    note(page, "measure.caution", photos::kPlaneCaution);
    distance_lines(page, context, measured, photo);
}

void leave_by_key(PhotoMeasureState& state) {
    if (!pressed({.key = static_cast<int>(Key::escape)}, true)) return;
    const bool begun = state.from || (!state.setting.empty() && !state.changing);
    if (state.from)
        state.from.reset();
    else if (state.changing || begun)
        begin_setting(state);
    else
        state.open = false;
}

} // namespace

Result<MeasuredPhoto> read_measured(const Notebook& book, PhotoId photo) {
    auto scale = scale_of_photo(book, photo);
    if (!scale) return scale.failure();
    MeasuredPhoto measured{photo, {}, {}, {}, {}};
    if (!*scale) return measured;
    auto known = photos::known_from_json((*scale)->known);
    auto distances = photos::distances_from_json((*scale)->measured);
    if (!known || !distances) {
        measured.trouble = known ? distances.failure().sentence : known.failure().sentence;
        return measured;
    }
    measured.known = std::move(*known);
    measured.known_words = known_in_words(*measured.known);
    for (const auto& ends : *distances)
        measured.lines.push_back(measured_line(*measured.known, ends));
    return measured;
}

void PhotoMeasureState::leave_photo() {
    begin_setting(*this);
    from.reset();
    held.reset();
}

void draw_measure_strip(Page& page, Context& context, PhotoMeasureState& state,
                        const Photo& photo) {
    const auto& measured = state.kept.of(context.book, photo.id.value, [&](std::int64_t) {
        return read_measured(context.book, photo.id);
    });
    if (!measured.trouble.empty()) {
        say(page, "measure.trouble", measured.trouble, Role::brass);
        if (button(page, "measure.remove", "remove", {.weight = Weight::quiet}))
            context.went_well(remove_scale(context.book, photo.id));
        done_act(page, state);
    } else if (state.setting_up(measured)) {
        set_up(page, context, state, measured);
    } else {
        measure(page, context, state, measured, photo);
    }
    if (!state.error.empty()) {
        fine_print(page, state.error, Role::red_lead);
        note(page, "measure.error", state.error);
    }
    leave_by_key(state);
}

} // namespace fettle::ui
