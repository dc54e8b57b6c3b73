#include "desk/demo_within.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/credits.h"
#include "notebook/vehicles.h"

namespace fettle::desk {
namespace {

ConsignmentId consignment_with(const Notebook& notebook, const std::string& firm) {
    std::map<std::string, ConsignmentId> by_firm;
    for (const Consignment& one : must(list_consignments(notebook, today()), "consignments"))
        by_firm[one.firm] = one.id;
    return named(by_firm, firm, "consignment with");
}

} // namespace

void tell_money(Notebook& notebook, const json& scenario,
                const std::map<std::string, PartId>& parts,
                const std::map<std::string, TaskId>& tasks) {
    for (const auto& told : scenario.at("costs")) {
        const std::string record = "cost of " + text(told, "what");
        Cost cost{.on = must(parse_day(text(told, "on")), record),
                  .amount = must(parse_money(text(told, "amount")), record),
                  .what = text(told, "what"),
                  .paid_to = text(told, "paid_to")};
        if (const auto tag = text(told, "part"); !tag.empty())
            cost.part = named(parts, tag, "part");
        if (const auto id = text(told, "task"); !id.empty()) cost.task = named(tasks, id, "task");
        if (const auto firm = text(told, "consignment"); !firm.empty())
            cost.consignment = consignment_with(notebook, firm);
        must(keep_cost(notebook, cost), record);
    }
    const VehicleId ours = must(list_vehicles(notebook), "vehicle").front().id;
    for (const auto& told : scenario.at("estimates"))
        must(set_estimate(notebook, {ours, text(told, "group"),
                                     must(parse_money(text(told, "amount")), "estimate"), ""}),
             "estimate");
    for (const auto& told : scenario.at("helps"))
        must(note_help(notebook, text(told, "who"),
                       {.did = must(did_from(text(told, "did")), "help"),
                        .what = text(told, "what"),
                        .on = must(parse_day(text(told, "on")), "help")}),
             "help of " + text(told, "who"));
}

} // namespace fettle::desk
