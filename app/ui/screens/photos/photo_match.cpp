#include "ui/screens/photos/photo_match.h"

#include "ui/pictures/photo_paint.h"
#include "ui/widgets/day_words.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kGrip = 12; // how near to a point the pointer takes it

const std::vector<MatchingPoint>& points_of(const CompareState& state, const ComparedFacts& facts) {
    return state.matching.dragged ? state.matching.moved : facts.pair.points;
}

// The pair lays the other onto the one.
PicturePoint in_pane(const MatchingPoint& point, bool is_one) {
    return is_one ? PicturePoint{point.onto_x, point.onto_y} : PicturePoint{point.x, point.y};
}

void put_in_pane(MatchingPoint& point, bool is_one, PicturePoint at) {
    (is_one ? point.onto_x : point.x) = at.x;
    (is_one ? point.onto_y : point.y) = at.y;
}

std::optional<std::size_t> point_under(const Page& page, const CompareState& state,
                                       const ComparedFacts& facts, const ComparedPane& pane) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const auto& points = points_of(state, facts);
    for (std::size_t i = points.size(); i-- > 0;) {
        const auto at = pane.map(in_pane(points[i], pane.is_one));
        if (std::hypot(at.x - pointer.x, at.y - pointer.y) <= page.px(kGrip)) return i;
    }
    return std::nullopt;
}

// Kept unless the points would then settle nothing.
void keep(Context& context, CompareState& state, const ComparedFacts& facts,
          std::vector<MatchingPoint> points) {
    ComparedFacts changed{facts.one, facts.other, {}, {}, facts.pair, {}};
    changed.pair.points = std::move(points);
    state.matching.refused = laid_on(changed, false).trouble;
    if (!state.matching.refused.empty()) return;
    const Done kept = keep_photo_pair(context.book, changed.pair);
    if (!context.went_well(kept)) state.matching.refused = context.trouble;
}

PicturePoint pointed_at(const ComparedPane& pane, const Photo& photo) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const auto at = photos::undone(pane.map)({pointer.x, pointer.y});
    return {std::clamp(at.x, 0.0, double(photo.width)),
            std::clamp(at.y, 0.0, double(photo.height))};
}

bool inside(PicturePoint at, const Photo& photo) {
    return at.x >= 0 && at.y >= 0 && at.x <= photo.width && at.y <= photo.height;
}

// A click: half a point in this photo, or the other half of one begun in the other.
void put_point(Context& context, CompareState& state, const ComparedFacts& facts,
               const ComparedPane& pane) {
    MatchingState& matching = state.matching;
    const Photo& photo = pane.is_one ? facts.one : facts.other;
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const auto at = photos::undone(pane.map)({pointer.x, pointer.y});
    if (!inside(at, photo)) return;
    matching.refused.clear();
    if (matching.half && matching.half_in_one != pane.is_one) {
        auto points = facts.pair.points;
        MatchingPoint fresh;
        put_in_pane(fresh, pane.is_one, at);
        put_in_pane(fresh, matching.half_in_one, *matching.half);
        matching.half.reset();
        points.push_back(fresh);
        keep(context, state, facts, std::move(points));
        return;
    }
    if (facts.pair.points.size() >= kMostMatchingPoints) {
        matching.refused = "There are four matching points, which is all that is needed: drag one, "
                           "or remove one first.";
        return;
    }
    matching.half = at;
    matching.half_in_one = pane.is_one;
}

void draw_point(Page& page, ImVec2 at, std::size_t number, Role role) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const float radius = page.px(9), reach = page.px(15);
    for (const bool light : {true, false}) {
        const unsigned tone = light ? page.tone(Role::paper, 0.85F) : page.tone(role);
        const float thick = page.px(light ? 4 : 2);
        pen->AddCircle(at, radius, tone, 24, thick);
        pen->AddLine({at.x - reach, at.y}, {at.x - page.px(3), at.y}, tone, thick);
        pen->AddLine({at.x + page.px(3), at.y}, {at.x + reach, at.y}, tone, thick);
        pen->AddLine({at.x, at.y - reach}, {at.x, at.y - page.px(3)}, tone, thick);
        pen->AddLine({at.x, at.y + page.px(3)}, {at.x, at.y + reach}, tone, thick);
    }
    label_over(page, {at.x + radius + page.px(3), at.y + radius}, std::to_string(number + 1));
}

std::string pixels_in_words(double pixels) {
    if (pixels < 0.05) return "less than 0.1 pixels";
    return said_number(std::round(pixels * 10) / 10) + " pixels";
}

} // namespace

void begin_matching(CompareState& state, const ComparedFacts& facts) {
    state.matching = {.on = true, .map = laid_on(facts, true).map};
    state.way = CompareState::beside;
    state.takes_keyboard = true;
}

