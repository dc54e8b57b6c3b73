#include "desk/book_within.h"
#include "notebook/condition_steps.h"

#include <algorithm>

namespace fettle::desk {
namespace {

void add_table(BookContent& content, const std::string& title, TableOf table) {
    if (!table.rows.empty())
        content.chapters.push_back({anchor_of(title), title, {std::move(table)}});
}

TableOf came_to(const BookSources& sources) {
    TableOf table{"", {"Part", "Came to", "On"}, {}, {}, {6, 3, 3}};
    for (const auto& part : sources.vehicle_parts())
        for (const auto& step : book_must(list_condition_steps(sources.notebook, part.id)))
            if (sources.within(step.on))
                table.rows.push_back(
                    {name_of(part), std::string(word(step.condition)), to_words(step.on)});
    return table;
}

TableOf tasks_done(const BookSources& sources) {
    TableOf table{"", {"Task", "Done"}, {}, {}, {8, 3}};
    for (const auto& [id, task] : sources.tasks)
        if (task.state == TaskState::done && task.done_on && sources.within(*task.done_on))
            table.rows.push_back({task.title, to_words(*task.done_on)});
    return table;
}

TableOf sent_and_back(const BookSources& sources) {
    TableOf table{"", {"What", "Where", "When"}, {}, {}, {5, 5, 3}};
    for (const auto& consignment : sources.consignments)
        for (const auto& item : consignment.items) {
            const std::string name = item.tag + " " + item.name;
            const std::string what = consignment.firm + ", " + consignment.purpose;
            if (consignment.sent_on && sources.within(*consignment.sent_on))
                table.rows.push_back({name,
                                      (consignment.inward ? "on its way from " : "to ") + what,
                                      to_words(*consignment.sent_on)});
            if (item.back_on && sources.within(*item.back_on))
                table.rows.push_back({name,
                                      (consignment.inward ? "came from " : "back from ") + what,
                                      to_words(*item.back_on)});
        }
    return table;
}

std::string between_words(const BookWish& wish) {
    if (wish.from && wish.to) return to_words(*wish.from) + " to " + to_words(*wish.to);
    return wish.from ? "since " + to_words(*wish.from)
                     : (wish.to ? "until " + to_words(*wish.to) : "");
}

} // namespace

BookContent since_of(const BookSources& sources) {
    auto content = begun_book(sources, "What was done");
    content.period = between_words(sources.wish);
    Chapter log{"log", "Log", {}};
    double hours = 0;
    for (const auto& entry : sources.entries) {
        add_entry(sources, entry, log.blocks);
        hours += entry.hours.value_or(0);
    }
    content.figures = {{hours_in_words(hours), "of work"},
                       {std::to_string(sources.entries.size()),
                        sources.entries.size() == 1 ? "entry" : "entries"}};
    if (!log.blocks.empty()) content.chapters.push_back(std::move(log));
    add_table(content, "Parts that came further", came_to(sources));
    add_table(content, "Tasks done", tasks_done(sources));
    add_table(content, "Sent out and back", sent_and_back(sources));
    return content;
}

} // namespace fettle::desk
