#include "desk/book_within.h"

#include <algorithm>

namespace fettle::desk {
namespace {

std::string day_or_blank(const std::optional<Day>& day) {
    return day ? to_words(*day) : std::string();
}

bool concerns(const BookSources& sources, const Consignment& consignment) {
    return std::ranges::any_of(consignment.items, [&](const ConsignmentItem& item) {
        const auto part = sources.parts.find(item.part);
        return part != sources.parts.end() && sources.of_vehicle(part->second);
    });
}

void add_table(Chapter& chapter, const std::string& title, TableOf table) {
    if (table.rows.empty()) return;
    chapter.blocks.push_back(Title{2, title});
    chapter.blocks.push_back(std::move(table));
}

TableOf missing_positions(const BookSources& sources) {
    TableOf table{"", {"Number", "Position", "Group", "Missing"}, {}, {}, {2, 5, 4, 2}};
    for (const auto& fill : sources.fills)
        if (fill.missing() > 0)
            table.rows.push_back(
                {fill.position.number, fill.position.name, fill.position.group,
                 std::to_string(fill.missing()) + " of " + std::to_string(fill.position.quantity)});
    return table;
}

TableOf open_tasks(const BookSources& sources) {
    TableOf table{"", {"Task", "Hours", "Waits for"}, {}, {}, {5, 1.2, 5}};
    for (const auto& standing : book_must(list_tasks(sources.notebook, today()))) {
        const auto& task = standing.task;
        if (task.state != TaskState::open) continue;
        if (!sources.wish.vehicle.empty() && task.vehicle && task.vehicle != sources.vehicle.id)
            continue;
        table.rows.push_back({std::to_string(task.id.value) + "  " + task.title,
                              task.estimate_hours ? hours_in_words(*task.estimate_hours) : "",
                              standing.ready() ? "ready" : waits_in_words(standing)});
    }
    return table;
}

TableOf undecided_parts(const BookSources& sources) {
    TableOf table{"", {"Part", "Condition", "Decision", "Kept"}, {}, {}, {5, 2, 2, 4}};
    for (const auto& part : sources.vehicle_parts())
        if (part.condition != Condition::scrap &&
            (part.decision == Decision::undecided || part.decision == Decision::hold))
            table.rows.push_back({name_of(part), std::string(word(part.condition)),
                                  std::string(word(part.decision)), part.place});
    return table;
}

TableOf awaited(const BookSources& sources) {
    TableOf table{"", {"Part", "With", "Stands"}, {}, {}, {5, 4, 4}};
    for (const auto& consignment : sources.consignments)
        for (const auto& item : consignment.items)
            if (consignment.sent_on && item.awaited() && concerns(sources, consignment))
                table.rows.push_back({item.tag + " " + item.name, consignment.firm,
                                      standing_words(consignment, today())});
    return table;
}

} // namespace

void add_consignment(const BookSources& sources, const Consignment& consignment,
                     std::vector<Block>& blocks) {
    Facts facts;
    const auto fact = [&](const char* label, std::string says) {
        if (!says.empty()) facts.lines.emplace_back(label, std::move(says));
    };
    fact("for", consignment.purpose);
    fact("sent", day_or_blank(consignment.sent_on));
    fact("due", day_or_blank(consignment.due_on));
    fact("stands", standing_words(consignment, today()));
    fact("carrier", consignment.carrier + (consignment.carrier_number.empty() ? "" : ", ") +
                        consignment.carrier_number);
    fact("settled", consignment.settled_how);
    fact("note", consignment.note);
    blocks.push_back(std::move(facts));
    TableOf items{"", {"Part", "Went as", "Came as", "Stands"}, {}, {}, {5, 2, 2, 4}};
    for (const auto& item : consignment.items)
        items.rows.push_back({item.tag + " " + item.name, std::string(word(item.condition_out)),
                              item.condition_back ? std::string(word(*item.condition_back)) : "",
                              join({pieces_words(item), standing_words(item, consignment.inward)},
                                   pieces_words(item).empty() ? "" : ", ")});
    blocks.push_back(std::move(items));
    if (!sources.wish.with(BookPart::photos) || consignment.papers.empty()) return;
    Shots papers;
    for (const auto photo : consignment.papers)
        papers.shots.push_back(shot_of(sources, photo, "paper of the consignment"));
    blocks.push_back(std::move(papers));
}

Chapter sent_out_chapter(const BookSources& sources) {
    Chapter chapter{"sent-out", "Sent out and bought", {}};
    for (const auto& consignment : sources.consignments) {
        if (!concerns(sources, consignment)) continue;
        if (consignment.sent_on && !sources.within(*consignment.sent_on)) continue;
        chapter.blocks.push_back(
            Title{2, consignment.firm + ", consignment " + std::to_string(consignment.id.value)});
        add_consignment(sources, consignment, chapter.blocks);
    }
    return chapter;
}

Chapter open_points_chapter(const BookSources& sources) {
    Chapter chapter{"open-points", "Open points", {}};
    add_table(chapter, "Missing", missing_positions(sources));
    add_table(chapter, "To be done", open_tasks(sources));
    add_table(chapter, "To be decided", undecided_parts(sources));
    add_table(chapter, "Waited for", awaited(sources));
    return chapter;
}

} // namespace fettle::desk
