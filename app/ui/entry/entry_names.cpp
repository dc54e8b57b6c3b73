#include "ui/entry/entry_names.h"

#include "base/text.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "ui/candidates.h"
#include "ui/entry/entry_panel.h"

#include <algorithm>
#include <cctype>

namespace fettle::ui {
namespace {

using Kind = NameInText::Kind;
constexpr std::int64_t kKinds = 4;
constexpr const char* kLeft = " is no longer in the text: it stays tied until it is taken out.";
constexpr const char* kLeftSheet = " is no longer in the text: it stands at the end of the entry.";

void add_of_kind(std::vector<Candidate>& all, Result<std::vector<Candidate>> some, Kind kind,
                 const char* said) {
    if (!some) return;
    for (Candidate& candidate : *some) {
        candidate.id = candidate.id * kKinds + static_cast<std::int64_t>(kind);
        candidate.kind = said;
        note_beginnings(candidate);
        all.push_back(std::move(candidate));
    }
}

std::vector<Candidate> sheet_candidates(const calc::Catalogue& catalogue) {
    std::vector<Candidate> all;
    for (const calc::Plugin& plugin : catalogue.plugins())
        for (const calc::Sheet& sheet : plugin.sheets)
            all.push_back({std::ssize(all), sheet.id, sheet.title, {}});
    return all;
}

Result<std::vector<Candidate>> photo_candidates(const Notebook& book) {
    auto photos = list_photos(book);
    if (!photos) return photos.failure();
    std::ranges::reverse(*photos);
    std::vector<Candidate> all;
    for (const Photo& photo : *photos) {
        const std::string day = photo.taken ? " of " + to_words(*photo.taken) : "";
        all.push_back({photo.id.value, std::to_string(photo.id.value),
                       "photo" + day + " " + safe_utf8(photo.original_name), ""});
    }
    return all;
}

bool has_photo(const EntryDraft& draft, std::int64_t id) {
    return std::ranges::find(draft.photos, PhotoId{id}, &PhotoAtStage::photo) != draft.photos.end();
}

bool is_tied(const EntryDraft& draft, const NameInText& name) {
    switch (name.kind) {
    case Kind::part:
        return std::ranges::find(draft.parts, PartId{name.number}) != draft.parts.end();
    case Kind::task:
        return std::ranges::find(draft.tasks, TaskId{name.number}) != draft.tasks.end();
    case Kind::photo:
        return has_photo(draft, name.number);
    case Kind::sheet:
        break;
    }
    for (std::size_t at = 0; at < draft.sheets.size(); ++at)
        if (name_of_sheet(draft, at) == name) return true;
    return false;
}

bool is_there(const Notebook& book, const NameInText& name) {
    switch (name.kind) {
    case Kind::part:
        return part_by_id(book, PartId{name.number}).ok();
    case Kind::task:
        return task_by_id(book, TaskId{name.number}).ok();
    case Kind::photo:
        return photo_by_id(book, PhotoId{name.number}).ok();
    case Kind::sheet:
        break;
    }
    return false;
}

std::string called(const Context& context, const NameInText& name) {
    if (name.kind == Kind::sheet) {
        const auto found = context.sheets.find_sheet(name.sheet);
        return found ? found->sheet->title : name.sheet;
    }
    if (name.kind == Kind::part)
        if (const auto part = part_by_id(context.book, PartId{name.number})) return part->tag;
    return (name.kind == Kind::task ? "task " : "photo ") + std::to_string(name.number);
}

bool holds_name(const std::vector<NameInText>& names, const NameInText& name) {
    return std::ranges::find(names, name) != names.end();
}

bool is_blank(char letter) {
    return std::isspace(static_cast<unsigned char>(letter)) != 0;
}

// Line ends that are missing for a blank line between what stands there and what comes.
std::string blank_line_after(std::string_view above) {
    if (above.empty() || above.ends_with("\n\n")) return "";
    return above.ends_with('\n') ? "\n" : "\n\n";
}

std::string blank_line_before(std::string_view below) {
    if (below.starts_with("\n\n")) return "";
    return below.starts_with('\n') ? "\n" : "\n\n";
}

} // namespace

Result<std::vector<Candidate>> what_can_be_put_in(const Context& context) {
    std::vector<Candidate> all;
    add_of_kind(all, sheet_candidates(context.sheets), Kind::sheet, "worked sheet");
    add_of_kind(all, part_candidates(context.book), Kind::part, "part");
    add_of_kind(all, open_task_candidates(context.book), Kind::task, "task");
    add_of_kind(all, photo_candidates(context.book), Kind::photo, "photo");
    return all;
}

std::optional<Chosen> put_in_chosen(Context& context, const Candidate& candidate) {
    NameInText name{static_cast<Kind>(candidate.id % kKinds), candidate.id / kKinds};
    if (name.kind == Kind::sheet) {
        const auto found = context.sheets.find_sheet(candidate.tag);
        if (!found) return std::nullopt;
        put_in_sheet(context, *found->sheet);
        const EntryDraft& draft = context.draft;
        return Chosen{name_of_sheet(draft, draft.sheets.size() - 1), candidate.name};
    }
    tie_name(context, name);
    if (name.kind == Kind::part) return Chosen{name, candidate.tag + " " + candidate.name};
    if (name.kind == Kind::photo) return Chosen{name, "photo " + candidate.tag};
    return Chosen{name, candidate.name};
}

TextCaret::Change put_for_letters(const std::string& text, std::size_t from, std::size_t to,
                                  const Chosen& chosen) {
    const std::string mark = mark_of(chosen.name, chosen.words);
    const auto above = std::string_view(text).substr(0, from);
    const auto below = std::string_view(text).substr(to);
    if (chosen.name.kind == Kind::sheet)
        return {from, to, blank_line_after(above) + mark + blank_line_before(below)};
    const bool close = !above.empty() && !is_blank(above.back()) && above.back() != '(';
    const bool letters = !below.empty() && std::isalnum(static_cast<unsigned char>(below.front()));
    return {from, to, (close ? " " : "") + mark + (letters ? " " : "")};
}

void follow_names(const EntryDraft& draft, NamesFollowed& followed) {
    if (followed.begun && followed.text == draft.text) return;
    auto now = names_in(draft.text);
    for (const NameInText& name : followed.now)
        if (!holds_name(now, name) && !holds_name(followed.left, name))
            followed.left.push_back(name);
    std::erase_if(followed.left, [&](const NameInText& name) { return holds_name(now, name); });
    followed = {draft.text, std::move(now), std::move(followed.left), true};
}

NamesToTell names_to_tell(const EntryDraft& draft, const NamesFollowed& followed) {
    NamesToTell names;
    for (const NameInText& name : followed.now)
        if (!is_tied(draft, name)) names.untied.push_back(name);
    for (const NameInText& name : followed.left)
        if (is_tied(draft, name)) names.left.push_back(name);
    return names;
}

std::vector<NameTold> told_of_names(const Context& context, const NamesToTell& names) {
    std::vector<NameTold> all;
    for (const NameInText& name : names.untied)
        if (is_there(context.book, name))
            all.push_back(
                {name, called(context, name) + " is named in the text and not tied.", true});
    for (const NameInText& name : names.left)
        all.push_back(
            {name, called(context, name) + (name.kind == Kind::sheet ? kLeftSheet : kLeft)});
    return all;
}

void tie_name(Context& context, const NameInText& name) {
    if (is_tied(context.draft, name)) return;
    if (name.kind == Kind::part) context.draft.parts.push_back(PartId{name.number});
    if (name.kind == Kind::task) put_in_task(context, TaskId{name.number});
    if (name.kind == Kind::photo) context.draft.photos.push_back({PhotoId{name.number}});
    context.draft_edited = true;
}

void take_name_out(Context& context, NamesFollowed& followed, const NameInText& name) {
    const auto becomes = [&](NameInText other) -> std::optional<NameInText> {
        if (other == name) return std::nullopt;
        if (other.kind == Kind::sheet && other.sheet == name.sheet && other.number > name.number)
            --other.number;
        return other;
    };
    context.draft.text = renamed(context.draft.text, becomes);
    std::vector<NameInText> left;
    for (const NameInText& other : followed.left)
        if (const auto moved = becomes(other)) left.push_back(*moved);
    followed = {context.draft.text, names_in(context.draft.text), std::move(left), true};
}

NameInText name_of_sheet(const EntryDraft& draft, std::size_t at) {
    const std::string& sheet = draft.sheets[at].sheet;
    const auto end = draft.sheets.begin() + std::ptrdiff_t(at) + 1;
    return {Kind::sheet, std::ranges::count(draft.sheets.begin(), end, sheet, &DraftSheet::sheet),
            sheet};
}

} // namespace fettle::ui
