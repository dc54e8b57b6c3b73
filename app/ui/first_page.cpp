#include "ui/first_page.h"

#include "base/text.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"

#include <imgui.h>

#include <utility>

namespace fettle::ui {

std::optional<Notebook> draw_first_page(Page& page, const std::filesystem::path& folder,
                                        FirstPageState& state) {
    const float left = page.px(96);
    ImGui::SetCursorPos(ImVec2(left, left));
    ImGui::BeginGroup();
    heading(page, "There is no notebook in this folder yet");
    words(page, safe_utf8(folder.string()), Role::pencil);
    note(page, "first.folder", safe_utf8(folder.string()));
    gap(page, Measure::kGap);
    body(page, "A notebook is a folder with the build log, the parts, and a copy of every photo "
               "taken in. It begins with the vehicle that is being rebuilt.");
    gap(page, Measure::kGap);
    const FieldChange change = text_field(page, "first.vehicle", state.vehicle,
                                          {.label = "name of the vehicle",
                                           .hint = "such as Quernmore Drover",
                                           .error = state.error,
                                           .width = 360,
                                           .take_focus = std::exchange(state.begins, false)});
    gap(page, Measure::kGap);
    const bool asked = button(
        page, "first.make", "Make a notebook here",
        {.weight = Weight::next, .key_hint = "Enter", .enabled = !trim(state.vehicle).empty()});
    ImGui::EndGroup();
    if (!asked && !(change.entered && !trim(state.vehicle).empty())) return std::nullopt;
    auto made = Notebook::create(folder, std::string(trim(state.vehicle)));
    if (made) return std::move(*made);
    state.error = made.failure().sentence;
    return std::nullopt;
}

} // namespace fettle::ui
