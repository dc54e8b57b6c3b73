#include "calc/display.h"
#include "desk/book_within.h"
#include "desk/worked.h"

#include <algorithm>

namespace fettle::desk {
namespace {

constexpr const char* kMonths[] = {"January",   "February", "March",    "April",
                                   "May",       "June",     "July",     "August",
                                   "September", "October",  "November", "December"};

std::string shown_on(const BookSources& sources, const PhotoAtStage& at) {
    std::vector<std::string> names;
    for (const auto& tie : book_must(ties_of_photo(sources.notebook, at.photo)))
        if (const auto* part = std::get_if<PartId>(&tie.to))
            if (const auto found = sources.parts.find(*part); found != sources.parts.end())
                names.push_back(name_of(found->second) + ", " + std::string(word(tie.stage)));
    return names.empty() ? std::string(word(at.stage)) : join(names, "; ");
}

Aside aside_of(const BookSources& sources, const Entry& entry) {
    Aside aside{to_words(entry.day), {}};
    if (entry.hours) aside.lines.push_back(hours_in_words(*entry.hours));
    for (const auto id : entry.parts)
        if (const auto part = sources.parts.find(id); part != sources.parts.end())
            aside.lines.push_back(name_of(part->second));
    for (const auto id : entry.tasks)
        if (const auto task = sources.tasks.find(id); task != sources.tasks.end())
            aside.lines.push_back("task " + std::to_string(id.value) + ", " + task->second.title);
    return aside;
}

std::string chapter_by_date(const Entry& entry) {
    return std::string(kMonths[static_cast<unsigned>(entry.day.month()) - 1]) + " " +
           std::to_string(static_cast<int>(entry.day.year()));
}

std::string group_of_entry(const BookSources& sources, const Entry& entry) {
    for (const auto id : entry.parts)
        if (const auto part = sources.parts.find(id); part != sources.parts.end())
            if (auto group = sources.group_of(part->second); !group.empty()) return group;
    for (const auto id : entry.tasks)
        if (const auto task = sources.tasks.find(id); task != sources.tasks.end())
            for (const auto& needed : task->second.positions)
                if (const auto at = sources.positions.find(needed.position);
                    at != sources.positions.end())
                    return at->second.group;
    return "Other work";
}

// Groups in the order of the parts list, then what belongs to none.
std::vector<std::string> groups_in_order(const BookSources& sources) {
    std::vector<std::string> groups;
    const auto add = [&](const std::string& group) {
        if (std::ranges::find(groups, group) == groups.end()) groups.push_back(group);
    };
    for (const auto& fill : sources.fills)
        add(fill.position.group);
    for (const auto& [id, position] : sources.positions)
        add(position.group);
    add("Other work");
    return groups;
}

using Answers = std::vector<Result<calc::Answer>>;

Answers answers_of(const Entry& entry) {
    Answers answers;
    for (const auto& record : entry.results)
        answers.push_back(answer_of(record));
    return answers;
}

// As the text names them.
std::vector<SheetNamed> sheets_named(const Entry& entry, const Answers& answers) {
    std::vector<SheetNamed> named;
    for (std::size_t at = 0; at < answers.size(); ++at)
        named.push_back({entry.results[at].sheet, answers[at] ? answers[at]->sheet_title : ""});
    return named;
}

void add_answer(const BookWish& wish, const Result<calc::Answer>& answer,
                std::vector<Block>& blocks) {
    if (answer)
        add_worked(wish, *answer, blocks);
    else
        blocks.push_back(Notice{calc::NoteLevel::caution, answer.failure().sentence});
}

} // namespace

void add_entry(const BookSources& sources, const Entry& entry, std::vector<Block>& blocks) {
    blocks.push_back(aside_of(sources, entry));
    Answers answers;
    if (sources.wish.with(BookPart::worked)) answers = answers_of(entry);
    auto cut = cut_at_sheets(blocks_of(entry.text), sheets_named(entry, answers));
    for (auto& piece : cut.pieces) {
        if (!piece.blocks.empty()) blocks.push_back(Written{std::move(piece.blocks)});
        for (const auto at : piece.sheets)
            add_answer(sources.wish, answers[at], blocks);
    }
    if (sources.wish.with(BookPart::photos) && !entry.photos.empty()) {
        Shots shots;
        for (const auto& at : entry.photos)
            shots.shots.push_back(shot_of(sources, at.photo, shown_on(sources, at)));
        blocks.push_back(std::move(shots));
    }
    for (const auto at : cut.unplaced)
        add_answer(sources.wish, answers[at], blocks);
}

std::vector<Chapter> entry_chapters(const BookSources& sources) {
    std::vector<Chapter> chapters;
    const bool by_group = sources.wish.order == BookOrder::by_group;
    if (by_group)
        for (const auto& group : groups_in_order(sources))
            chapters.push_back({anchor_of("work-" + group), group, {}});
    for (const auto& entry : sources.entries) {
        const auto title = by_group ? group_of_entry(sources, entry) : chapter_by_date(entry);
        auto chapter = std::ranges::find(chapters, title, &Chapter::title);
        if (chapter == chapters.end())
            chapter = chapters.insert(chapter, {anchor_of("work-" + title), title, {}});
        add_entry(sources, entry, chapter->blocks);
    }
    for (std::size_t at = 0; at < chapters.size(); ++at) // names may be alike in letters a to z
        chapters[at].anchor += "-" + std::to_string(at + 1);
    return chapters;
}

} // namespace fettle::desk
