#include "notebook/lost_log.h"

#include "base/half_folder.h"
#include "base/text.h"
#include "store/log_mark.h"
#include "store/write_ahead_log.h"

namespace fettle {
namespace {

namespace fs = std::filesystem;

fs::path database_in(const fs::path& folder) {
    return folder / "notebook.db";
}

std::string sentence(const store::LostLog& lost) {
    if (lost.is_gone)
        return "The program ended without closing this notebook, and its log of the last acts, "
               "notebook.db-wal, is not there any more: the last acts may be missing.";
    return "The log of the last acts, notebook.db-wal, is damaged: " + std::to_string(lost.frames) +
           (lost.frames == 1 ? " page of it cannot" : " pages of it cannot") +
           " be read, and the acts that wrote there are missing.";
}

fs::path new_place(const fs::path& folder) {
    for (int number = 1;; ++number)
        if (auto place = folder / (std::string(kAsFound) + std::to_string(number));
            !fs::exists(place))
            return place;
}

Result<fs::path> copied_as_found(const fs::path& folder) {
    auto half = HalfFolder::start(new_place(folder));
    if (!half) return half.failure();
    for (const auto& file : {database_in(folder), store::log_of(database_in(folder))}) {
        std::error_code error;
        fs::copy_file(file, half->path() / file.filename(), error);
        if (error)
            return Failure{FailureKind::io,
                           "The file " + safe_utf8(file.native()) + " cannot be copied to " +
                               safe_utf8(half->wanted().native()) + ": " + error.message() + "."};
    }
    if (auto settled = half->settle(); !settled) return settled.failure();
    return half->wanted();
}

} // namespace

Result<std::string> tell_lost_log(const fs::path& folder) {
    auto lost = store::lost_of_log(database_in(folder));
    if (!lost) return lost.failure();
    return *lost ? sentence(**lost) : std::string();
}

Result<std::string> put_lost_log_aside(const fs::path& folder) {
    auto lost = store::lost_of_log(database_in(folder));
    if (!lost) return lost.failure();
    if (!*lost) return std::string();
    std::string told = sentence(**lost);
    if ((*lost)->is_gone) {
        told += " See what the last entries are; a backup may have more.";
    } else {
        auto place = copied_as_found(folder);
        if (!place) return place.failure();
        const auto name = safe_utf8(place->native());
        told += " The database and the log as they were found are kept in " + name +
                ": fettlebook salvage \"" + name + "\" OUT saves what can be read of them.";
    }
    store::forget_log_mark(database_in(folder));
    return told;
}

} // namespace fettle
