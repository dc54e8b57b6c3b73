#include "ui/screens/marks/marks.h"

#include "notebook/parts.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

void torch_links(Page& page, MarksState& state, const std::string& key, MarkId id) {
    if (link(page, key + ".again", "make it again", Face::fine))
        lead_to(state.torch, {.screen = "marks", .record = id.value, .view = "torch"});
    if (link(page, key + ".compare", "compare", Face::fine)) compare_torch(state.torch, id);
}

void torch_act(Page& page, MarksState& state) {
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "marks.torch", "torch set", {.weight = Weight::quiet, .key_hint = "T"}) ||
        pressed({.key = 'T'}))
        lead_to(state.torch, {.screen = "marks", .view = "torch"});
}

void draw_one(Page& page, Context& context, MarksState& state, const MarkShown& with) {
    const MarkId id = with.mark.id;
    const std::string key = "marks.mark." + std::to_string(id.value);
    ImGui::BeginGroup();
    const bool has_keyboard = draw_mark(page, context, key, with, state.wanted == id);
    if (link(page, key + ".like", "where else", Face::fine)) state.like.asked = id;
    if (with.torch) torch_links(page, state, key, id);
    ImGui::EndGroup();
    if (state.wanted == id) {
        ImGui::SetScrollHereY(0.5F);
        state.wanted = {};
    }
    if (has_keyboard) state.at = id;
}

// Whose marks belong on which vehicle: a word a vehicle, on or off.
void belongs_on(Page& page, Context& context, const MakerMarks& maker, std::size_t number,
                const std::vector<VehicleMakers>& vehicles) {
    Flow flow(page);
    flow.place_words("belongs on", Face::fine);
    words_beside(page, "belongs on", Role::pencil, Face::fine);
    for (std::size_t at = 0; at < vehicles.size(); ++at) {
        const auto& [vehicle, makers] = vehicles[at];
        bool on = std::ranges::find(makers, maker.maker) != makers.end();
        flow.place(width_of(page, vehicle.name) + page.px(Measure::kRow));
        if (!check(page, "marks.on." + std::to_string(number) + "." + std::to_string(at),
                   vehicle.name, on))
            continue;
        auto wanted = makers_on(context.book, vehicle.id); // what is shown may be a moment old
        if (!context.went_well(wanted)) continue;
        std::erase(*wanted, maker.maker);
        if (on) wanted->push_back(maker.maker);
        context.went_well(set_makers_on(context.book, vehicle, *wanted));
    }
}

void draw_maker(Page& page, Context& context, MarksState& state, const MakerMarks& maker,
                std::size_t number, const std::vector<VehicleMakers>& vehicles) {
    gap(page, Measure::kMargin);
    ImGui::BeginGroup();
    std::string said =
        maker.marks.size() == 1 ? "1 mark" : std::to_string(maker.marks.size()) + " marks";
    if (!maker.sign.empty()) said = maker.sign + "     " + said;
    const float room = ImGui::GetContentRegionAvail().x;
    const float beside = std::min(width_of(page, said) + page.px(Measure::kGap), room / 2);
    words(page, cut_to(page, maker.maker.empty() ? "maker unknown" : maker.maker, room - beside),
          maker.maker.empty() ? Role::brass : Role::ink);
    ImGui::SameLine(0, page.px(Measure::kGap));
    words(page, said, Role::pencil);
    ImGui::EndGroup();
    note(page, "marks.maker." + std::to_string(number),
         maker.maker.empty() ? "maker unknown" : maker.maker, said);
    if (!maker.maker.empty()) belongs_on(page, context, maker, number, vehicles);
    rule(page);
    if (maker.marks.empty()) {
        fine_print(page, "No mark read as theirs yet.");
        return;
    }
    draw_in_lines(
        page, state.lines, maker.marks.size(), state.wanted,
        [&](std::size_t i) -> const MarkShown& { return maker.marks[i]; },
        [&](std::size_t i) { draw_one(page, context, state, maker.marks[i]); });
}

void come_in(MarksState& state, const std::vector<MakerMarks>& makers) {
    if (!just_came_in(state.last_frame) || state.wanted) return;
    state.wanted = state.at;
    for (const MakerMarks& maker : makers)
        if (!state.wanted && !maker.marks.empty()) state.wanted = maker.marks.front().mark.id;
}

} // namespace

Result<MarksRead> read_marks(const Notebook& book) {
    auto makers = list_makers(book);
    if (!makers) return makers.failure();
    auto marks = list_marks(book);
    if (!marks) return marks.failure();
    std::vector<MakerMarks> all;
    for (const Maker& maker : *makers)
        all.push_back({maker.name, maker.sign, {}});
    std::ranges::sort(all, {}, &MakerMarks::maker);
    all.push_back({});
    for (const Mark& mark : *marks) {
        auto with = shown(book, mark);
        if (!with) return with.failure();
        const auto of = std::ranges::find(all, mark.maker, &MakerMarks::maker);
        (of == all.end() ? all.back() : *of).marks.push_back(std::move(*with));
    }
    if (all.back().marks.empty()) all.pop_back();
    MarksRead read{std::move(all), {}, {}};
    auto vehicles = list_vehicles(book);
    if (!vehicles) return vehicles.failure();
    for (auto& vehicle : *vehicles) {
        auto on = makers_on(book, vehicle.id);
        if (!on) return on.failure();
        read.vehicles.push_back({std::move(vehicle), std::move(*on)});
    }
    auto wrong = read_wrong_vehicle(book);
    if (!wrong) return wrong.failure();
    read.wrong = std::move(*wrong);
    return read;
}

void draw_marks(Page& page, Context& context, MarksState& state) {
    if (state.torch.step != TorchState::Step::closed) {
        draw_torch(page, context, state.torch);
        return;
    }
    if (state.like.asked) return draw_marks_like(page, context, state.like);
    const auto& read = state.makers.beside(
        context.side, context.book, 0, [](const Notebook& book, int) { return read_marks(book); });
    const auto& makers = read.makers;
    heading(page, "Marks");
    torch_act(page, state);
    if (state.makers.nothing_yet()) return being_read(page, "marks.reading");
    if (!state.makers.failure().empty())
        notice(page, "marks.trouble", Tell::stop, state.makers.failure());
    const bool any =
        std::ranges::any_of(makers, [](const MakerMarks& maker) { return !maker.marks.empty(); });
    if (!any && makers.empty()) {
        if (empty_page(page, "marks.empty",
                       {"Stampings, casting and inspection marks gather here by their maker. Open "
                        "a photo large, press M and drag a box round one to read it.",
                        "look through the photos"}))
            context.go = Place{"photos"};
        return;
    }
    come_in(state, makers);
    draw_wrong_vehicle(page, context, read.wrong);
    for (std::size_t i = 0; i < makers.size(); ++i)
        draw_maker(page, context, state, makers[i], i, read.vehicles);
    gap(page, Measure::kMargin);
}

void lead_to(MarksState& state, const Place& place) {
    if (place.view == "torch") return lead_to(state.torch, place);
    if (place.record != 0 || place.view == "marks") state.torch.step = TorchState::Step::closed;
    if (place.record == 0) return;
    state.wanted = MarkId{place.record};
    state.like.asked = {};
}

} // namespace fettle::ui
