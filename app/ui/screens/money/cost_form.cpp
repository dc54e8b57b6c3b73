#include "ui/screens/money/cost_form.h"

#include "base/text.h"
#include "notebook/consignments.h"
#include "notebook/tasks.h"
#include "ui/candidates.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

constexpr float kField = 440, kShort = 212;
constexpr Chord kKeep{'K', true}; // Ctrl Enter writes the entry, wherever one is

// What a cost may belong to, in one line: parts, tasks and consignments, told apart by the rest of
// their number.
constexpr std::int64_t kPart = 0, kTask = 1, kConsignment = 2, kKinds = 3;

Result<std::vector<Candidate>> owner_candidates(const Notebook& book) {
    auto all = part_candidates(book);
    if (!all) return all;
    for (Candidate& part : *all)
        part.id = part.id * kKinds + kPart, part.kind = "part";
    auto tasks = list_tasks(book, today());
    if (!tasks) return tasks.failure();
    for (const TaskStanding& standing : *tasks)
        all->push_back({standing.task.id.value * kKinds + kTask, "", standing.task.title, "task"});
    auto consignments = list_consignments(book, today());
    if (!consignments) return consignments.failure();
    for (const Consignment& one : *consignments)
        all->push_back({one.id.value * kKinds + kConsignment, "",
                        "consignment " + std::to_string(one.id.value) +
                            (one.inward ? " from " : " to ") + one.firm + ", " + one.purpose,
                        "sent out"});
    return all;
}

void belongs_to(Cost& cost, std::int64_t owner) {
    const std::int64_t id = owner / kKinds;
    cost.part = PartId{owner % kKinds == kPart ? id : 0};
    cost.task = TaskId{owner % kKinds == kTask ? id : 0};
    cost.consignment = ConsignmentId{owner % kKinds == kConsignment ? id : 0};
}

bool belongs_somewhere(const Cost& cost) {
    return cost.part || cost.task || cost.consignment;
}

void amount_and_day(Page& page, CostForm& form) {
    ImGui::BeginGroup();
    if (text_field(page, "cost.amount", form.amount,
                   {.label = "how much",
                    .hint = "12.50 GBP",
                    .error = form.amount_error,
                    .width = kShort,
                    .take_focus = form.take_focus})
            .edited)
        form.amount_error.clear();
    form.take_focus = false;
    ImGui::EndGroup();
    ImGui::SameLine(0, page.px(Measure::kGap));
    ImGui::BeginGroup();
    const auto day = parse_day(trim(form.on));
    const std::string said = day ? to_words(*day) : "";
    if (text_field(page, "cost.on", form.on,
                   {.label = "on",
                    .hint = "today",
                    .other = said == trim(form.on) ? "" : said,
                    .error = form.on_error,
                    .width = kShort})
            .edited)
        form.on_error.clear();
    ImGui::EndGroup();
}

void of_whom(Page& page, Context& context, CostForm& form) {
    const auto& owners =
        form.owners.of(context.book, 0, [&](int) { return owner_candidates(context.book); });
    const auto of = find_as_you_type(page, "cost.of", form.of, owners,
                                     {.label = "for the part, task or consignment, if for one",
                                      .hint = "a tag or a few letters",
                                      .error = form.of_error,
                                      .most = 5,
                                      .width = kField});
    if (of.edited) {
        form.of_error.clear();
        belongs_to(form.cost, 0);
    }
    if (of.taken) {
        belongs_to(form.cost, *of.taken);
        const Candidate& taken = *candidate_with(owners, *of.taken);
        form.of.typed = taken.tag.empty() ? taken.name : taken.tag + " " + taken.name;
    }
    const auto& people =
        form.people.of(context.book, 0, [&](int) { return contact_candidates(context.book); });
    const auto whom = find_as_you_type(page, "cost.paid_to", form.paid_to, people,
                                       {.label = "paid to",
                                        .hint = "a few letters, or a new name",
                                        .most = 5,
                                        .as_typed = true,
                                        .width = kField});
    if (whom.taken) form.paid_to.typed = candidate_with(people, *whom.taken)->name;
    form.cost.paid_to = trim(form.paid_to.typed);
}

