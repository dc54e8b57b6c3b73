#include "ui/screens/photos/photo_strip.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/pixels.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <cmath>

namespace fettle::ui {
namespace {

std::string figures_of(const PhotoFacts& facts, const PhotoView& view, const PhotoPlace& place) {
    const Photo& photo = facts.photo;
    std::vector<std::string> said;
    said.push_back(photo.taken ? to_words(*photo.taken) : "no time known");
    if (!photo.camera_model.empty()) said.push_back(photo.camera_model);
    said.push_back(std::to_string(photo.width) + " × " + std::to_string(photo.height));
    said.push_back(std::to_string(std::lround(view.zoom * 100)) + " %");
    if (const std::string lies = lies_words(view); !lies.empty()) said.push_back(lies);
    if (place.place < place.of)
        said.push_back(std::to_string(place.place + 1) + " of " + std::to_string(place.of));
    said.push_back(safe_utf8(photo.original_name));
    return join(said, "     ");
}

class Scrolling {
  public:
    explicit Scrolling(const char* name) {
        ImGui::BeginChild(name, ImVec2(0, 0), false, ImGuiWindowFlags_NavFlattened);
    }
    ~Scrolling() { ImGui::EndChild(); }
    Scrolling(const Scrolling&) = delete;
    Scrolling& operator=(const Scrolling&) = delete;
};

void follow(Context& context, const TieTarget& target) {
    if (const auto* part = std::get_if<PartId>(&target)) context.go = Place{"parts", part->value};
    if (const auto* task = std::get_if<TaskId>(&target)) context.go = Place{"tasks", task->value};
    if (const auto* entry = std::get_if<EntryId>(&target)) context.go = Place{"log", entry->value};
}

void tie_links(Page& page, Context& context, const PhotoFacts& facts) {
    Flow flow(page, Measure::kStep);
    flow.place_words("tied to");
    words_beside(page, facts.ties.empty() ? "not tied to anything yet" : "tied to",
                 facts.ties.empty() ? Role::brass : Role::pencil);
    for (std::size_t i = 0; i < facts.ties.size(); ++i) {
        const Tie& tie = facts.ties[i];
        const std::string key = "photo.tie." + std::to_string(i);
        flow.place_link(tie.name);
        if (link(page, key, tie.name)) follow(context, tie.to);
        flow.place_words(word(tie.stage));
        words_beside(page, word(tie.stage), Role::pencil);
        flow.place_button("untie", {.weight = Weight::quiet});
        if (button(page, key + ".untie", "untie", {.weight = Weight::quiet}))
            context.went_well(untie_photos(context.book, {facts.photo.id}, tie.to));
    }
}

void acts(Page& page, Context& context, PhotoLargeState& state, TyingState& tying,
          const PhotoFacts& facts) {
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, std::string_view hint,
                         Weight weight = Weight::quiet) {
        const ButtonLook look{.weight = weight, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    if (act("photo.read", "read a mark", "M")) state.boxing = !state.boxing;
    if (act("photo.stamp", "make it legible", "S") || pressed({.key = 'S'}))
        state.filters.begin(state.view);
    if (act("photo.measure", "measure", "D") || pressed({.key = 'D'})) state.measure.open = true;
    if (act("photo.tie", "tie", "T") || pressed({.key = 'T'})) {
        tying.open = true;
        tying.line.begin();
    }
    if (act("photo.entry", "into the entry", "E") || pressed({.key = 'E'}))
        put_into_entry(context, {state.photo}, tying.stage);
    if (act("photo.compare", "compare", "V") || pressed({.key = 'V'})) {
        auto compare = compare_with_likeliest(context.book, state.photo);
        if (context.went_well(compare)) state.compare = std::move(*compare);
    }
    if (act("photo.fit", "fit", "0")) state.fitted = true;
    if (act("photo.whole", "one to one", "1")) {
        state.view.zoom = 1;
        state.fitted = false;
    }
    if (act("photo.turn", "turn", "R")) state.turn_wanted = 90;
    if (act("photo.mirror", "mirror", "X")) state.view = mirrored(state.view);
    if (state.view.turn != 0 || state.view.mirrored)
        if (act("photo.as_taken", "as taken", "Home")) state.lie_as_taken();
    if (const auto label = coming_act(context.pixels, facts.photo);
        !label.empty() && !state.all_come)
        if (act("photo.coming.stop", label, "Del") || pressed({.key = static_cast<int>(Key::del)}))
            stop_or_go_on(context.pixels, facts.photo);
    const char* keys =
        "←  →  the next photo     +  −  nearer, farther     Shift and arrows move     "
        ",  .  turn by 1°, with Shift 0.1°     Shift R  turn back";
    const bool back = act("photo.back", "back", "Esc");
    if (back || (pressed({.key = static_cast<int>(Key::escape)}) && !state.boxing))
        state.photo = {};
    else if (pressed({.key = static_cast<int>(Key::escape)}))
        state.boxing = false;
    flow.place_words(keys, Face::fine);
    words_beside(page, keys, Role::pencil, Face::fine);
}

void damage(Page& page, Context& context, const PhotoFacts& facts) {
    const std::string failure = context.pixels.failure(facts.photo);
    const std::string why = !failure.empty()              ? failure
                            : !facts.photo.damage.empty() ? "Damaged: " + facts.photo.damage
                                                          : std::string();
    if (why.empty()) return;
    ImGui::SameLine(0, page.px(Measure::kGap));
    fine_words(page, cut_to(page, why, ImGui::GetContentRegionAvail().x, Face::fine), Role::brass);
    note(page, "photo.damage", "damaged", why);
}

void make_again_act(Page& page, Context& context, const MarkReading& reading) {
    constexpr Chord kAgain{'R', true};
    const std::string hint = words_of(kAgain);
    if (button(page, "photo.torch", "make the torch set again",
               {.weight = Weight::quiet, .key_hint = hint}) ||
        pressed(kAgain, true))
        context.go = Place{.screen = "marks", .record = reading.mark.id.value, .view = "torch"};
    ImGui::SameLine(0, page.px(Measure::kGap));
}

// The mark being read, kept with how it is seen now.
void reading_line(Page& page, Context& context, PhotoLargeState& state) {
    auto seen = seen_now(state.filters, state.view);
    const auto before = photos::seen_with_from_json(state.reading->mark.seen_with);
    if (before) seen.torch = before->torch;
    state.reading->mark.seen_with = to_json(seen);
    if (!seen.torch.empty() && state.reading->mark.id)
        make_again_act(page, context, *state.reading);
    if (const std::string said = in_words(seen); !said.empty()) {
        fine_words(page, cut_to(page, "kept with the mark: " + said,
                                ImGui::GetContentRegionAvail().x, Face::fine));
        note(page, "photo.seen_with", "kept with the mark", said);
    }
    const ReadingEnd end = read_mark(page, context, *state.reading);
    if (end == ReadingEnd::goes_on) return;
    state.reading.reset();
    state.takes_keyboard = true;
}

void filters_strip(Page& page, PhotoLargeState& state) {
    draw_filters(page, state.filters, state.view);
    ImGui::SameLine(0, page.px(Measure::kGap));
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "M"};
    if (button(page, "photo.read", "read a mark", look)) state.boxing = true;
    ImGui::SameLine(0, page.px(Measure::kGap));
    const ButtonLook done{.weight = Weight::quiet, .key_hint = "S"};
    if (button(page, "filters.done", "done", done) || pressed({.key = 'S'}) ||
        pressed({.key = static_cast<int>(Key::escape)}))
        state.filters.open = false;
}

} // namespace

std::string lies_words(const PhotoView& view) {
    std::string said;
    if (const long tenths = std::lround(view.turn * 10); tenths != 0)
        said = "turned " + std::to_string(tenths / 10) +
               (tenths % 10 != 0 ? "." + std::to_string(tenths % 10) : "") + "°";
    if (view.mirrored) said += said.empty() ? "mirrored" : ", mirrored";
    return said;
}

void say_coming(Page& page, const Pixels& pixels, const Photo& photo) {
    const auto cutting = pixels.cutting(photo);
    if (cutting == Pixels::Cutting::no) return;
    const bool going_on = cutting == Pixels::Cutting::going_on;
    const char* said = going_on ? "full size coming" : "full size stopped";
    ImGui::SameLine(0, page.px(Measure::kGap));
    fine_words(page, said, Role::brass);
    note(page, "photo.coming", said);
}

std::string_view coming_act(const Pixels& pixels, const Photo& photo) {
    const auto cutting = pixels.cutting(photo);
    if (cutting == Pixels::Cutting::no) return {};
    return cutting == Pixels::Cutting::going_on ? "do without full size" : "fetch full size";
}

void stop_or_go_on(Pixels& pixels, const Photo& photo) {
    if (pixels.cutting(photo) == Pixels::Cutting::going_on)
        pixels.stop_cutting(photo);
    else
        pixels.go_on_cutting(photo);
}

void draw_strip(Page& page, Context& context, PhotoLargeState& state, TyingState& tying,
                const PhotoFacts& facts, const PhotoPlace& place) {
    // Many ties scroll here and leave the picture where it is.
    const Scrolling strip("photo.strip");
    const std::string figures = figures_of(facts, state.view, place);
    fine_words(page, cut_to(page, figures, ImGui::GetContentRegionAvail().x, Face::fine));
    note(page, "photo.figures", "figures", figures);
    if (!state.all_come) say_coming(page, context.pixels, facts.photo);
    if (state.filters.shown() && !state.filters.open) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        fine_words(page, "seen through filters", Role::brass);
        note(page, "photo.filtered", "seen through filters");
    }
    damage(page, context, facts);
    if (state.reading) {
        reading_line(page, context, state);
        return;
    }
    if (tying.open) {
        stage_words(page, tying, Digits::are_taken);
        tie_line(page, context, tying, {state.photo});
        state.takes_keyboard = !tying.open;
        return;
    }
    if (state.filters.open && !state.boxing) {
        filters_strip(page, state);
        return;
    }
    if (state.measure.open && !state.boxing) {
        draw_measure_strip(page, context, state.measure, facts.photo);
        return;
    }
    if (state.boxing) {
        words_beside(page, "Drag a box round the mark; Enter takes what is seen.", Role::red_lead);
        note(page, "photo.boxing", "drag a box");
    } else {
        tie_links(page, context, facts);
    }
    acts(page, context, state, tying, facts);
}

} // namespace fettle::ui
