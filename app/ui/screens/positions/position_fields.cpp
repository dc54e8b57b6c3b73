#include "ui/screens/positions/position_fields.h"

#include "base/text.h"
#include "base/whole_number.h"
#include "ui/widgets/fields.h"

#include <imgui.h>

namespace fettle::ui {

void PositionFields::fill(const Position& position) {
    group = position.group;
    number = position.number;
    name = position.name;
    quantity = std::to_string(position.quantity);
    spec = position.spec;
    quantity_error.clear();
    error.clear();
}

bool PositionFields::read(Position& position) {
    position.group = trim(group);
    position.number = trim(number);
    position.name = trim(name);
    position.spec = trim(spec);
    const auto count = whole_number(quantity);
    const bool fine = count && *count > 0;
    if (fine) position.quantity = *count;
    quantity_error =
        fine ? std::string()
             : fettle::quoted(quantity) + " is no quantity; whole numbers from 1 are accepted.";
    return fine;
}

PositionTyping draw_position_fields(Page& page, std::string_view prefix, PositionFields& fields,
                                    bool take_focus) {
    PositionTyping typing;
    const float room = ImGui::GetContentRegionAvail().x / std::max(0.1F, page.theme.scale);
    const auto field = [&](const char* key, std::string& text, FieldLook look) {
        ImGui::BeginGroup();
        const FieldChange change = text_field(page, std::string(prefix) + "." + key, text, look);
        ImGui::EndGroup();
        typing.left |= change.left;
        typing.active |= change.active;
        typing.entered |= change.entered;
        if (change.edited) fields.error.clear();
    };
    const auto beside = [&] { ImGui::SameLine(0, page.px(Measure::kGap)); };
    field("number", fields.number,
          {.label = "number",
           .hint = "F5",
           .error = fields.error,
           .width = 128,
           .take_focus = take_focus});
    beside();
    field("name", fields.name,
          {.label = "name", .hint = "shackle pin", .width = room - 128 - 112 - 2 * Measure::kGap});
    beside();
    field("quantity", fields.quantity,
          {.label = "quantity", .error = fields.quantity_error, .width = 104});
    const float half = (room - Measure::kGap) / 2;
    field("group", fields.group, {.label = "group", .hint = "Front suspension", .width = half});
    beside();
    field("spec", fields.spec, {.label = "spec", .hint = "3/4 in ground", .width = half});
    return typing;
}

} // namespace fettle::ui