bool keep(Context& context, CostForm& form) {
    const auto amount = parse_money(trim(form.amount));
    const auto on = parse_day(trim(form.on).empty() ? "today" : trim(form.on));
    form.amount_error = amount ? "" : amount.failure().sentence;
    form.on_error = on ? "" : on.failure().sentence;
    if (!trim(form.of.typed).empty() && !belongs_somewhere(form.cost))
        form.of_error = "Choose one of the list, or leave this empty.";
    if (!amount || !on || !form.of_error.empty()) return false;
    form.cost.amount = *amount;
    form.cost.on = *on;
    const auto kept = keep_cost(context.book, form.cost);
    if (kept) {
        form.cost.id = *kept;
        return true;
    }
    const bool of_amount = kept.failure().sentence.starts_with("The amount");
    (of_amount ? form.amount_error : form.what_error) = kept.failure().sentence;
    return false;
}

// The acts below a form; what they and the keys say.
CostEnd end_of(Page& page, const std::string& key, const char* label, bool escaped,
               const std::function<bool()>& keep) {
    gap(page);
    const bool wanted =
        button(page, key + ".keep", label, {.weight = Weight::next, .key_hint = "Ctrl K"});
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool left = button(page, key + ".leave", "leave", {.key_hint = "Esc"});
    if ((wanted || pressed(kKeep, true)) && keep()) return CostEnd::kept;
    return left || escaped ? CostEnd::left : CostEnd::goes_on;
}

Result<std::vector<EstimateForm::Group>> groups_in(const Notebook& book) {
    auto vehicles = list_vehicles(book);
    if (!vehicles) return vehicles.failure();
    std::vector<EstimateForm::Group> all;
    int with_groups = 0;
    for (const Vehicle& vehicle : *vehicles) {
        auto groups = groups_of(book, vehicle.id);
        if (!groups) return groups.failure();
        if (!groups->empty()) ++with_groups;
        for (const auto& group : *groups)
            all.push_back({vehicle.id, group, group + " of " + vehicle.name});
    }
    if (with_groups < 2)
        for (auto& group : all)
            group.label = group.group;
    return all;
}

} // namespace

CostForm form_of(const Cost& cost) {
    CostForm form;
    form.cost = cost;
    form.amount = to_words(cost.amount);
    form.on = to_words(cost.on);
    form.of.typed = cost.of;
    form.paid_to.typed = cost.paid_to;
    return form;
}

CostEnd draw_cost_form(Page& page, Context& context, CostForm& form) {
    const bool finding = form.of.open || form.paid_to.open;
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)}) && !finding;
    heading(page, form.cost.id ? "Change the cost" : "A new cost");
    gap(page);
    amount_and_day(page, form);
    if (text_field(page, "cost.what", form.cost.what,
                   {.label = "what for",
                    .hint = "turning the drums",
                    .error = form.what_error,
                    .width = kField})
            .edited)
        form.what_error.clear();
    of_whom(page, context, form);
    fine_print(page, "What a part was bought for stands on its own page, and counts from there.");
    return end_of(page, "cost", form.cost.id ? "keep the cost" : "note the cost", escaped,
                  [&] { return keep(context, form); });
}

CostEnd draw_estimate_form(Page& page, Context& context, EstimateForm& form) {
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    const auto& groups =
        form.groups.of(context.book, 0, [&](int) { return groups_in(context.book); });
    heading(page, "What is reckoned with");
    gap(page);
    if (groups.empty()) {
        notice(page, "estimate.none", Tell::info,
               "Estimates stand by the groups of the parts list: take one in first.");
        return button(page, "estimate.leave", "leave", {.key_hint = "Esc"}) || escaped
                   ? CostEnd::left
                   : CostEnd::goes_on;
    }
    std::vector<std::string> labels;
    for (const auto& group : groups)
        labels.push_back(group.label);
    form.at = std::min(form.at, int(labels.size()) - 1);
    choice(page, "estimate.group", labels, form.at);
    if (text_field(page, "estimate.amount", form.amount,
                   {.label = "estimate; 0 takes it away",
                    .hint = "150 GBP",
                    .error = form.error,
                    .width = kShort,
                    .take_focus = form.take_focus})
            .edited)
        form.error.clear();
    form.take_focus = false;
    return end_of(page, "estimate", "keep the estimate", escaped, [&] {
        const auto amount = parse_money(trim(form.amount));
        form.error = amount ? "" : amount.failure().sentence;
        if (!amount) return false;
        const auto& group = groups[std::size_t(form.at)];
        const Done set = set_estimate(context.book, {group.vehicle, group.group, *amount, ""});
        if (!set) form.error = set.failure().sentence;
        return set.ok();
    });
}

} // namespace fettle::ui
