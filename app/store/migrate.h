// Brings a database to the newest schema, one numbered step a transaction.
#pragma once

#include "store/database.h"

namespace fettle::store {

// steps[0] makes schema 1 from an empty file, steps[1] schema 2 from schema 1, and so on. Each is a
// script of statements. Throws Trouble with kind newer when the file is ahead of us, and with kind
// damaged when it belongs to another program; in both cases nothing is written.
void migrate(Database& database, int application_id, std::span<const char* const> steps);

// The same look without writing: throws as above, or returns the file's schema number.
int known_schema(Database& database, int application_id, int newest);

// The same from the file as it lies and its log, before any file is laid beside it: throws as
// above. Says nothing of a file that is no database. Leaves the locks of this process's other
// connections to the file as they are.
void look_at_schema(const std::filesystem::path& file, int application_id, int newest);

} // namespace fettle::store
