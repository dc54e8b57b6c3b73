#include "ui/screens/marks/mark_shown.h"

#include "desk/torch_marks.h"
#include "notebook/parts.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/photos/photo_filters.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

// All crops stand at one height, so that one stamping can be laid beside the other by eye however
// far the camera was; a very long one is held to a width.
// Words below a crop are cut to its width, or to what they mostly take.
constexpr float kTall = 120, kMostWide = 320, kLeastWide = 160;

double zoom_of(const Page& page, const Region& region) {
    return std::min(double(page.px(kTall)) / std::max(1, region.h),
                    double(page.px(kMostWide)) / std::max(1, region.w));
}

// The mark as it was made legible: the picture of its relief in the place of its own crop.
Mark seen_mark(const MarkShown& with) {
    Mark mark = with.mark;
    if (!with.picture) return mark;
    mark.region = {0, 0, with.picture->width, with.picture->height};
    mark.seen_with.clear();
    return mark;
}

} // namespace

Result<MarkShown> shown(const Notebook& book, const Mark& mark) {
    auto photo = photo_by_id(book, mark.photo);
    if (!photo) return photo.failure();
    MarkShown with{mark, std::move(*photo), ""};
    if (const auto recipe = desk::torch_recipe_of(mark); recipe && *recipe) {
        with.torch = true;
        // One that is no longer there is done without.
        if (auto picture = photo_by_id(book, (*recipe)->picture))
            with.picture = *std::move(picture);
    }
    if (!mark.part) return with;
    auto part = part_by_id(book, mark.part);
    if (!part) return part.failure();
    with.tag = part->tag;
    return with;
}

bool draw_mark(Page& page, Context& context, const std::string& key, const MarkShown& with,
               bool takes_keyboard) {
    const Mark mark = seen_mark(with);
    const double zoom = zoom_of(page, mark.region);
    const float width = std::max(float(mark.region.w * zoom), page.px(64));
    ImGui::BeginGroup();
    const Photo& photo = with.picture ? *with.picture : with.photo;
    if (mark_crop(page, key, context.pixels, photo, mark, zoom))
        context.go = Place{"photos", mark.photo.value, mark.id.value};
    if (takes_keyboard) put_keyboard_here();
    const bool has_keyboard = ImGui::IsItemFocused();
    words(page, cut_to(page, mark.reading, std::max(width, page.px(kLeastWide))));
    const std::string day = with.photo.taken ? "  " + to_words(with.photo.taken->day()) : "";
    fine_words(page, std::string(word(mark.sure)) + day,
               mark.sure == Sureness::certain  ? Role::verdigris
               : mark.sure == Sureness::likely ? Role::pencil
                                               : Role::brass);
    if (!with.tag.empty() && tag_chip(page, key + ".part", with.tag))
        context.go = Place{"parts", mark.part.value};
    ImGui::EndGroup();
    return has_keyboard;
}

float mark_width(const Page& page, const MarkShown& with) {
    const Region region = seen_mark(with).region;
    return std::max(float(region.w * zoom_of(page, region)), page.px(kLeastWide));
}

} // namespace fettle::ui
