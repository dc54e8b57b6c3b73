#include "ui/screens/photos/photo_measure.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

using photos::ClickedPoint;
using photos::KnownLength;
using photos::KnownRectangle;
using photos::PlaneMap;

constexpr float kGripReach = 10, kGrip = 5, kTick = 8; // before scaling

const MeasuredPhoto& measured_in(Context& context, PhotoMeasureState& state, const Photo& photo) {
    return state.kept.of(context.book, photo.id.value,
                         [&](std::int64_t) { return read_measured(context.book, photo.id); });
}

ImVec2 on_screen(const PlaneMap& map, const ClickedPoint& point) {
    const auto at = map({point.x, point.y});
    return {float(at.x), float(at.y)};
}

std::vector<ClickedPoint> points_of(const photos::KnownInPicture& known) {
    if (const auto* length = std::get_if<KnownLength>(&known))
        return {length->ends.begin(), length->ends.end()};
    const auto& corners = std::get<KnownRectangle>(known).corners;
    return {corners.begin(), corners.end()};
}

struct Drawn {
    Grip grip;
    ClickedPoint at;
};

// All points there are to draw, the one being drawn where the pointer has it.
std::vector<Drawn> grips(const PhotoMeasureState& state, const MeasuredPhoto& measured) {
    std::vector<Drawn> all;
    const auto add = [&](const Grip& grip, const ClickedPoint& at) {
        all.push_back({grip, state.held == grip ? state.held_at : at});
    };
    for (std::size_t i = 0; i < state.setting.size(); ++i)
        add({Grip::Of::setting, 0, i}, state.setting[i]);
    if (measured.known && !state.changing) {
        const auto known = points_of(*measured.known);
        for (std::size_t i = 0; i < known.size(); ++i)
            add({Grip::Of::known, 0, i}, known[i]);
    }
    for (std::size_t line = 0; line < measured.lines.size(); ++line)
        for (std::size_t i = 0; i < 2; ++i)
            add({Grip::Of::distance, line, i}, measured.lines[line].ends[i]);
    return all;
}

ClickedPoint clicked_at(const MeasureView& on, ImVec2 screen) {
    const auto at = picture_point(on.where, on.view, screen.x, screen.y);
    return {std::clamp(at.x, 0.0, double(on.photo.width)),
            std::clamp(at.y, 0.0, double(on.photo.height)), photos::sure_of_click(on.view.zoom)};
}

// The nearest within reach of the pointer.
const Drawn* grip_under(const std::vector<Drawn>& all, const PlaneMap& map, ImVec2 pointer,
                        float reach) {
    const Drawn* nearest = nullptr;
    for (const Drawn& one : all) {
        const ImVec2 at = on_screen(map, one.at);
        const float away = std::hypot(at.x - pointer.x, at.y - pointer.y);
        if (away > reach) continue;
        reach = away;
        nearest = &one;
    }
    return nearest;
}

void put(photos::KnownInPicture& known, std::size_t point, const ClickedPoint& at) {
    if (auto* length = std::get_if<KnownLength>(&known))
        length->ends[point] = at;
    else
        std::get<KnownRectangle>(known).corners[point] = at;
}

void keep(Context& context, const MeasuredPhoto& measured, const photos::KnownInPicture& known,
          const std::vector<photos::Distance>& distances, const std::string& words) {
    context.went_well(
        keep_scale(context.book, {measured.photo, to_json(known), to_json(distances)}, words));
}

std::vector<photos::Distance> distances_of(const MeasuredPhoto& measured) {
    std::vector<photos::Distance> distances;
    for (const auto& line : measured.lines)
        distances.push_back(line.ends);
    return distances;
}

// The point lies where the button was let go; what makes no sense there goes back.
void let_go(Context& context, PhotoMeasureState& state, const MeasuredPhoto& measured) {
    const Grip grip = *state.held;
    state.held.reset();
    state.error.clear();
    if (grip.of == Grip::Of::setting) {
        if (grip.point < state.setting.size()) state.setting[grip.point] = state.held_at;
        return;
    }
    if (!measured.known) return;
    auto known = *measured.known;
    auto distances = distances_of(measured);
    if (grip.of == Grip::Of::known) {
        put(known, grip.point, state.held_at);
        if (auto fine = photos::check_known(known); !fine) {
            state.error = fine.failure().sentence;
            return;
        }
    } else if (grip.distance < distances.size()) {
        distances[grip.distance][grip.point] = state.held_at;
        if (auto fine = photos::measure(known, distances[grip.distance]); !fine) {
            state.error = fine.failure().sentence;
            return;
        }
    }
    keep(context, measured, known, distances, "moved a point in a photo");
}

