#include "base/marked_text.h"
#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/drafting.h"
#include "notebook/entries.h"

#include <istream>
#include <iterator>

namespace fettle::cli {
namespace {

struct LogWish {
    std::string text, on, hours;
    std::vector<std::string> parts, photos, tasks;
    bool list = false;

    void check() const {
        if (!list && text.empty()) throw CLI::RequiredError("TEXT or --list");
        const bool more = !(text.empty() && on.empty() && hours.empty() && photos.empty());
        if (list && (more || parts.size() > 1 || tasks.size() > 1))
            throw CLI::ValidationError("--list goes with one --part and one --task alone");
    }
};

void declare_log(CLI::App& verb, LogWish& wish) {
    verb.add_option("TEXT", wish.text,
                    "What was done, in Markdown; - reads it from standard input");
    verb.add_option("--on", wish.on, "The day; without it today")->option_text("DATE");
    verb.add_option("--hours", wish.hours, "How long, such as 1.5, 1:30 or 90 min")
        ->option_text("HOURS");
    add_repeated(verb, "--part", wish.parts, "A part it speaks of; may be repeated")
        ->option_text("TAG");
    add_repeated(verb, "--photo", wish.photos, "A photo that belongs to it; may be repeated")
        ->option_text("ID");
    add_repeated(verb, "--task", wish.tasks, "A task it speaks of; may be repeated")
        ->option_text("ID");
    verb.add_flag("--list", wish.list, "List entries, of --part or --task alone when given");
    verb.footer("JSON: {entry, date, hours, text, parts, tasks, photos, worked_results}; --list: a "
                "list of these,\nthe newest day first; parts lists tags, tasks numbers, photos "
                "{photo, stage}, worked_results\n{worked_result, sheet, plugin_version}.");
}

std::string block(const Entry& entry, const Names& names) {
    std::vector<std::string> about;
    for (auto part : entry.parts)
        about.push_back(names.tag(part));
    for (auto task : entry.tasks)
        about.push_back("task " + std::to_string(task.value));
    for (const auto& photo : entry.photos)
        about.push_back("photo " + std::to_string(photo.photo.value));
    std::string head = "entry " + std::to_string(entry.id.value) + "  " + to_words(entry.day);
    if (entry.hours) head += "  " + hours_words(entry.hours);
    if (!about.empty()) head += "  " + join(about, ", ");
    std::string lines = one_line(head) + '\n' + indented(words_of_marked(entry.text), 4);
    for (const auto& result : entry.results)
        lines += "    worked result " + std::to_string(result.id.value) + ": " +
                 one_line(result.sheet + ' ' + result.plugin_version) + '\n';
    return lines;
}

Result<Report> entries_listed(const Call& call, const LogWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto parts = parts_tagged(*notebook, wish.parts);
    if (!parts) return parts.failure();
    auto tasks = parse_ids<TaskId>("task", wish.tasks);
    if (!tasks) return tasks.failure();
    EntryFilter filter;
    if (!parts->empty()) filter.part = parts->front();
    if (!tasks->empty()) filter.task = tasks->front();
    auto entries = list_entries(*notebook, filter);
    if (!entries) return entries.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    std::string text;
    Json json = Json::array();
    for (const auto& entry : *entries) {
        text += block(entry, *names);
        json.push_back(to_json(entry, *names));
    }
    return Report{text.empty() ? "no entries\n" : text, std::move(json)};
}

Result<std::string> text_of(const Call& call, const LogWish& wish) {
    std::string text = wish.text;
    if (text == "-") text.assign(std::istreambuf_iterator<char>(call.in), {});
    if (safe_utf8(text) != text)
        return Failure{FailureKind::invalid, "The text " + fettle::quoted(text) +
                                                 " is not UTF-8: save it as UTF-8 first."};
    return text;
}

Result<Entry> entry_of(const Notebook& notebook, const LogWish& wish) {
    Entry entry;
    auto day = parse_day_or_today(wish.on);
    if (!day) return day.failure();
    entry.day = *day;
    auto hours = desk::parse_hours(wish.hours);
    if (!hours) return hours.failure();
    entry.hours = *hours;
    auto parts = parts_tagged(notebook, wish.parts);
    if (!parts) return parts.failure();
    entry.parts = std::move(*parts);
    auto tasks = parse_ids<TaskId>("task", wish.tasks);
    if (!tasks) return tasks.failure();
    entry.tasks = std::move(*tasks);
    auto photos = parse_ids<PhotoId>("photo", wish.photos);
    if (!photos) return photos.failure();
    for (auto photo : *photos)
        entry.photos.push_back({photo});
    return entry;
}

Result<Report> log(const Call& call, const LogWish& wish) {
    if (wish.list) return entries_listed(call, wish);
    auto text = text_of(call, wish); // before the notebook is held: somebody may be typing it
    if (!text) return text.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto entry = entry_of(*notebook, wish);
    if (!entry) return entry.failure();
    entry->text = std::move(*text);
    auto id = write_entry(*notebook, *entry);
    if (!id) return id.failure();
    auto written = entry_by_id(*notebook, *id);
    if (!written) return written.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    return Report{"entry " + std::to_string(id->value) + '\n', to_json(*written, *names)};
}

} // namespace

void add_log(Line& line) {
    add_verb(line, line.app, "log", "Write an entry into the build log, or list entries",
             declare_log, log);
}

} // namespace fettle::cli
