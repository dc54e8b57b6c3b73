// What a person is in the middle of, kept outside history. The entry being written, as typed so
// far: kept on every pause in typing; it survives a kill and goes when the entry is written. And
// the folder that is watched.
#pragma once

#include "notebook/entries.h"

#include <map>

namespace fettle {

struct DraftSheet {
    std::string sheet;
    std::map<std::string, std::string> inputs; // as typed, by input id
    bool operator==(const DraftSheet&) const = default;
};

struct EntryDraft {
    EntryId editing{}; // the entry being changed; none for a new one
    std::string day;   // as typed
    std::string hours; // as typed
    std::string text;
    std::vector<PartId> parts;
    std::vector<TaskId> tasks;
    std::vector<PhotoAtStage> photos;
    std::vector<DraftSheet> sheets;

    bool blank() const {
        return !editing && hours.empty() && text.empty() && parts.empty() && tasks.empty() &&
               photos.empty() && sheets.empty();
    }
};

// The folder that is watched for this notebook's photos, across restarts; blank: none.
Done keep_watched_folder(Notebook& notebook, const std::string& folder);
Result<std::string> watched_folder(const Notebook& notebook);

// The last day that was told of to others; nothing before the first telling.
Done keep_told_until(Notebook& notebook, Day day);
Result<std::optional<Day>> told_until(const Notebook& notebook);

Done keep_draft(Notebook& notebook, const EntryDraft& draft);
Done drop_draft(Notebook& notebook);
// The draft left from last time, or a blank one. A draft that cannot be read is left in its place
// and gives a Failure of kind damaged.
Result<EntryDraft> kept_draft(const Notebook& notebook);

} // namespace fettle
