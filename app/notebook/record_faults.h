// What is wrong within a notebook's database, and what can be mended there. Files beside it are
// looked at elsewhere.
#pragma once

#include "notebook/notebook.h"

#include <functional>
#include <stop_token>
#include <string_view>
#include <vector>

namespace fettle {

// Where a person finds it, for advice.
inline constexpr std::string_view kHowToMend = "M on Safe keeping, or fettlebook check --mend";

// What to do with a notebook whose database is damaged.
inline constexpr std::string_view kHowToSave =
    "Restore the newest backup into a new folder: fettlebook restore FILE DIR; or save what can be "
    "read: fettlebook salvage DIR OUT. Keep this one beside it.";

struct RecordFault {
    std::string sentence;
    std::string advice;
    bool is_mended_by_words = false; // remake_words puts it right
};

// SQLite's integrity check, the schema, references, the index of words, what stands there against
// the changes kept, and the rules between rows; on a copy of its own, so that whoever writes is not
// held up.
Result<std::vector<RecordFault>> record_faults(const Notebook& notebook);

// Rules between rows that the acts keep: no circles of tasks or assemblies, and every list can be
// read. A sentence for each that is broken.
std::vector<std::string> rule_faults(const Notebook& notebook);

// Makes the index of words anew from the records.
Done remake_words(Notebook& notebook);

// The database as a file of its own, in one state, while others may write; `progress` is told pages
// done and in all. Fails with cancelled when it was stopped.
Done copy_database_to(const Notebook& notebook, const std::filesystem::path& file,
                      const std::stop_token& stop = {},
                      const std::function<void(int, int)>& progress = {});

// Whether a file is a whole database of ours: its schema, or damaged, or newer. Not written to.
Result<int> look_at_database(const std::filesystem::path& file);

} // namespace fettle
