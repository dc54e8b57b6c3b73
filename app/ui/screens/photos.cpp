#include "ui/screens/photos.h"

#include "notebook/parts.h"
#include "ui/acts.h"
#include "ui/fields.h"
#include "ui/flow.h"
#include "ui/input_queue.h"
#include "ui/keyboard_frame.h"
#include "ui/readings.h"
#include "ui/screens/photo_sheet.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

const PhotoList& read_photos(const Notebook& book, PhotosState& state) {
    const PhotosQuestion question{state.show, state.part};
    return state.list.of(book, question, [&](const PhotosQuestion& asked) -> Result<PhotoList> {
        PhotoFilter filter;
        filter.untied_only = asked.show == PhotosState::untied;
        if (asked.show == PhotosState::of_a_part) filter.part = asked.part;
        auto photos = list_photos(book, filter);
        if (!photos) return photos.failure();
        auto list = PhotoList::of(std::move(*photos));
        list.reading = ++state.readings;
        return list;
    });
}

void choose_part(Page& page, Context& context, PhotosState& state) {
    if (state.part && !state.part_line.open) {
        if (link(page, "photos.of", state.part_name)) context.go = Place{"parts", state.part.value};
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, "photos.of.other", "another part", {.weight = Weight::quiet}))
            state.part_line.begin();
        return;
    }
    const auto& known = tie_candidates(context.book, state.tying, context.draft.parts);
    const auto answer = find_as_you_type(
        page, "photos.of.find", state.part_line, known,
        {.hint = "a few letters of a tag or a name", .blank_takes = true, .width = 360});
    if (!answer.taken || *answer.taken < 0) return;
    const auto part = part_by_id(context.book, PartId{*answer.taken});
    if (context.went_well(part)) show_photos_of(state, part->id, part->tag + " " + part->name);
}

void filter_line(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    heading(page, "Photos");
    ImGui::SameLine(0, page.px(Measure::kMargin));
    int show = state.show;
    if (choice(page, "photos.show", {"all", "untied", "a part"}, show)) {
        state.show = show;
        if (show == PhotosState::of_a_part) state.part_line.begin();
    }
    ImGui::SameLine(0, page.px(Measure::kMargin));
    const std::string count = count_words(list.photos.size());
    words_beside(page, count, Role::pencil);
    note(page, "photos.count", "photos", std::to_string(list.photos.size()));
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "I"};
    Flow flow(page, Measure::kMargin);
    flow.go_on();
    flow.place_button("take in", look);
    const bool open = button(page, "photos.take_in", "take in", look);
    if (open || pressed({.key = 'I'})) {
        state.taking_in = true;
        state.path_wants_caret = true;
        state.path_error.clear();
    }
    if (state.show == PhotosState::of_a_part) choose_part(page, context, state);
}

// The path as typed, `~` for the home folder.
std::filesystem::path path_of(const std::string& typed) {
    const char* home = std::getenv("HOME");
    if (home && typed.starts_with("~/")) return std::filesystem::path(home) / typed.substr(2);
    return typed;
}

void take_in(Context& context, PhotosState& state) {
    const auto path = path_of(state.path);
    std::error_code error;
    if (state.path.empty() || !std::filesystem::exists(path, error)) {
        state.path_error = "There is no file or folder \"" + state.path +
                           "\": type where the photos are, such as ~/Pictures.";
        return;
    }
    if (context.take_in) context.take_in({path});
    state.path.clear();
    state.path_error.clear();
    state.taking_in = false;
}

void path_line(Page& page, Context& context, PhotosState& state) {
    const FieldChange field = text_field(page, "photos.path", state.path,
                                         {.label = "a photo or a folder of photos",
                                          .hint = "~/Pictures",
                                          .error = state.path_error,
                                          .width = 360,
                                          .take_focus = state.path_wants_caret});
    state.path_wants_caret = false;
    if (field.edited) state.path_error.clear();
    const bool go = button(page, "photos.path.take_in", "take in",
                           {.weight = Weight::next, .key_hint = "Enter"});
    if (go || field.entered) take_in(context, state);
}

