#include "cli/consignment_report.h"

#include "base/text.h"
#include "desk/consignment_papers.h"
#include "notebook/parts.h"

namespace fettle::cli {
namespace {

template <class T>
Json day_json(const std::optional<T>& day) {
    return day ? Json(to_iso(*day)) : Json();
}

Json money_json(const std::optional<Money>& money) {
    return money ? Json(to_words(*money)) : Json();
}

Result<Json> item_json(const Notebook& notebook, const Consignment& consignment,
                       const ConsignmentItem& item) {
    auto lacks = evidence_wanted(notebook, consignment.id, item.part);
    if (!lacks) return lacks.failure();
    return Json{{"part", item.tag},
                {"name", item.name},
                {"pieces", item.quantity},
                {"lot", item.lot},
                {"condition_out", word(item.condition_out)},
                {"value", money_json(item.value)},
                {"back", item.back},
                {"missing", item.missing()},
                {"back_on", day_json(item.back_on)},
                {"condition_back", item.condition_back ? Json(word(*item.condition_back)) : Json()},
                {"settled_how", item.settled_how},
                {"standing", standing_words(item, consignment.inward)},
                {"note", item.note},
                {"evidence_missing", *lacks}};
}

std::string head_lines(const Consignment& all) {
    Columns facts;
    facts.fact(all.inward ? "from" : "to", all.firm);
    facts.fact("for", all.purpose + (all.destroys_finish ? " (takes the old surface off)" : ""));
    facts.fact("stands", standing_words(all, today()));
    facts.fact("sent", all.sent_on ? to_words(*all.sent_on) : "");
    facts.fact("due", all.due_on ? to_words(*all.due_on) : "");
    facts.fact("carrier", all.carrier);
    facts.fact("number", all.carrier_number);
    facts.fact("value", desk::declared_words(all));
    facts.fact("settled", all.settled_how);
    facts.fact("note", all.note);
    return "consignment " + std::to_string(all.id.value) + '\n' + facts.text(2);
}

std::string item_lines(const Consignment& all) {
    Columns columns;
    for (const auto& item : all.items) {
        std::string condition(word(item.condition_out));
        if (item.condition_back && *item.condition_back != item.condition_out)
            condition += " -> " + std::string(word(*item.condition_back));
        columns.row({item.tag, item.name, pieces_words(item), condition,
                     item.value ? to_words(*item.value) : "", standing_words(item, all.inward),
                     item.note});
    }
    return columns.empty() ? "nothing on it yet\n" : "items\n" + columns.text(2);
}

Result<std::string> evidence_lines(const Notebook& notebook, const Consignment& all) {
    std::string lines;
    for (const auto& item : all.items) {
        if (item.back > 0) continue;
        auto lacks = evidence_wanted(notebook, all.id, item.part);
        if (!lacks) return lacks.failure();
        for (const auto& line : *lacks)
            lines += "  " + one_line(item.tag + "  " + line) + '\n';
    }
    return lines.empty() ? lines : "not photographed before the surface goes\n" + lines;
}

std::string paper_lines(const Consignment& all, const std::vector<SeenTags>& arrivals) {
    std::string lines;
    for (const auto photo : all.papers)
        lines += "  photo " + std::to_string(photo.value) + '\n';
    if (!lines.empty()) lines = "papers\n" + lines;
    for (const auto& [photo, parts] : arrivals) {
        std::vector<std::string> tags;
        for (const auto part : parts)
            tags.push_back(all.item(part)->tag);
        const auto number = std::to_string(photo.value);
        lines += "photo " + number + " shows " + join(tags, ", ") + ": `receive " +
                 std::to_string(all.id.value) + " --by-photo " + number + "` ticks off what came\n";
    }
    return lines;
}

} // namespace

std::string state_word(ConsignmentState state) {
    switch (state) {
    case ConsignmentState::packed:
        return "packed";
    case ConsignmentState::out:
        return "out";
    case ConsignmentState::overdue:
        return "overdue";
    default:
        return "over";
    }
}

std::string missing_words(const Consignment& consignment) {
    if (!consignment.sent_on) return {};
    std::vector<std::string> missing;
    for (const auto& item : consignment.items)
        if (item.awaited())
            missing.push_back(item.quantity == 1
                                  ? item.tag
                                  : std::to_string(item.missing()) + " of " +
                                        std::to_string(item.quantity) + " pieces of " + item.tag);
    return missing.empty() ? "" : "missing: " + join(missing, ", ");
}

Result<Json> consignment_json(const Notebook& notebook, const Consignment& consignment) {
    auto arrivals = photos_of_arrival(notebook, consignment.id);
    if (!arrivals) return arrivals.failure();
    Json items = Json::array(), missing = Json::array(), papers = Json::array(),
         seen = Json::array();
    for (const auto& item : consignment.items) {
        auto json = item_json(notebook, consignment, item);
        if (!json) return json.failure();
        items.push_back(std::move(*json));
        if (item.awaited() && consignment.sent_on) missing.push_back(item.tag);
    }
    for (const auto photo : consignment.papers)
        papers.push_back(photo.value);
    for (const auto& [photo, parts] : *arrivals) {
        Json tags = Json::array();
        for (const auto part : parts)
            tags.push_back(consignment.item(part)->tag);
        seen.push_back(Json{{"photo", photo.value}, {"parts", std::move(tags)}});
    }
    return Json{{"consignment", consignment.id.value},
                {"inward", consignment.inward},
                {"firm", consignment.firm},
                {"purpose", consignment.purpose},
                {"finish_goes", consignment.destroys_finish},
                {"carrier", consignment.carrier},
                {"number", consignment.carrier_number},
                {"value", money_json(consignment.value)},
                {"sent", day_json(consignment.sent_on)},
                {"due", day_json(consignment.due_on)},
                {"state", state_word(consignment.state(today()))},
                {"standing", standing_words(consignment, today())},
                {"settled", day_json(consignment.settled_on)},
                {"settled_how", consignment.settled_how},
                {"note", consignment.note},
                {"items", std::move(items)},
                {"missing", std::move(missing)},
                {"papers", std::move(papers)},
                {"arrivals", std::move(seen)}};
}

Result<Report> consignment_report(const Notebook& notebook, ConsignmentId id) {
    auto all = consignment_by_id(notebook, id);
    if (!all) return all.failure();
    auto json = consignment_json(notebook, *all);
    if (!json) return json.failure();
    auto lacks = evidence_lines(notebook, *all);
    if (!lacks) return lacks.failure();
    auto arrivals = photos_of_arrival(notebook, id);
    if (!arrivals) return arrivals.failure();
    const auto missing = missing_words(*all);
    return Report{head_lines(*all) + item_lines(*all) +
                      (missing.empty() ? "" : one_line(missing) + '\n') + *lacks +
                      paper_lines(*all, *arrivals),
                  std::move(*json)};
}

} // namespace fettle::cli
