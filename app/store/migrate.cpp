#include "store/migrate.h"

#include "store/big_endian.h"
#include "store/write_ahead_log.h"

#include <algorithm>
#include <fstream>
#include <string_view>

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

} // namespace

int known_schema(Database& database, int application_id, int newest) {
    return known(database.application_id(), database.user_version(), application_id, newest);
}

void look_at_schema(const std::filesystem::path& file, int application_id, int newest) {
    constexpr std::size_t kHead = 100;
    const auto log = WriteAheadLog::read(file);
    if (!log) throw Trouble(log.failure());
    auto head = log->first_page();
    if (head.empty()) {
        head.resize(kHead);
        std::ifstream(file, std::ios::binary).read(reinterpret_cast<char*>(head.data()), kHead);
    }
    constexpr std::string_view kMagic = "SQLite format 3"; // and a zero
    if (!std::equal(kMagic.begin(), kMagic.end(), head.begin()) || head[kMagic.size()] != 0) return;
    known(static_cast<int>(number_at(&head[68])), static_cast<int>(number_at(&head[60])),
          application_id, newest);
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
