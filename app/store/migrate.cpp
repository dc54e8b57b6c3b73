#include "store/migrate.h"

#include "store/big_endian.h"
#include "store/write_ahead_log.h"

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

namespace fettle::store {

namespace {

int known(int owner, int schema, int application_id, int newest) {
    if (owner != application_id && (owner != 0 || schema != 0))
        throw Trouble({FailureKind::damaged,
                       "This file belongs to another program; it is no notebook of ours."});
    if (schema > newest)
        throw Trouble(
            {FailureKind::newer, "This notebook was written by a later version of "
                                 "Fettlebook (schema " +
                                     std::to_string(schema) + "; this one knows up to " +
                                     std::to_string(newest) +
                                     "). Nothing was changed: open it with that version."});
    return schema;
}

// Of the file format's head (sqlite.org/fileformat2.html#the_database_header).
struct Head {
    int application_id = 0, schema = 0;
};

std::optional<Head> said_by(const std::vector<unsigned char>& first_page) {
    constexpr std::string_view kMagic = "SQLite format 3"; // and a zero
    if (!std::equal(kMagic.begin(), kMagic.end(), first_page.begin()) ||
        first_page[kMagic.size()] != 0)
        return std::nullopt;
    return Head{static_cast<int>(number_at(&first_page[68])),
                static_cast<int>(number_at(&first_page[60]))};
}

// Through SQLite: were this process to open and close the file by itself, the system would let go
// of the locks that SQLite holds on it for a connection elsewhere in the process.
std::optional<Head> said_by(const std::filesystem::path& file) {
    try {
        Database database(file, Access::bare);
        return Head{database.application_id(), database.user_version()};
    } catch (const Trouble&) { // told better by who opens it in earnest
        return std::nullopt;
    }
}

} // namespace

int known_schema(Database& database, int application_id, int newest) {
    return known(database.application_id(), database.user_version(), application_id, newest);
}

void look_at_schema(const std::filesystem::path& file, int application_id, int newest) {
    const auto log = WriteAheadLog::read(file);
    if (!log) throw Trouble(log.failure());
    const auto head = log->first_page();
    const auto said = head.empty() ? said_by(file) : said_by(head);
    if (said) known(said->application_id, said->schema, application_id, newest);
}

void migrate(Database& database, int application_id, std::span<const char* const> steps) {
    const int newest = static_cast<int>(steps.size());
    for (int schema = known_schema(database, application_id, newest); schema < newest; ++schema) {
        Transaction transaction(database);
        database.run_script(steps[schema]);
        database.run_script("PRAGMA application_id = " + std::to_string(application_id) +
                            "; PRAGMA user_version = " + std::to_string(schema + 1) + ";");
        transaction.commit();
    }
}

} // namespace fettle::store
