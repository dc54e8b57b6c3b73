// Everything that was given out, back into a new notebook.
#pragma once

#include "desk/data_files.h"

#include <functional>
#include <stop_token>
#include <vector>

namespace fettle::desk {

struct DataInWish {
    DataForm form = DataForm::json_lines;
    std::stop_token stop; // then nothing is made
    // rows or photos done, in all, the table or photo; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct DataInReport {
    std::filesystem::path notebook;
    std::size_t rows = 0;
    std::size_t photos = 0;                  // whose files were brought
    std::vector<std::string> missing_photos; // those whose files were not beside; as recorded
    std::vector<std::string> notices;        // tables with more or fewer rows than written out
};

// `notebook` is a new or empty folder; made whole or not at all. What is wrong is refused by one
// sentence naming file, line, field, value and what is accepted: an unknown table or column, a
// value of another kind, a doubled id, a reference to no record, a path out of the notebook. Data
// of an earlier schema are taken in under that and brought up. Photos are looked for by their hash
// below photos/ of the data and copied.
Result<DataInReport> data_in(const std::filesystem::path& data,
                             const std::filesystem::path& notebook, const DataInWish& wish);

} // namespace fettle::desk
