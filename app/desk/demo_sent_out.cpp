#include "desk/demo_within.h"
#include "notebook/consignments.h"
#include "notebook/evidence.h"

namespace fettle::desk {
namespace {

Day day_of(const std::string& told, const std::string& record) {
    if (!told.starts_with('-') && !told.starts_with('+')) return must(parse_day(told), record);
    return std::chrono::sys_days(today()) + std::chrono::days(std::stoi(told));
}

std::optional<Money> money_of(const json& told) {
    if (!told.contains("value")) return std::nullopt;
    const auto& value = told.at("value");
    return Money{value.at("minor"), value.at("currency")};
}

class SentOut {
  public:
    SentOut(Notebook& notebook, const DemoNames& names) : book_(notebook), names_(names) {}

    void tell_evidence(const json& told) {
        const PartId part = named(names_.parts, told.at("part"), "part");
        const bool none = told.contains("none");
        const auto shows =
            must(from_word<Evidence>(text(told, none ? "none" : "shows")), "evidence");
        if (none)
            must(note_no_evidence(book_, part, shows, text(told, "because")), "evidence");
        else
            must(note_evidence(book_, part, named(names_.photos, told.at("photo"), "photo"), shows),
                 "evidence");
    }

    ConsignmentId tell_consignment(const json& told) {
        const std::string record = "consignment with " + text(told, "firm");
        Consignment head{.inward = told.value("inward", false),
                         .firm = told.at("firm"),
                         .purpose = told.at("purpose"),
                         .carrier = text(told, "carrier"),
                         .carrier_number = text(told, "number"),
                         .due_on = day_of(text(told, "due"), record),
                         .note = text(told, "note")};
        head.destroys_finish = !head.inward && takes_finish_off(head.purpose);
        const auto id = must(keep_consignment(book_, head), record);
        for (const auto& item : told.at("items"))
            must(put_on(book_, id,
                        {.part = named(names_.parts, item.at("part"), "part"),
                         .value = money_of(item),
                         .without_evidence = text(item, "without_evidence")}),
                 record);
        must(send_consignment(book_, id, day_of(text(told, "sent"), record)), record);
        for (const auto& receipt : told.at("received"))
            tell_receipt(id, receipt, record);
        return id;
    }

  private:
    void tell_receipt(ConsignmentId id, const json& told, const std::string& record) {
        Receipt receipt{.on = day_of(text(told, "on"), record)};
        for (const auto& item : told.at("items"))
            receipt.items.push_back(
                {named(names_.parts, item.at("part"), "part"), item.value("pieces", 0)});
        if (auto condition = text(told, "condition"); !condition.empty())
            receipt.condition = must(from_word<Condition>(condition), record);
        if (auto paper = text(told, "paper"); !paper.empty())
            receipt.paper = named(names_.photos, paper, "photo");
        must(receive(book_, id, receipt), record);
    }

    Notebook& book_;
    const DemoNames& names_;
};

} // namespace

std::map<std::string, ConsignmentId> tell_sent_out(Notebook& notebook, const json& scenario,
                                                   const DemoNames& names) {
    SentOut telling(notebook, names);
    for (const auto& evidence : scenario.at("evidence"))
        telling.tell_evidence(evidence);
    std::map<std::string, ConsignmentId> told;
    for (const auto& consignment : scenario.at("consignments")) {
        const auto id = telling.tell_consignment(consignment);
        if (auto name = text(consignment, "id"); !name.empty()) told[name] = id;
    }
    return told;
}

} // namespace fettle::desk
