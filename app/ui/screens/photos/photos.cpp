#include "ui/screens/photos/photos.h"

#include "notebook/parts.h"
#include "notebook/torch_bursts.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/photos/photo_sheet.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr Chord kClocks{'K'}, kNextUntied{'J'}, kDoubtful{'D'};

Result<std::vector<Run>> runs_shown(const Notebook& book) {
    auto runs = list_runs(book, RunState::proposed);
    if (!runs) return runs;
    auto accepted = list_runs(book, RunState::accepted);
    if (!accepted) return accepted;
    runs->insert(runs->end(), accepted->begin(), accepted->end());
    std::ranges::stable_sort(
        *runs, {}, [](const Run& run) { return run.from ? run.from->local : Moment().local; });
    return runs;
}

Result<PhotoList> read_list(const Notebook& book, const PhotosQuestion& asked) {
    PhotoFilter filter;
    filter.untied_only = asked.show == PhotosState::untied;
    if (asked.show == PhotosState::of_a_part) filter.part = asked.part;
    auto photos = list_photos(book, filter);
    if (!photos) return photos.failure();
    auto runs = runs_shown(book);
    if (!runs) return runs.failure();
    return PhotoList::of(std::move(*photos), std::move(*runs), asked.untied_first);
}

const PhotoList& read_photos(const Context& context, PhotosState& state) {
    const PhotosQuestion question{state.show, state.part,
                                  state.untied_first && state.show == PhotosState::all};
    state.read_at = context.book.change_counter();
    return state.list.beside(context.side, context.book, question, read_list);
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
    if (!answer.taken || !std::holds_alternative<PartId>(target_of(*answer.taken))) return;
    const auto part = part_by_id(context.book, PartId{*answer.taken});
    if (context.went_well(part)) show_photos_of(state, part->id, part->tag + " " + part->name);
}

void filter_line(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    const std::string count = list.photos.empty() ? "Photos" : count_words(list.photos.size());
    heading(page, count);
    note(page, "photos.count", "photos", std::to_string(list.photos.size()));
    ImGui::SameLine(0, page.px(Measure::kGap));
    int show = state.show;
    if (choice(page, "photos.show", {"all", "untied", "a part"}, show)) {
        state.show = show;
        if (show == PhotosState::of_a_part) state.part_line.begin();
    }
    Flow flow(page, Measure::kGap);
    flow.go_on();
    if (state.show == PhotosState::all && !list.photos.empty()) {
        flow.place(width_of(page, "untied first") + page.px(Measure::kMargin));
        check(page, "photos.untied_first", "untied first", state.untied_first);
    }
    intake_acts(page, flow, state.intake, context);
    const ButtonLook look{
        .weight = Weight::quiet, .key_hint = "K", .enabled = !list.photos.empty()};
    flow.place_button("clocks", look);
    if (button(page, "photos.clocks", "clocks", look) || (look.enabled && pressed(kClocks)))
        state.clocks.open = state.clocks.wants_caret = !state.clocks.open;
    watched_line(page, context);
    if (state.show == PhotosState::of_a_part) choose_part(page, context, state);
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
                "folders on this window, or say where they are. The originals stay as they are. A "
                "folder to which a phone copies its photos can be watched: press W."});
    gap(page, Measure::kGap);
    if (state.intake.watching || state.intake.taking_in)
        intake_lines(page, context, state.intake);
    else
        path_line(page, context, state.intake);
}

// The next untied photo after those, round to the beginning; none when no other is untied.
PhotoId untied_after(const PhotoList& list, const std::vector<PhotoId>& photos) {
    std::size_t from = 0;
    for (const PhotoId photo : photos)
        if (const auto at = list.place.find(photo.value); at != list.place.end())
            from = std::max(from, at->second);
    for (std::size_t i = 1; i <= list.photos.size(); ++i) {
        const Photo& photo = list.photos[(from + i) % list.photos.size()];
        if (photo.ties == 0 && std::ranges::find(photos, photo.id) == photos.end()) return photo.id;
    }
    return {};
}

// From the photo under the keyboard's frame on to the next that is untied, or pointed out.
void step_acts(Page& page, Flow& flow, PhotosState& state, const PhotoList& list) {
    const auto step = [&](std::string_view key, const std::string& label, const Chord& chord) {
        const std::string hint = words_of(chord);
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look) || pressed(chord);
    };
    if (step("photos.next_untied", "next untied", kNextUntied))
        if (const PhotoId next = untied_after(list, {state.at})) state.wanted = next;
    if (list.doubtful == 0) return;
    const std::string label = std::to_string(list.doubtful) + " blurred, alike";
    if (!step("photos.doubtful", label, kDoubtful)) return;
    const auto at = list.place.find(state.at.value);
    const std::size_t from = at == list.place.end() ? 0 : at->second;
    for (std::size_t i = 1; i <= list.photos.size(); ++i) {
        const std::size_t place = (from + i) % list.photos.size();
        if (!list.seen[place].doubtful()) continue;
        state.wanted = list.photos[place].id;
        return;
    }
}

// Two chosen photos beside each other, in the order they were chosen.
void compare_act(Page& page, Flow& flow, PhotosState& state) {
    const bool two = state.chosen.size() == 2;
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "V", .enabled = two};
    flow.place_button("compare", look);
    if (button(page, "photos.compare", "compare", look) || (two && pressed({.key = 'V'})))
        state.large.open_compared(state.chosen[0], state.chosen[1]);
}

