#include "store/migrate.h"

namespace fettle::store {

int known_schema(Database& database, int application_id, int newest) {
    const int owner = database.application_id();
    const int schema = database.user_version();
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
