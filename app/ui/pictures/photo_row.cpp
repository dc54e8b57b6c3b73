#include "ui/pictures/photo_row.h"

#include "base/text.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kNarrowest = 0.6F, kWidest = 1.9F; // width over height

float shape_of(int width, int height) {
    if (width <= 0 || height <= 0) return 4.0F / 3;
    return static_cast<float>(width) / static_cast<float>(height);
}

} // namespace

float thumbnail_width(int photo_width, int photo_height, float height) {
    return std::floor(height *
                      std::clamp(shape_of(photo_width, photo_height), kNarrowest, kWidest));
}

float thumbnail_width(const Photo& photo, float height) {
    return thumbnail_width(photo.width, photo.height, height);
}

bool thumbnail(Page& page, std::string_view key, Pixels& pixels, const Photo& photo, float height,
               bool selected) {
    const float width = thumbnail_width(photo, height);
    const bool in_sight = ImGui::IsRectVisible(ImVec2(width, height));
    const Texture* texture = in_sight ? pixels.thumbnail(photo) : nullptr;
    ::fettle::ui::Picture picture{.width = width, .height = height, .selected = selected};
    if (texture) picture.texture = texture->id();
    const float shape = shape_of(photo.width, photo.height), shown = width / height;
    if (shape > shown) { // wider than shown: the ends are left out
        picture.u0 = (1 - shown / shape) / 2;
        picture.u1 = 1 - picture.u0;
    } else {
        picture.v0 = (1 - shape / shown) / 2;
        picture.v1 = 1 - picture.v0;
    }
    const bool pressed = image(page, key, photo.original_name, picture);
    keyboard_frame(page);
    return pressed;
}

std::optional<PhotoId> photo_row(Page& page, std::string_view key, Pixels& pixels,
                                 const std::vector<RowPhoto>& photos, float height) {
    std::optional<PhotoId> pressed;
    const float tall = page.px(height);
    Flow flow(page);
    for (const RowPhoto& shown : photos) {
        const float width = thumbnail_width(shown.photo, tall);
        flow.place(width);
        ImGui::BeginGroup();
        const std::string photo_key = std::string(key) + "." + std::to_string(shown.photo.id.value);
        if (thumbnail(page, photo_key, pixels, shown.photo, tall, shown.selected))
            pressed = shown.photo.id;
        if (!shown.caption.empty())
            fine_words(page, cut_to(page, shown.caption, width, Face::fine));
        ImGui::EndGroup();
    }
    return pressed;
}

std::string caption_of(const Tie& tie) {
    std::string name = tie.name;
    // The tag alone says which part it is.
    if (std::holds_alternative<PartId>(tie.to)) name = std::string(split(name, ' ').front());
    const bool entry = std::holds_alternative<EntryId>(tie.to);
    return entry ? "in an entry" : name + " " + std::string(word(tie.stage));
}

std::string time_of(const Photo& photo) {
    if (!photo.taken) return safe_utf8(photo.original_name);
    const std::string said = to_words(*photo.taken); // "7 Mar 2026, 19:42"
    const auto comma = said.find(", ");
    return comma == std::string::npos ? said : said.substr(comma + 2);
}

} // namespace fettle::ui
