#include "ui/screens/marks.h"

#include "notebook/parts.h"
#include "ui/acts.h"
#include "ui/flow.h"
#include "ui/keyboard_frame.h"
#include "ui/photo_view.h"
#include "ui/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

// All crops stand at one height, so that one stamping can be laid beside the other by eye however
// far the camera was; a very long one is held to a width.
constexpr float kTall = 120, kMostWide = 320;

Result<MarkShown> shown(const Notebook& book, const Mark& mark) {
    auto photo = photo_by_id(book, mark.photo);
    if (!photo) return photo.failure();
    MarkShown with{mark, std::move(*photo), ""};
    if (!mark.part) return with;
    auto part = part_by_id(book, mark.part);
    if (!part) return part.failure();
    with.tag = part->tag;
    return with;
}

double zoom_of(const Page& page, const Mark& mark) {
    return std::min(double(page.px(kTall)) / std::max(1, mark.region.h),
                    double(page.px(kMostWide)) / std::max(1, mark.region.w));
}

void take_frame(MarksState& state, MarkId id) {
    if (state.wanted == id) {
        put_keyboard_here();
        ImGui::SetScrollHereY(0.5F);
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) state.at = id;
}

void draw_mark(Page& page, Context& context, MarksState& state, const MarkShown& with) {
    const Mark& mark = with.mark;
    const double zoom = zoom_of(page, mark);
    const std::string key = "marks.mark." + std::to_string(mark.id.value);
    const float width = std::max(float(mark.region.w * zoom), page.px(64));
    ImGui::BeginGroup();
    if (crop(page, key, mark.reading, context.pixels, with.photo, mark.region, zoom))
        context.go = Place{"photos", mark.photo.value, mark.id.value};
    take_frame(state, mark.id);
    words(page, cut_to(page, mark.reading, std::max(width, page.px(120))));
    const std::string day = with.photo.taken ? "  " + to_words(with.photo.taken->day()) : "";
    fine_words(page, std::string(word(mark.sure)) + day,
               mark.sure == Sureness::certain  ? Role::verdigris
               : mark.sure == Sureness::likely ? Role::pencil
                                               : Role::brass);
    if (!with.tag.empty() && tag_chip(page, key + ".part", with.tag))
        context.go = Place{"parts", mark.part.value};
    ImGui::EndGroup();
}

float width_taken(const Page& page, const MarkShown& with) {
    const double zoom = zoom_of(page, with.mark);
    const float reading = std::min(width_of(page, with.mark.reading), page.px(120));
    return std::max({float(with.mark.region.w * zoom), reading, page.px(120)});
}

void draw_maker(Page& page, Context& context, MarksState& state, const MakerMarks& maker,
                std::size_t number) {
    gap(page, Measure::kMargin);
    ImGui::BeginGroup();
    words(page, maker.maker.empty() ? "maker unknown" : maker.maker,
          maker.maker.empty() ? Role::brass : Role::ink);
    ImGui::SameLine(0, page.px(Measure::kGap));
    std::string said =
        maker.marks.size() == 1 ? "1 mark" : std::to_string(maker.marks.size()) + " marks";
    if (!maker.sign.empty()) said = maker.sign + "     " + said;
    words(page, said, Role::pencil);
    ImGui::EndGroup();
    note(page, "marks.maker." + std::to_string(number),
         maker.maker.empty() ? "maker unknown" : maker.maker, said);
    rule(page);
    if (maker.marks.empty()) {
        fine_print(page, "No mark read as theirs yet.");
        return;
    }
    Flow flow(page, Measure::kGap);
    for (const MarkShown& with : maker.marks) {
        flow.place(width_taken(page, with));
        draw_mark(page, context, state, with);
    }
}

void come_in(MarksState& state, const std::vector<MakerMarks>& makers) {
    if (!just_came_in(state.last_frame) || state.wanted) return;
    state.wanted = state.at;
    for (const MakerMarks& maker : makers)
        if (!state.wanted && !maker.marks.empty()) state.wanted = maker.marks.front().mark.id;
}

} // namespace

Result<std::vector<MakerMarks>> read_marks(const Notebook& book) {
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
    return all;
}

void draw_marks(Page& page, Context& context, MarksState& state) {
    const auto& makers =
        state.makers.of(context.book, 0, [&](int) { return read_marks(context.book); });
    heading(page, "Marks");
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
    for (std::size_t i = 0; i < makers.size(); ++i)
        draw_maker(page, context, state, makers[i], i);
    gap(page, Measure::kMargin);
}

void lead_to(MarksState& state, const Place& place) {
    if (place.record != 0) state.wanted = MarkId{place.record};
}

} // namespace fettle::ui
