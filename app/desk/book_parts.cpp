#include "base/marked_text.h"
#include "desk/book_within.h"
#include "desk/measuring.h"
#include "notebook/condition_steps.h"
#include "notebook/evidence.h"
#include "notebook/marks.h"
#include "notebook/people.h"

#include <algorithm>

namespace fettle::desk {
namespace {

std::string steps_line(const BookSources& sources, const Part& part) {
    std::vector<std::string> steps;
    for (const auto& step : book_must(list_condition_steps(sources.notebook, part.id)))
        steps.push_back(std::string(word(step.condition)) + " " + to_words(step.on));
    return join(steps, " → ");
}

std::string away_line(const BookSources& sources, const Part& part) {
    std::vector<std::string> all;
    for (const auto& away : book_must(whereabouts(sources.notebook, part.id)))
        all.push_back(away_words(away, today()));
    return join(all, "; ");
}

Facts facts_of(const BookSources& sources, const Part& part) {
    Facts facts;
    const auto fact = [&](const char* label, std::string says) {
        if (!says.empty()) facts.lines.emplace_back(label, std::move(says));
    };
    fact("for", part.position_name);
    fact("condition", std::string(word(part.condition)));
    fact("how it came so far", steps_line(sources, part));
    fact("decision", std::string(word(part.decision)));
    fact("origin", std::string(word(part.origin)));
    fact("maker", part.maker);
    fact("pieces", part.quantity > 1 ? std::to_string(part.quantity) : "");
    fact("from", part.from);
    fact("acquired", part.acquired ? to_words(*part.acquired) : "");
    if (sources.wish.with(BookPart::costs)) fact("cost", part.cost ? to_words(*part.cost) : "");
    fact("kept", part.place);
    fact("not at hand", away_line(sources, part));
    fact("note", part.note);
    return facts;
}

void add_measurements(const BookSources& sources, const Part& part, std::vector<Block>& blocks) {
    TableOf table{"Measured", {"Feature", "Day", "Verdict", "Note"}, {}, {}, {3, 2, 2, 4}};
    for (const auto& measured : book_must(list_measurements(sources.notebook, part.id)))
        table.rows.push_back(
            {measured.feature, to_words(measured.day), measured.verdict, measured.note});
    if (!table.rows.empty()) blocks.push_back(std::move(table));
}

// The first words of an entry, for where it is one line among others.
std::string beginning(const std::string& text) {
    constexpr std::size_t kMost = 90;
    auto line = first_line_of_marked(text);
    if (line.size() <= kMost) return line;
    line.resize(line.rfind(' ', kMost) == std::string::npos ? kMost : line.rfind(' ', kMost));
    return safe_utf8(line) + " …";
}

void add_mentions(const BookSources& sources, const Part& part, std::vector<Block>& blocks) {
    TableOf table{"In the log", {}, {}, {}, {2, 9}};
    for (const auto& entry : sources.entries)
        if (std::ranges::find(entry.parts, part.id) != entry.parts.end())
            table.rows.push_back({to_words(entry.day), beginning(entry.text)});
    if (!table.rows.empty()) blocks.push_back(std::move(table));
}

// The last photo of each side of the work.
PhotoId last_at(const std::vector<Tie>& ties, std::initializer_list<Stage> stages) {
    PhotoId last{};
    for (const auto& tie : ties)
        if (std::ranges::find(stages, tie.stage) != stages.end()) last = tie.photo;
    return last;
}

} // namespace

std::optional<BeforeAfter> before_after(const BookSources& sources, const Part& part) {
    const auto ties = book_must(ties_to(sources.notebook, part.id));
    const auto before = last_at(ties, {Stage::as_found, Stage::before});
    const auto after = last_at(ties, {Stage::after, Stage::fitted, Stage::proof});
    if (!before || !after) return std::nullopt;
    return BeforeAfter{shot_of(sources, before, name_of(part) + ", before"),
                       shot_of(sources, after, name_of(part) + ", after")};
}

void add_marks_of(const BookSources& sources, const std::vector<Mark>& marks,
                  std::vector<Block>& blocks) {
    Shots crops;
    for (const auto& mark : marks) {
        std::string said = mark.reading;
        if (!mark.maker.empty()) said += ", " + mark.maker;
        if (mark.sure != Sureness::certain) said += " (" + std::string(word(mark.sure)) + ")";
        if (const auto part = sources.parts.find(mark.part); part != sources.parts.end())
            said += ", on " + name_of(part->second);
        auto shot = shot_of(sources, mark.photo, said);
        shot.shows = "Mark: " + shot.caption;
        shot.part = mark.region;
        crops.shots.push_back(std::move(shot));
    }
    if (!crops.shots.empty()) blocks.push_back(std::move(crops));
}

void add_history(const BookSources& sources, const Part& part, std::vector<Block>& blocks) {
    blocks.push_back(
        Title{2, name_of(part), anchor_of_name({NameInText::Kind::part, part.id.value})});
    blocks.push_back(facts_of(sources, part));
    add_measurements(sources, part, blocks);
    add_mentions(sources, part, blocks);
}

Chapter pairs_chapter(const BookSources& sources) {
    Chapter chapter{"before-and-after", "Before and after", {}};
    for (const auto& part : sources.vehicle_parts())
        if (auto pair = before_after(sources, part)) {
            chapter.blocks.push_back(Title{2, name_of(part)});
            chapter.blocks.push_back(std::move(*pair));
        }
    return chapter;
}

Chapter histories_chapter(const BookSources& sources) {
    Chapter chapter{"part-histories", "Part histories", {}};
    for (const auto& part : sources.vehicle_parts())
        add_history(sources, part, chapter.blocks);
    return chapter;
}

Chapter marks_chapter(const BookSources& sources) {
    Chapter chapter{"marks-by-maker", "Marks by maker", {}};
    std::map<std::string, std::vector<Mark>> by_maker;
    for (auto& mark : book_must(list_marks(sources.notebook))) {
        const auto part = sources.parts.find(mark.part);
        if (part != sources.parts.end() && !sources.of_vehicle(part->second)) continue;
        by_maker[mark.maker].push_back(std::move(mark));
    }
    const auto makers = book_must(list_makers(sources.notebook));
    for (const auto& [name, marks] : by_maker) {
        chapter.blocks.push_back(Title{2, name.empty() ? "Maker not known" : name});
        const auto maker = std::ranges::find(makers, name, &Maker::name);
        if (maker != makers.end() && !(maker->sign + maker->note).empty())
            chapter.blocks.push_back(
                Words{maker->sign + (maker->sign.empty() || maker->note.empty() ? "" : ". ") +
                      maker->note});
        add_marks_of(sources, marks, chapter.blocks);
    }
    return chapter;
}

} // namespace fettle::desk
