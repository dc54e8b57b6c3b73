#include "ui/screens/marks/wrong_vehicle.h"

#include "notebook/parts.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

void draw_one(Page& page, Context& context, const WrongVehicle& each) {
    const Part& part = each.why.part;
    const std::string key = "marks.wrong." + part.tag;
    draw_mark(page, context, key + ".mark." + std::to_string(each.mark.mark.id.value), each.mark);
    ImGui::SameLine(0, page.px(Measure::kMargin));
    ImGui::BeginGroup();
    words(page, part.name);
    fine_print(page, each.why.sentence() + ".");
    note(page, key, part.name, each.why.sentence());
    Flow flow(page);
    for (const Vehicle& vehicle : each.why.fits) {
        const std::string label = "hold for " + vehicle.name;
        flow.place_button(label, {});
        if (button(page, key + ".hold." + std::to_string(vehicle.id.value), label))
            context.went_well(hold_for(context.book, part.id, vehicle));
    }
    flow.place_button("hold", {});
    if (button(page, key + ".hold", "hold"))
        context.went_well(set_part_field(context.book, part.tag, "decision", "hold"));
    ImGui::EndGroup();
    gap(page, Measure::kGap);
}

} // namespace

Result<std::vector<WrongVehicle>> read_wrong_vehicle(const Notebook& book) {
    auto found = disagreeing_parts(book);
    if (!found) return found.failure();
    std::vector<WrongVehicle> parts;
    for (auto& each : *found) {
        auto with = shown(book, each.mark);
        if (!with) return with.failure();
        parts.push_back({std::move(each), std::move(*with)});
    }
    return parts;
}

void draw_wrong_vehicle(Page& page, Context& context, const std::vector<WrongVehicle>& parts) {
    if (parts.empty()) return;
    gap(page, Measure::kMargin);
    words(page, "On the wrong vehicle?", Role::brass);
    rule(page);
    for (const auto& each : parts)
        draw_one(page, context, each);
}

} // namespace fettle::ui