// As many chosen photos as a torch set has, in the order of time: the first is drawn on.
void torch_act(Page& page, Flow& flow, Context& context, const PhotosState& state,
               const PhotoList& list) {
    const std::size_t count = state.chosen.size();
    const bool enough = count >= kLeastOfTorch && count <= kMostOfTorch;
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "B", .enabled = enough};
    flow.place_button("torch set", look);
    if (!button(page, "photos.torch", "torch set", look) && !(enough && pressed({.key = 'B'})))
        return;
    auto photos = state.chosen;
    std::ranges::sort(photos, {}, [&](PhotoId id) { return list.place.at(id.value); });
    context.go = Place{.screen = "marks", .view = "torch", .photos = std::move(photos)};
}

void acts_line(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    const auto acted_on = photos_acted_on(state);
    const std::string said = std::to_string(state.chosen.size()) + " chosen";
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, std::string_view hint) {
        const ButtonLook look{
            .weight = Weight::quiet, .key_hint = hint, .enabled = !acted_on.empty()};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    flow.place_words(said);
    words_beside(page, said, state.chosen.empty() ? Role::pencil : Role::ink);
    note(page, "photos.chosen", "chosen", std::to_string(state.chosen.size()));
    if (act("photos.tie", "tie", "T")) {
        state.tying.open = true;
        state.tying.line.begin();
    }
    if (act("photos.entry", "entry", "E") || pressed({.key = 'E'}))
        put_into_entry(context, acted_on, state.tying.stage);
    if (act("photos.open", "large", "Enter") && state.at) state.large.open(state.at);
    compare_act(page, flow, state);
    torch_act(page, flow, context, state, list);
    if (act("photos.spell", "spell", "A") || pressed({.key = 'A'})) choose_spell(state, list);
    if (act("photos.none", "none", "Esc") ||
        (pressed({.key = static_cast<int>(Key::escape)}) && !state.tying.open)) {
        state.chosen.clear();
        state.wanted = state.at; // Dear ImGui's own Esc takes the keyboard off the photos
    }
    step_acts(page, flow, state, list);
    const ButtonLook out{.weight = Weight::quiet, .key_hint = "O"};
    flow.place_button("give out", out);
    if (button(page, "photos.out", "give out", out) || pressed(kGiveOut))
        state.out.open = state.out.wants_caret = true;
}

// Ties, and goes on to the next photo that waits.
void tying_lines(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    const auto acted_on = photos_acted_on(state);
    stage_words(page, state.tying, Digits::set_the_stage);
    const bool was_open = state.tying.open;
    const bool tied = numbered_targets(page, context, state.tying, acted_on) ||
                      tie_line(page, context, state.tying, acted_on);
    // The line is gone: the keyboard goes back to the photo it was on.
    if (was_open && !state.tying.open) state.wanted = state.at;
    if (!tied) return;
    const PhotoId next = untied_after(list, acted_on);
    state.wanted = next ? next : state.at;
    state.chosen.clear();
}

// Those that are chosen, or all that are shown.
std::vector<PhotoId> photos_to_give_out(const PhotosState& state, const PhotoList& list) {
    if (!state.chosen.empty()) return state.chosen;
    std::vector<PhotoId> all;
    for (const Photo& photo : list.photos)
        all.push_back(photo.id);
    return all;
}

void above_the_photos(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    intake_lines(page, context, state.intake);
    if (state.out.open) {
        give_out_line(page, context, state.out, photos_to_give_out(state, list));
        if (!state.out.open) state.wanted = state.at;
        return;
    }
    if (state.clocks.open) {
        const bool escaped = pressed({.key = static_cast<int>(Key::escape)}, true);
        draw_clocks(page, context, state.clocks, photos_acted_on(state));
        if (escaped) {
            state.clocks.open = false;
            state.wanted = state.at;
        }
        return;
    }
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), 0));
    acts_line(page, context, state, list);
    tying_lines(page, context, state, list);
    runs_bar(page, context, state, list);
    ImGui::PopStyleVar();
}

// Whoever comes to this screen finds the keyboard's frame on the photo it was on.
void come_in(PhotosState& state, const PhotoList& list) {
    if (just_came_in(state.last_frame) && !list.photos.empty())
        state.wanted = list.find(state.at) ? state.at : list.photos.front().id;
    std::erase_if(state.chosen, [&](PhotoId id) { return !list.find(id); });
}

} // namespace

void draw_photos(Page& page, Context& context, PhotosState& state) {
    const PhotoList& list = read_photos(context, state);
    if (state.large.photo) {
        const auto found = list.place.find(state.large.photo.value);
        const std::size_t place = found == list.place.end() ? list.photos.size() : found->second;
        state.at = state.large.photo;
        draw_photo_large(page, context, state.large, state.tying, list.photos, place);
        return;
    }
    if (state.list.nothing_yet()) {
        heading(page, "Photos");
        return being_read(page, "photos.reading");
    }
    come_in(state, list);
    filter_line(page, context, state, list);
    if (!state.list.failure().empty())
        notice(page, "photos.trouble", Tell::stop, state.list.failure());
    if (list.photos.empty() && state.list.is_reading()) return being_read(page, "photos.reading");
    if (list.photos.empty()) {
        nothing_yet(page, context, state);
        return;
    }
    above_the_photos(page, context, state, list);
    rule(page);
    draw_photo_sheet(page, context, state, list);
}

void lead_to(PhotosState& state, const Place& place) {
    if (place.view == "take-in") ask_where(state.intake);
    if (place.record == 0) return;
    state.show = PhotosState::all;
    if (place.with != 0)
        state.large.open_compared(PhotoId{place.record}, PhotoId{place.with});
    else
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
