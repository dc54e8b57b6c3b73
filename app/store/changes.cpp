#include "store/changes.h"

#include <sqlite3.h>

namespace fettle::store {
namespace {

void check(int code, const char* sentence) {
    if (code != SQLITE_OK) throw Trouble({FailureKind::damaged, sentence, sqlite3_errstr(code)});
}

Blob taken(void* bytes, int size) {
    auto begin = static_cast<const std::byte*>(bytes);
    Blob blob(begin, begin + size);
    sqlite3_free(bytes);
    return blob;
}

int stop_at_conflict(void*, int, sqlite3_changeset_iter*) {
    return SQLITE_CHANGESET_ABORT;
}

} // namespace

Recorder::Recorder(Database& database, std::span<const char* const> tables) {
    sqlite3_session* raw = nullptr;
    check(sqlite3session_create(database.connection(), "main", &raw),
          "The changes of this act cannot be recorded.");
    session_.reset(raw);
    for (const char* table : tables)
        check(sqlite3session_attach(raw, table), "The changes of this act cannot be recorded.");
}

void Recorder::Delete::operator()(sqlite3_session* session) const {
    sqlite3session_delete(session);
}

Blob Recorder::changes() const {
    int size = 0;
    void* bytes = nullptr;
    check(sqlite3session_changeset(session_.get(), &size, &bytes),
          "The changes of this act cannot be recorded.");
    return taken(bytes, size);
}

Blob inverted(const Blob& changes) {
    int size = 0;
    void* bytes = nullptr;
    check(sqlite3changeset_invert(static_cast<int>(changes.size()), changes.data(), &size, &bytes),
          "The recorded changes are damaged.");
    return taken(bytes, size);
}

void apply(Database& database, const Blob& changes) {
    auto bytes = const_cast<std::byte*>(changes.data()); // the C interface only reads them
    check(sqlite3changeset_apply(database.connection(), static_cast<int>(changes.size()), bytes,
                                 nullptr, stop_at_conflict, nullptr),
          "The recorded changes no longer fit the notebook; nothing was changed.");
}

} // namespace fettle::store
