#include "desk/book_within.h"
#include "desk/measuring.h"

#include <algorithm>

namespace fettle::desk {
namespace {

constexpr std::pair<BookPart, std::string_view> kWords[] = {
    {BookPart::glance, "at a glance"},    {BookPart::photos, "photos"},
    {BookPart::worked, "worked results"}, {BookPart::working, "working"},
    {BookPart::charts, "charts"},         {BookPart::pairs, "before and after"},
    {BookPart::parts, "part histories"},  {BookPart::marks, "marks"},
    {BookPart::sent_out, "sent out"},     {BookPart::costs, "costs"},
    {BookPart::credits, "credits"},       {BookPart::open_points, "open points"},
};

std::string period_of(const BookSources& sources) {
    if (sources.entries.empty()) return {};
    const auto first = to_words(sources.entries.front().day);
    const auto last = to_words(sources.entries.back().day);
    return first == last ? first : first + " to " + last;
}

void add_chapter(BookContent& content, Chapter chapter) {
    if (!chapter.blocks.empty()) content.chapters.push_back(std::move(chapter));
}

std::string counted(std::size_t number) {
    return std::to_string(number);
}

std::vector<std::pair<std::string, std::string>> figures_of(const BookSources& sources) {
    double hours = 0;
    std::set<Day> days;
    std::set<PhotoId> photos;
    std::set<TaskId> worked_on;
    std::size_t results = 0;
    for (const auto& entry : sources.entries) {
        hours += entry.hours.value_or(0);
        days.insert(entry.day);
        for (const auto& at : entry.photos)
            photos.insert(at.photo);
        results += entry.results.size();
    }
    const auto parts = sources.vehicle_parts();
    const auto fitted = std::ranges::count(parts, Condition::fitted, &Part::condition);
    std::size_t finished = 0;
    for (const auto& [id, task] : sources.tasks)
        if (task.state == TaskState::done &&
            (sources.wish.vehicle.empty() || !task.vehicle || task.vehicle == sources.vehicle.id))
            ++finished;
    return {{hours_in_words(hours), "of work"},
            {counted(days.size()), days.size() == 1 ? "day worked" : "days worked"},
            {counted(sources.entries.size()), sources.entries.size() == 1 ? "entry" : "entries"},
            {counted(photos.size()), photos.size() == 1 ? "photo" : "photos"},
            {counted(results), results == 1 ? "worked result" : "worked results"},
            {counted(parts.size()), parts.size() == 1 ? "part" : "part histories"},
            {counted(std::size_t(fitted)), fitted == 1 ? "part fitted" : "parts fitted"},
            {counted(finished), finished == 1 ? "task done" : "tasks done"}};
}

// The last photo that shows something fitted or finished, else the last of all.
std::optional<Shot> cover_of(const BookSources& sources) {
    if (!sources.wish.with(BookPart::photos)) return std::nullopt;
    const PhotoAtStage* chosen = nullptr;
    for (const auto& entry : sources.entries)
        for (const auto& at : entry.photos)
            if (!chosen || at.stage >= chosen->stage) chosen = &at;
    if (!chosen) return std::nullopt;
    auto shot = shot_of(sources, chosen->photo, "");
    return shot;
}

void note_photo(const BookSources& sources, const Shot& shot, BookContent& content) {
    if (content.photos.contains(shot.photo)) return;
    const Photo& photo = sources.photo(shot.photo);
    content.photos[shot.photo] = {photo_file(sources.notebook, photo),
                                  safe_utf8(photo.original_name), photo.width, photo.height};
}

void note_photos(const BookSources& sources, BookContent& content) {
    if (content.cover) note_photo(sources, *content.cover, content);
    for (const auto& chapter : content.chapters)
        for (const auto& block : chapter.blocks) {
            if (const auto* shots = std::get_if<Shots>(&block))
                for (const auto& shot : shots->shots)
                    note_photo(sources, shot, content);
            if (const auto* pair = std::get_if<BeforeAfter>(&block)) {
                note_photo(sources, pair->before, content);
                note_photo(sources, pair->after, content);
            }
        }
}

BookContent whole_book(const BookSources& sources) {
    auto content = begun_book(sources, "Build book");
    const auto& wish = sources.wish;
    content.figures = figures_of(sources);
    content.cover = cover_of(sources);
    if (wish.with(BookPart::glance)) add_chapter(content, glance_chapter(sources));
    for (auto& chapter : entry_chapters(sources))
        add_chapter(content, std::move(chapter));
    if (wish.with(BookPart::pairs) && wish.with(BookPart::photos))
        add_chapter(content, pairs_chapter(sources));
    if (wish.with(BookPart::parts)) add_chapter(content, histories_chapter(sources));
    if (wish.with(BookPart::marks) && wish.with(BookPart::photos))
        add_chapter(content, marks_chapter(sources));
    if (wish.with(BookPart::sent_out)) add_chapter(content, sent_out_chapter(sources));
    if (wish.with(BookPart::costs)) add_chapter(content, costs_chapter(sources));
    if (wish.with(BookPart::credits)) add_chapter(content, credits_chapter(sources));
    if (wish.with(BookPart::open_points)) add_chapter(content, open_points_chapter(sources));
    return content;
}

BookContent dossier(const BookSources& sources, const std::string& about,
                    const std::string& subject) {
    auto content = begun_book(sources, subject);
    content.lines = content.title;
    content.title = about;
    return content;
}

// Photos tied to the part that no entry shows.
Shots other_photos(const BookSources& sources, const Part& part) {
    std::set<PhotoId> shown;
    for (const auto& entry : sources.entries)
        for (const auto& at : entry.photos)
            shown.insert(at.photo);
    Shots shots;
    for (const auto& tie : book_must(ties_to(sources.notebook, part.id)))
        if (!shown.contains(tie.photo))
            shots.shots.push_back(shot_of(sources, tie.photo, std::string(word(tie.stage))));
    return shots;
}

// Each measurement with its figures and its working.
void add_judged(const BookSources& sources, const Part& part, BookContent& content) {
    Chapter judged{"measured", "Measured", {}};
    for (const auto& feature : book_must(measured_features(sources.notebook, part.id)))
        for (const auto& measured : feature.measured) {
            judged.blocks.push_back(
                Title{2, feature.feature + ", " + to_words(measured.record.day)});
            add_worked(sources.wish, measured.answer, judged.blocks);
        }
    add_chapter(content, std::move(judged));
}

BookContent part_dossier(const BookSources& sources) {
    const auto part = book_must(part_by_id(sources.notebook, sources.wish.part));
    auto content = dossier(sources, name_of(part), "Part dossier");
    Chapter known{"part", "What is known of it", {}};
    add_history(sources, part, known.blocks);
    if (sources.wish.with(BookPart::photos)) {
        if (auto pair = before_after(sources, part)) known.blocks.push_back(std::move(*pair));
        add_marks_of(sources, book_must(list_marks(sources.notebook, {.part = part.id})),
                     known.blocks);
    }
    add_chapter(content, std::move(known));
    if (sources.wish.with(BookPart::worked)) add_judged(sources, part, content);
    Chapter log{"log", "What was done", {}};
    for (const auto& entry : sources.entries)
        add_entry(sources, entry, log.blocks);
    add_chapter(content, std::move(log));
    if (!sources.wish.with(BookPart::photos)) return content;
    if (auto others = other_photos(sources, part); !others.shots.empty())
        add_chapter(content, {"photos", "Other photos of it", {std::move(others)}});
    return content;
}

BookContent consignment_dossier(const BookSources& sources) {
    const auto id = sources.wish.consignment;
    const auto consignment = book_must(consignment_by_id(sources.notebook, id));
    auto content =
        dossier(sources, "Consignment " + std::to_string(id.value) + ", " + consignment.firm,
                "Consignment dossier");
    content.period = consignment.sent_on ? "sent " + to_words(*consignment.sent_on) : "";
    Chapter chapter{"consignment", "What went and what came", {}};
    add_consignment(sources, consignment, chapter.blocks);
    add_chapter(content, std::move(chapter));
    Chapter parts{"parts", "Its parts", {}};
    for (const auto& item : consignment.items)
        if (const auto part = sources.parts.find(item.part); part != sources.parts.end()) {
            add_history(sources, part->second, parts.blocks);
            if (!sources.wish.with(BookPart::photos)) continue;
            Shots shots;
            for (const auto& tie : book_must(ties_to(sources.notebook, item.part)))
                shots.shots.push_back(shot_of(sources, tie.photo, std::string(word(tie.stage))));
            if (!shots.shots.empty()) parts.blocks.push_back(std::move(shots));
        }
    add_chapter(content, std::move(parts));
    return content;
}

Result<BookContent> made(const Notebook& notebook, const BookWish& wish,
                         BookContent (*make)(const BookSources&)) {
    if (wish.from && wish.to && *wish.from > *wish.to)
        return Failure{FailureKind::refused, "The book is to begin on " + to_words(*wish.from) +
                                                 " and to end on " + to_words(*wish.to) +
                                                 ": give a first day that is not behind the last."};
    try {
        const BookSources sources(notebook, wish);
        auto content = make(sources);
        note_photos(sources, content);
        lead_names(content);
        return content;
    } catch (const BookTrouble& trouble) {
        return trouble.failure;
    }
}

} // namespace

BookContent begun_book(const BookSources& sources, const std::string& subject) {
    BookContent content;
    content.title = sources.vehicle.name;
    content.subject = subject;
    content.lines = sources.vehicle.maker;
    if (sources.vehicle.year)
        content.lines +=
            (content.lines.empty() ? "" : ", ") + std::to_string(*sources.vehicle.year);
    content.period = period_of(sources);
    content.made = "made " + to_words(today());
    return content;
}

std::string_view word(BookPart part) {
    return std::ranges::find(kWords, part, &std::pair<BookPart, std::string_view>::first)->second;
}

const std::vector<BookPart>& all_book_parts() {
    static const std::vector<BookPart> all = [] {
        std::vector<BookPart> parts;
        for (const auto& [part, said] : kWords)
            parts.push_back(part);
        return parts;
    }();
    return all;
}

Result<BookPart> book_part_called(const std::string& said) {
    std::string wanted = lower_ascii(trim(said));
    std::ranges::replace(wanted, '-', ' ');
    std::ranges::replace(wanted, '_', ' ');
    std::vector<std::string> names;
    for (const auto& [part, name] : kWords) {
        if (wanted == name) return part;
        names.emplace_back(name);
    }
    return Failure{FailureKind::invalid, "A book cannot be made without " + fettle::quoted(said) +
                                             ", only without " + join(names, ", ") + "."};
}

Result<BookContent> book_content(const Notebook& notebook, const BookWish& wish) {
    if (wish.part) return made(notebook, wish, part_dossier);
    if (wish.consignment) return made(notebook, wish, consignment_dossier);
    return made(notebook, wish, whole_book);
}

Result<BookContent> content_since(const Notebook& notebook, const BookWish& wish) {
    return made(notebook, wish, since_of);
}

} // namespace fettle::desk
