#include "ui/screens/photos/photo_compare_strip.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/pixels.h"
#include "ui/screens/photos/photo_match.h"
#include "ui/screens/photos/photo_strip.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

std::string figures_of(const CompareState& state, const ComparedFacts& facts, const Laid& laid) {
    std::vector<std::string> said{facts.one_said + "  |  " + facts.other_said,
                                  std::to_string(std::lround(state.view.zoom * 100)) + " %"};
    if (const std::string lies = lies_words(state.view); !lies.empty()) said.push_back(lies);
    const std::size_t points = facts.pair.points.size();
    if (points == 0)
        said.push_back("no matching points: middle on middle");
    else if (points == 1)
        said.push_back("1 matching point, at least 2 are needed");
    else if (laid.by_points)
        said.push_back("laid on each other by " + std::to_string(points) + " points");
    if (const std::string misses = misses_in_words(laid); !misses.empty()) said.push_back(misses);
    return join(said, "     ");
}

// The one whose picture leads changes; what is in sight stays in sight.
void swap(CompareState& state, const Laid& laid) {
    const auto back = photos::undone(laid.map);
    const PicturePoint middle{state.view.x, state.view.y};
    state.view.zoom /= scale_at(back, middle);
    const auto there = back(middle);
    state.view.x = there.x;
    state.view.y = there.y;
    std::swap(state.one, state.other);
}

void go_on_to_another(CompareState& state, const ComparedFacts& facts) {
    const auto at = std::ranges::find(facts.others, state.other);
    const auto next =
        at == facts.others.end() || at + 1 == facts.others.end() ? facts.others.begin() : at + 1;
    state.other = *next;
}

struct Acts {
    Page& page;
    Flow flow;
    bool operator()(std::string_view key, std::string_view label, const Chord& chord,
                    bool enabled = true) {
        const std::string hint = words_of(chord);
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint, .enabled = enabled};
        flow.place_button(label, look);
        return button(page, key, label, look) || (enabled && pressed(chord));
    }
};

void matching_acts(Page& page, Context& context, CompareState& state, const ComparedFacts& facts) {
    draw_matching_words(page, state, facts);
    Acts act{page, Flow(page, Measure::kStep)};
    const bool some = !facts.pair.points.empty() || state.matching.half;
    if (act("compare.match.last", "remove the last", {.key = int(Key::backspace)}, some))
        remove_last_point(context, state, facts);
    if (act("compare.match.all", "remove all", {.key = int(Key::backspace), .shift = true}, some))
        remove_points(context, state, facts);
    if (act("compare.match.done", "done", {.key = int(Key::escape)})) state.matching = {};
    const char* hint = "drag a point to move it, right button removes it     + − nearer, farther";
    act.flow.place_words(hint, Face::fine);
    words_beside(page, hint, Role::pencil, Face::fine);
}

void wiping_acts(Acts& act, CompareState& state) {
    if (act("compare.edge.turn", state.edge_lies ? "edge upright" : "edge level", {.key = 'D'}))
        state.edge_lies = !state.edge_lies;
}

// One picture is cut at a time, so one is told of at a time.
const Photo& coming_first(const Pixels& pixels, const ComparedFacts& facts) {
    return pixels.cutting(facts.one) != Pixels::Cutting::no ? facts.one : facts.other;
}

// False: back.
bool comparing_acts(Page& page, Context& context, CompareState& state, const ComparedFacts& facts,
                    const Laid& laid) {
    if (!laid.trouble.empty()) fine_print(page, laid.trouble, Role::brass);
    Acts act{page, Flow(page, Measure::kStep)};
    const bool wiped = state.way == CompareState::wiped;
    if (act("compare.way", wiped ? "beside each other" : "over each other", {.key = 'W'})) {
        state.way = wiped ? CompareState::beside : CompareState::wiped;
        state.takes_keyboard = true; // what had it is gone
    }
    if (wiped) wiping_acts(act, state);
    if (act("compare.swap", "change sides", {.key = 'S'})) swap(state, laid);
    if (act("compare.another", "another photo", {.key = 'N'}, facts.others.size() > 1))
        go_on_to_another(state, facts);
    if (act("compare.match", "matching points", {.key = 'P'})) begin_matching(state, facts);
    if (facts.pair.points.size() > 2 &&
        act("compare.rigid", state.only_turned ? "bend to the points" : "turn and size only",
            {.key = 'B'}))
        state.only_turned = !state.only_turned;
    if (act("compare.fit", "fit", {.key = '0'})) state.fitted = true;
    if (act("compare.as_taken", "as taken", {.key = int(Key::home)})) {
        state.view = {};
        state.fitted = true;
    }
    const Photo& coming = coming_first(context.pixels, facts);
    if (const auto label = coming_act(context.pixels, coming); !label.empty() && !state.all_come)
        if (act("photo.coming.stop", label, {.key = int(Key::del)}))
            stop_or_go_on(context.pixels, coming);
    const bool back = act("compare.back", "back", {.key = int(Key::escape)});
    const char* keys =
        wiped ? "+  −  nearer, farther     1  one to one     ,  .  move the edge     "
                "R  turn     X  mirror     arrows move"
              : "+  −  nearer, farther     1  one to one     R  turn     X  mirror     "
                "arrows move";
    act.flow.place_words(keys, Face::fine);
    words_beside(page, keys, Role::pencil, Face::fine);
    return !back;
}

} // namespace

bool draw_compare_strip(Page& page, Context& context, CompareState& state,
                        const ComparedFacts& facts, const Laid& laid) {
    const std::string figures = figures_of(state, facts, laid);
    fine_words(page, cut_to(page, figures, ImGui::GetContentRegionAvail().x, Face::fine));
    note(page, "compare.figures", "figures", figures);
    if (!state.all_come) say_coming(page, context.pixels, coming_first(context.pixels, facts));
    if (!state.matching.on) return comparing_acts(page, context, state, facts, laid);
    matching_acts(page, context, state, facts);
    return true;
}

} // namespace fettle::ui