void nothing_yet(Page& page, Context& context, PhotosState& state) {
    if (state.show == PhotosState::untied) {
        empty_page(page, "photos.empty", {"Every photo is tied to something."});
        return;
    }
    if (state.show == PhotosState::of_a_part) {
        empty_page(
            page, "photos.empty",
            {"No photo is tied to this part yet. Choose some among all photos and press T."});
        return;
    }
    empty_page(page, "photos.empty",
               {"Here lie all photos of the work, in the order they were taken. Drop photos or "
                "folders on this window, or say where they are. The originals stay as they are."});
    gap(page, Measure::kGap);
    path_line(page, context, state);
}

void acts_line(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    const auto acted_on = photos_acted_on(state);
    const std::string said =
        state.chosen.empty() ? "none chosen" : std::to_string(state.chosen.size()) + " chosen";
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, std::string_view hint) {
        const ButtonLook look{
            .weight = Weight::quiet, .key_hint = hint, .enabled = !acted_on.empty()};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    flow.place_words("none chosen");
    words_beside(page, said, state.chosen.empty() ? Role::pencil : Role::ink);
    note(page, "photos.chosen", "chosen", std::to_string(state.chosen.size()));
    if (act("photos.tie", "tie", "T")) {
        state.tying.open = true;
        state.tying.line.begin();
    }
    if (act("photos.entry", "into the entry", "E") || pressed({.key = 'E'}))
        put_into_entry(context, acted_on, state.tying.stage);
    if (act("photos.open", "open large", "Enter") && state.at) state.large.open(state.at);
    if (act("photos.spell", "the whole spell", "A") || pressed({.key = 'A'}))
        choose_spell(state, list);
    if (act("photos.none", "none", "Esc") ||
        (pressed({.key = static_cast<int>(Key::escape)}) && !state.tying.open)) {
        state.chosen.clear();
        state.wanted = state.at; // Dear ImGui's own Esc takes the keyboard off the photos
    }
}

void above_the_photos(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    if (state.taking_in) {
        const bool escaped = pressed({.key = static_cast<int>(Key::escape)}, true);
        path_line(page, context, state);
        if (escaped) state.taking_in = false;
        gap(page);
    }
    acts_line(page, context, state, list);
    stage_words(page, state.tying, Digits::set_the_stage);
    const bool was_open = state.tying.open;
    if (tie_line(page, context, state.tying, photos_acted_on(state))) state.chosen.clear();
    // The line is gone: the keyboard goes back to the photo it was on.
    if (was_open && !state.tying.open) state.wanted = state.at;
}

// Whoever comes to this screen finds the keyboard's frame on the photo it was on.
void come_in(PhotosState& state, const PhotoList& list) {
    if (just_came_in(state.last_frame) && !list.photos.empty())
        state.wanted = list.find(state.at) ? state.at : list.photos.front().id;
    std::erase_if(state.chosen, [&](PhotoId id) { return !list.find(id); });
}

} // namespace

void draw_photos(Page& page, Context& context, PhotosState& state) {
    const PhotoList& list = read_photos(context.book, state);
    if (state.large.photo) {
        const auto found = list.place.find(state.large.photo.value);
        const std::size_t place = found == list.place.end() ? list.photos.size() : found->second;
        state.at = state.large.photo;
        draw_photo_large(page, context, state.large, state.tying, list.photos, place);
        return;
    }
    come_in(state, list);
    filter_line(page, context, state, list);
    if (!state.list.failure().empty())
        notice(page, "photos.trouble", Tell::stop, state.list.failure());
    if (list.photos.empty()) {
        nothing_yet(page, context, state);
        return;
    }
    above_the_photos(page, context, state, list);
    rule(page);
    draw_photo_sheet(page, context, state, list);
}

void lead_to(PhotosState& state, const Place& place) {
    if (place.record == 0) return;
    state.show = PhotosState::all;
    state.large.open(PhotoId{place.record}, place.mark);
}

void show_photos_of(PhotosState& state, PartId part, const std::string& name) {
    state.show = PhotosState::of_a_part;
    state.part = part;
    state.part_name = name;
    state.part_line = {};
    state.large.photo = {};
}

} // namespace fettle::ui
