#include "base/text.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"

namespace fettle::cli {
namespace {

struct TieWish {
    std::vector<std::string> photos;
    std::string part, task, entry;
    std::string stage = "during";

    void check() const {
        if (!part.empty() + !task.empty() + !entry.empty() != 1)
            throw CLI::ValidationError("Exactly one of --part, --task and --entry is required");
    }
};

void declare_tie(CLI::App& verb, TieWish& wish) {
    verb.add_option("PHOTO", wish.photos, "Numbers of photos")->required();
    verb.add_option("--part", wish.part, "Tie them to the part with this tag")->option_text("TAG");
    verb.add_option("--task", wish.task, "Tie them to this task")->option_text("ID");
    verb.add_option("--entry", wish.entry, "Tie them to this entry")->option_text("ID");
    verb.add_option("--stage", wish.stage,
                    "One of: " + join(all_words<Stage>(), ", ") + "; without it during")
        ->option_text("STAGE");
    verb.footer("A photo tied there already only changes its stage.\n"
                "JSON: {photos, part | task | entry, stage}; photos lists numbers.");
}

struct Target {
    TieTarget to;
    std::string name;
    Json json; // of one field
};

Result<Target> target_of(const Notebook& notebook, const TieWish& wish) {
    if (!wish.part.empty()) {
        auto part = part_tagged(notebook, wish.part);
        if (!part) return part.failure();
        return Target{part->id, part->tag + ' ' + part->name, {{"part", part->tag}}};
    }
    if (!wish.task.empty()) {
        auto task = parse_id<TaskId>("task", wish.task);
        if (!task) return task.failure();
        return Target{*task, "task " + wish.task, {{"task", task->value}}};
    }
    auto entry = parse_id<EntryId>("entry", wish.entry);
    if (!entry) return entry.failure();
    return Target{*entry, "entry " + wish.entry, {{"entry", entry->value}}};
}

Result<Report> tie(const Call& call, const TieWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto photos = parse_ids<PhotoId>("photo", wish.photos);
    if (!photos) return photos.failure();
    auto stage = from_word<Stage>(wish.stage);
    if (!stage) return stage.failure();
    auto target = target_of(*notebook, wish);
    if (!target) return target.failure();
    if (auto tied = tie_photos(*notebook, *photos, target->to, *stage); !tied)
        return tied.failure();

    Json json{{"photos", Json::array()}};
    for (auto photo : *photos)
        json["photos"].push_back(photo.value);
    json.update(target->json);
    json["stage"] = word(*stage);
    return Report{one_line("tied " + counted(photos->size(), "photo") + " to " + target->name +
                           ", " + std::string(word(*stage))) +
                      '\n',
                  std::move(json)};
}

} // namespace

void add_tie(Line& line) {
    add_verb(line, line.app, "tie", "Tie photos to a part, a task or an entry, at a stage",
             declare_tie, tie);
}

} // namespace fettle::cli