void end_distance(Context& context, PhotoMeasureState& state, const MeasuredPhoto& measured,
                  const ClickedPoint& at) {
    const photos::Distance distance{*state.from, at};
    state.from.reset();
    const auto figure = photos::measure(*measured.known, distance);
    if (!figure) {
        state.error = figure.failure().sentence;
        return;
    }
    auto distances = distances_of(measured);
    distances.push_back(distance);
    keep(context, measured, *measured.known, distances,
         "measured " + photos::in_words(*figure, "mm") + " in a photo");
}

void put_point(Context& context, PhotoMeasureState& state, const MeasuredPhoto& measured,
               const ClickedPoint& at) {
    if (!measured.trouble.empty()) return;
    if (!state.setting_up(measured)) {
        state.error.clear();
        if (state.from)
            end_distance(context, state, measured, at);
        else
            state.from = at;
        return;
    }
    if (state.setting.size() >= state.points_needed()) return;
    state.error.clear();
    state.setting.push_back(at);
    state.take_caret = state.setting.size() == state.points_needed();
}

// Lines are drawn light below and dark above: seen on rust as well as on paint.
struct Pen {
    Page& page;
    ImDrawList* list = ImGui::GetWindowDrawList();
    std::vector<Rect> slips = {}; // of paper that lie already

    void line(ImVec2 from, ImVec2 to, Role role) const {
        list->AddLine(from, to, page.tone(Role::paper, 0.85F), page.px(4));
        list->AddLine(from, to, page.tone(role), page.px(2));
    }
    void point(ImVec2 at, Role role, bool held) const {
        list->AddCircle(at, page.px(kGrip), page.tone(Role::paper, 0.85F), 20, page.px(4));
        list->AddCircle(at, page.px(kGrip), page.tone(role), 20, page.px(held ? 3 : 2));
    }
    // Words on a slip of paper beside the middle of a line, so that what is measured stays in
    // sight; lower down where another slip lies already.
    void slip(ImVec2 from, ImVec2 to, const std::string& text, Role role) {
        const InFace fine(page, Face::fine);
        const ImVec2 size = ImGui::CalcTextSize(text.c_str());
        const float pad = page.px(4), across = std::abs(to.x - from.x);
        const bool upright = std::abs(to.y - from.y) > across;
        ImVec2 low((from.x + to.x - size.x) / 2, (from.y + to.y - size.y) / 2);
        if (upright)
            low.x += size.x / 2 + page.px(14);
        else
            low.y -= size.y / 2 + page.px(14);
        low = ImVec2(std::round(low.x), std::round(low.y));
        const auto paper = [&] {
            return Rect{low.x - pad, low.y - pad / 2, low.x + size.x + pad,
                        low.y + size.y + pad / 2};
        };
        for (std::size_t i = 0; i < slips.size(); ++i)
            if (!slips[i].within(paper()).empty()) {
                low.y = slips[i].bottom + pad;
                i = std::size_t(-1); // it may have come over one looked at before
            }
        const Rect at = paper();
        list->AddRectFilled(ImVec2(at.left, at.top), ImVec2(at.right, at.bottom),
                            page.tone(Role::paper, 0.94F));
        list->AddText(low, page.tone(role), text.c_str());
        slips.push_back(at);
    }
    // A dimension line with a tick across each end.
    void dimension(ImVec2 from, ImVec2 to, Role role) const {
        line(from, to, role);
        const float away = std::max(1.0F, std::hypot(to.x - from.x, to.y - from.y));
        const ImVec2 across(-(to.y - from.y) / away * page.px(kTick),
                            (to.x - from.x) / away * page.px(kTick));
        for (const ImVec2 end : {from, to})
            line(ImVec2(end.x - across.x, end.y - across.y),
                 ImVec2(end.x + across.x, end.y + across.y), role);
    }
};