bool match_by_pointer(Page& page, Context& context, CompareState& state, const ComparedFacts& facts,
                      const ComparedPane& pane) {
    MatchingState& matching = state.matching;
    const ImGuiIO& io = ImGui::GetIO();
    const Photo& photo = pane.is_one ? facts.one : facts.other;
    const bool hovered = ImGui::IsItemHovered();
    const auto under = point_under(page, state, facts, pane);
    if (under && hovered && !matching.dragged) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    if (hovered && under && ImGui::IsMouseClicked(ImGuiMouseButton_Right)) {
        auto points = facts.pair.points;
        points.erase(points.begin() + std::ptrdiff_t(*under));
        keep(context, state, facts, std::move(points));
        return true;
    }
    if (ImGui::IsItemActivated() && under && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
        matching.dragged = under;
        matching.dragged_in_one = pane.is_one;
        matching.moved = facts.pair.points;
        return true;
    }
    if (matching.dragged && matching.dragged_in_one == pane.is_one) {
        if (ImGui::IsMouseDragging(ImGuiMouseButton_Left))
            put_in_pane(matching.moved[*matching.dragged], pane.is_one, pointed_at(pane, photo));
        if (ImGui::IsMouseDown(ImGuiMouseButton_Left)) return true;
        matching.dragged.reset();
        if (matching.moved != facts.pair.points) keep(context, state, facts, matching.moved);
        return true;
    }
    const bool let_go =
        ImGui::IsItemDeactivated() && hovered && ImGui::IsMouseReleased(ImGuiMouseButton_Left);
    const float threshold = io.MouseDragThreshold * io.MouseDragThreshold;
    if (let_go && io.MouseDragMaxDistanceSqr[0] < threshold) put_point(context, state, facts, pane);
    return false;
}

void draw_points(Page& page, const CompareState& state, const ComparedFacts& facts,
                 const ComparedPane& pane) {
    const auto& points = points_of(state, facts);
    const auto draw = [&](PicturePoint in_photo, std::size_t number, Role role) {
        const auto at = pane.map(in_photo);
        const ImVec2 place{float(at.x), float(at.y)};
        draw_point(page, place, number, role);
        const float grip = page.px(kGrip);
        note_area(page,
                  std::string(pane.is_one ? "compare.point.one." : "compare.point.other.") +
                      std::to_string(number + 1),
                  "matching point " + std::to_string(number + 1),
                  {place.x - grip, place.y - grip, place.x + grip, place.y + grip});
    };
    for (std::size_t i = 0; i < points.size(); ++i)
        draw(in_pane(points[i], pane.is_one), i, Role::red_lead);
    if (state.matching.half && state.matching.half_in_one == pane.is_one)
        draw(*state.matching.half, points.size(), Role::brass);
}

std::string misses_in_words(const Laid& laid) {
    if (!laid.by_points || !laid.more_than_needed) return {};
    return "The points miss each other by " + pixels_in_words(laid.misses.typical) +
           " as a rule, by " + pixels_in_words(laid.misses.worst) + " at point " +
           std::to_string(laid.misses.worst_at + 1) + ".";
}

void draw_matching_words(Page& page, const CompareState& state, const ComparedFacts& facts) {
    const std::size_t count = facts.pair.points.size();
    const MatchingState& matching = state.matching;
    std::string said;
    if (!matching.refused.empty())
        said = matching.refused;
    else if (matching.half)
        said = "Now click the same spot in the " +
               std::string(matching.half_in_one ? "right" : "left") + " photo.";
    else if (count < 2)
        said = "Click a spot in one photo, then the same spot in the other: two points turn and "
               "size, three shear, four also tilt.";
    else if (count < kMostMatchingPoints)
        said = count == 2 ? "Two points: turned and sized. A third also shears."
                          : "Three points: sheared as well. A fourth also tilts.";
    else
        said = "Four points: tilted as well, as if seen from the same place.";
    body(page, said, matching.refused.empty() ? Role::red_lead : Role::brass);
    note(page, matching.refused.empty() ? "compare.matching" : "compare.refused", said);
}

void remove_last_point(Context& context, CompareState& state, const ComparedFacts& facts) {
    state.matching.refused.clear();
    if (state.matching.half) {
        state.matching.half.reset();
        return;
    }
    auto points = facts.pair.points;
    if (points.empty()) return;
    points.pop_back();
    keep(context, state, facts, std::move(points));
}

void remove_points(Context& context, CompareState& state, const ComparedFacts& facts) {
    state.matching.refused.clear();
    state.matching.half.reset();
    if (!facts.pair.points.empty()) keep(context, state, facts, {});
}

} // namespace fettle::ui
