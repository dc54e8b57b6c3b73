#include "ui/screens/photos/photo_tying.h"

#include "base/marked_text.h"
#include "notebook/entries.h"
#include "ui/candidates.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <iterator>

namespace fettle::ui {
namespace {

constexpr std::size_t kLatelyKept = 8;
constexpr std::int64_t kEntriesFrom = std::int64_t(1) << 40; // ids of entries as candidates

void begin(TyingState& state) {
    state.open = true;
    state.line.begin();
}

std::int64_t candidate_of(const TieTarget& target) {
    if (const auto* task = std::get_if<TaskId>(&target)) return -task->value;
    if (const auto* part = std::get_if<PartId>(&target)) return part->value;
    return kEntriesFrom + std::get<EntryId>(target).value;
}

// Moves the candidate with this id to the place, keeping the order of the rest.
bool bring_to(std::vector<Candidate>& candidates, std::size_t place, std::int64_t id,
              const std::string& kind) {
    const auto found = std::ranges::find(candidates, id, &Candidate::id);
    if (found == candidates.end() || std::size_t(found - candidates.begin()) < place) return false;
    found->kind = kind;
    std::rotate(candidates.begin() + std::ptrdiff_t(place), found, std::next(found));
    return true;
}

void remember(TyingState& state, const TieTarget& target) {
    std::erase(state.lately, target);
    state.lately.insert(state.lately.begin(), target);
    if (state.lately.size() > kLatelyKept) state.lately.pop_back();
}

// Brings the targets tied to last in, in the place of those that are not among them any more.
void renumber(std::vector<Target>& numbered, const std::vector<Target>& recent) {
    const auto with = [](const std::vector<Target>& among, const TieTarget& to) {
        return std::ranges::find(among, to, &Target::to);
    };
    for (Target& target : numbered)
        if (const auto fresh = with(recent, target.to); fresh != recent.end()) target = *fresh;
    for (const Target& target : recent) {
        if (with(numbered, target.to) != numbered.end()) continue;
        const auto gone = std::ranges::find_if(
            numbered, [&](const Target& old) { return with(recent, old.to) == recent.end(); });
        if (numbered.size() < std::size_t(kNumbered))
            numbered.push_back(target);
        else if (gone != numbered.end())
            *gone = target;
    }
}

// A task stands among parts under the negative of its id.
Result<std::vector<Candidate>> parts_tasks_and_entries(const Notebook& book) {
    auto all = part_candidates(book);
    if (!all) return all;
    auto tasks = open_task_candidates(book);
    if (!tasks) return tasks;
    for (Candidate& task : *tasks) {
        task.id = -task.id;
        all->push_back(std::move(task));
    }
    auto entries = list_entries(book);
    if (!entries) return entries.failure();
    for (const Entry& entry : *entries)
        all->push_back({kEntriesFrom + entry.id.value, "",
                        to_words(entry.day) + " " + first_line_of_marked(entry.text), "entry"});
    return all;
}

} // namespace

TieTarget target_of(std::int64_t candidate) {
    if (candidate < 0) return TaskId{-candidate};
    if (candidate > kEntriesFrom) return EntryId{candidate - kEntriesFrom};
    return PartId{candidate};
}

const std::vector<Candidate>& tie_candidates(const Notebook& book, TyingState& state,
                                             const std::vector<PartId>& in_entry) {
    std::vector<std::int64_t> first;
    for (const TieTarget& target : state.lately)
        first.push_back(candidate_of(target));
    const std::size_t lately = first.size();
    for (const PartId part : in_entry)
        first.push_back(part.value);
    return state.known.of(book, first, [&](const auto&) -> Result<std::vector<Candidate>> {
        auto all = parts_tasks_and_entries(book);
        if (!all) return all;
        for (std::size_t i = 0, place = 0; i < first.size(); ++i)
            if (bring_to(*all, place, first[i], i < lately ? "lately tied" : "in the entry"))
                ++place;
        return all;
    });
}

void stage_words(Page& page, TyingState& state, Digits digits) {
    const auto& words = all_words<fettle::Stage>();
    int chosen = static_cast<int>(state.stage);
    if (choice(page, "photos.stage", words, chosen))
        state.stage = static_cast<fettle::Stage>(chosen);
    const bool in_sight = digits == Digits::set_the_stage || state.open;
    for (int i = 0; i < static_cast<int>(words.size()); ++i)
        if (in_sight && pressed({.key = '1' + i, .alt = true}, state.open))
            state.stage = static_cast<fettle::Stage>(i);
    if (digits == Digits::set_the_stage) {
        Flow flow(page, Measure::kGap);
        flow.go_on();
        flow.place_words("Alt 1 to 6", Face::fine);
        words_beside(page, "Alt 1 to 6", Role::pencil, Face::fine);
    }
    if (pressed({.key = 'T'}) && !state.open) begin(state);
    page.reg.note_key("Alt 1 to 6", "the stage that it shows");
}

namespace {

// "H7 spring…", "ream the sh…", "7 Mar 2026": what fits beside eight others.
std::string short_name(const Page& page, const Target& target) {
    std::string name = target.name;
    constexpr std::string_view kEntry = "entry of ";
    if (name.starts_with(kEntry)) name = name.substr(kEntry.size());
    return cut_to(page, name, page.px(92));
}

} // namespace

bool numbered_targets(Page& page, Context& context, TyingState& state,
                      const std::vector<PhotoId>& photos) {
    renumber(state.numbered, state.recent.of(context.book, 0, [&](int) {
        return recent_targets(context.book, kNumbered);
    }));
    Flow flow(page, Measure::kStep);
    const TieTarget* taken = nullptr;
    for (std::size_t i = 0; i < state.numbered.size(); ++i) {
        const std::string digit = std::to_string(i + 1);
        const std::string name = short_name(page, state.numbered[i]);
        const ButtonLook look{
            .weight = Weight::quiet, .key_hint = digit, .enabled = !photos.empty()};
        if (!flow.fits_button(name, look)) break; // one line of them; T finds any other
        flow.place_button(name, look);
        const bool clicked = button(page, "photos.numbered." + digit, name, look);
        const bool typed = !state.open && pressed({.key = '1' + static_cast<int>(i)});
        if (clicked || (typed && !photos.empty())) taken = &state.numbered[i].to;
    }
    if (!taken) return false;
    const TieTarget target = *taken;
    if (!context.went_well(tie_photos(context.book, photos, target, state.stage))) return false;
    remember(state, target);
    return true;
}

bool tie_line(Page& page, Context& context, TyingState& state, const std::vector<PhotoId>& photos) {
    if (!state.open) return false;
    const std::string label = "tie as " + std::string(word(state.stage)) + " to";
    const auto answer = find_as_you_type(
        page, "photos.tie.to", state.line, tie_candidates(context.book, state, context.draft.parts),
        {.label = label,
         .hint = "a few letters of a tag, a part, a task or an entry",
         .keys = "Enter takes the first     Alt 1 to 6  another stage     Esc leaves",
         .blank_takes = true,
         .width = 480});
    if (!answer.taken) {
        if (!state.line.open) state.open = false;
        return false;
    }
    state.open = false;
    const TieTarget target = target_of(*answer.taken);
    if (!context.went_well(tie_photos(context.book, photos, target, state.stage))) return false;
    remember(state, target);
    return true;
}

void put_into_entry(Context& context, const std::vector<PhotoId>& photos, fettle::Stage stage) {
    auto& in_entry = context.draft.photos;
    for (const PhotoId photo : photos) {
        const auto there = std::ranges::find(in_entry, photo, &PhotoAtStage::photo);
        if (there == in_entry.end())
            in_entry.push_back({photo, stage});
        else
            there->stage = stage;
    }
    context.draft_edited = context.draft_edited || !photos.empty();
}

const std::vector<Tie>& TieWords::of(const Notebook& book, const std::vector<Photo>& photos,
                                     std::size_t at) {
    constexpr std::size_t kAtOnce = 32;
    if (tables_.empty() || book.changed_since(counter_, tables_)) ties_.clear();
    counter_ = book.change_counter();
    const auto found = ties_.find(photos[at].id.value);
    if (found != ties_.end()) return found->second;
    std::vector<PhotoId> around;
    const std::size_t from = at / kAtOnce * kAtOnce;
    for (std::size_t i = from; i < std::min(from + kAtOnce, photos.size()); ++i) {
        around.push_back(photos[i].id);
        ties_[photos[i].id.value].clear();
    }
    const TablesRead watched;
    // Not by the count in the record: that may be older than what was tied in this frame.
    if (auto read = ties_of_photos(book, around))
        for (Tie& tie : *read)
            ties_[tie.photo.value].push_back(std::move(tie));
    tables_ = watched.names();
    return ties_[photos[at].id.value];
}

} // namespace fettle::ui