// What is known, or will be: a line, or a rectangle as far as its corners are set.
void draw_known(Pen& pen, const std::vector<ImVec2>& points, bool rectangle,
                const std::string& words) {
    const Role role = Role::verdigris;
    for (std::size_t i = 0; i + 1 < points.size(); ++i)
        pen.line(points[i], points[i + 1], role);
    if (rectangle && points.size() == 4) pen.line(points[3], points[0], role);
    if (words.empty() || points.size() < 2) return;
    pen.slip(points[0], points[1], words, role);
}

std::vector<ImVec2> points_on_screen(const std::vector<Drawn>& all, const PlaneMap& map,
                                     Grip::Of of) {
    std::vector<ImVec2> points;
    for (const Drawn& one : all)
        if (one.grip.of == of) points.push_back(on_screen(map, one.at));
    return points;
}

// The points themselves, over everything, noted so that they can be drawn by their keys.
void draw_points(const Pen& pen, const std::vector<Drawn>& all, const PlaneMap& map,
                 const std::optional<Grip>& held) {
    const float reach = pen.page.px(kGripReach);
    for (const Drawn& one : all) {
        const ImVec2 at = on_screen(map, one.at);
        pen.point(at, one.grip.of == Grip::Of::distance ? Role::red_lead : Role::verdigris,
                  held == one.grip);
        const char* of = one.grip.of == Grip::Of::setting ? "setting"
                         : one.grip.of == Grip::Of::known ? "known"
                                                          : "distance";
        const std::string line =
            one.grip.of == Grip::Of::distance ? "." + std::to_string(one.grip.distance) : "";
        note_area(pen.page,
                  "measure.point." + std::string(of) + line + "." + std::to_string(one.grip.point),
                  "point", {at.x - reach, at.y - reach, at.x + reach, at.y + reach});
    }
}

} // namespace

bool measure_by_pointer(Context& context, PhotoMeasureState& state, const MeasureView& on,
                        bool clicked) {
    const auto& measured = measured_in(context, state, on.photo);
    const auto map = to_screen(on.where, on.view);
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const bool down = ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (ImGui::IsItemActivated() && down) {
        const auto all = grips(state, measured);
        const float reach = kGripReach * ImGui::GetFontSize() / Measure::kBody;
        if (const Drawn* under = grip_under(all, map, pointer, reach)) {
            state.held = under->grip;
            state.held_at = under->at;
        }
    }
    const bool moved = ImGui::IsMouseDragging(ImGuiMouseButton_Left);
    if (state.held && down && moved) state.held_at = clicked_at(on, pointer);
    if (state.held && !down) {
        if (!clicked) {
            let_go(context, state, measured);
            return true;
        }
        // Let go where it was pressed: a distance may begin or end at a point there is.
        state.held.reset();
        if (!state.setting_up(measured)) put_point(context, state, measured, state.held_at);
        return true;
    }
    if (!state.held && clicked) put_point(context, state, measured, clicked_at(on, pointer));
    return state.held.has_value();
}

void draw_measured(Page& page, Context& context, PhotoMeasureState& state, const MeasureView& on) {
    const auto& measured = measured_in(context, state, on.photo);
    const auto map = to_screen(on.where, on.view);
    const auto all = grips(state, measured);
    Pen pen{page};
    draw_known(pen, points_on_screen(all, map, Grip::Of::setting), state.by_rectangle, "");
    if (measured.known)
        draw_known(pen, points_on_screen(all, map, Grip::Of::known),
                   std::holds_alternative<KnownRectangle>(*measured.known),
                   "known " + measured.known_words);
    const auto ends = points_on_screen(all, map, Grip::Of::distance);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2)
        pen.dimension(ends[i], ends[i + 1], Role::red_lead);
    for (std::size_t i = 0; 2 * i + 1 < ends.size(); ++i) { // over all lines
        const auto& line = measured.lines[i];
        const std::string number = std::to_string(i + 1) + "   ";
        pen.slip(ends[2 * i], ends[2 * i + 1],
                 number + (line.figure ? line.metric + "\n     " + line.inch : "no figure"),
                 line.figure ? Role::ink : Role::brass);
    }
    if (state.from) {
        pen.line(on_screen(map, *state.from), ImGui::GetIO().MousePos, Role::red_lead);
        pen.point(on_screen(map, *state.from), Role::red_lead, false);
    }
    draw_points(pen, all, map, state.held);
}

} // namespace fettle::ui
