#include "store/changes.h"

#include "store/trouble.h"

#include <sqlite3.h>

namespace fettle::store {
namespace {

constexpr const char* kDamagedChanges = "The recorded changes are damaged.";

// What is wrong with the changes has a sentence of its own, what is wrong with the disk has not.
void check(sqlite3* connection, int code, const char* sentence) {
    switch (code & 0xff) {
    case SQLITE_OK:
        return;
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_BUSY:
    case SQLITE_READONLY:
        throw_trouble(connection, code);
    default:
        throw Trouble({FailureKind::damaged, sentence, sqlite3_errstr(code)});
    }
}

Blob taken(void* bytes, int size) {
    auto begin = static_cast<const std::byte*>(bytes);
    Blob blob(begin, begin + size);
    sqlite3_free(bytes);
    return blob;
}

void check_form(const Blob& changes) {
    if (!has_form_of_changes(changes)) throw Trouble({FailureKind::damaged, kDamagedChanges});
}

int stop_at_conflict(void*, int, sqlite3_changeset_iter*) {
    return SQLITE_CHANGESET_ABORT;
}

} // namespace

Recorder::Recorder(Database& database, std::span<const char* const> tables) {
    sqlite3_session* raw = nullptr;
    check(database.connection(), sqlite3session_create(database.connection(), "main", &raw),
          "The changes of this act cannot be recorded.");
    session_.reset(raw);
    for (const char* table : tables)
        check(database.connection(), sqlite3session_attach(raw, table),
              "The changes of this act cannot be recorded.");
}

void Recorder::Delete::operator()(sqlite3_session* session) const {
    sqlite3session_delete(session);
}

Blob Recorder::changes() const {
    int size = 0;
    void* bytes = nullptr;
    check(nullptr, sqlite3session_changeset(session_.get(), &size, &bytes),
          "The changes of this act cannot be recorded.");
    return taken(bytes, size);
}

Blob inverted(const Blob& changes) {
    check_form(changes);
    int size = 0;
    void* bytes = nullptr;
    check(nullptr,
          sqlite3changeset_invert(static_cast<int>(changes.size()), changes.data(), &size, &bytes),
          kDamagedChanges);
    return taken(bytes, size);
}

void apply(Database& database, const Blob& changes) {
    check_form(changes);
    auto bytes = const_cast<std::byte*>(changes.data()); // the C interface only reads them
    check(database.connection(),
          sqlite3changeset_apply(database.connection(), static_cast<int>(changes.size()), bytes,
                                 nullptr, stop_at_conflict, nullptr),
          "The recorded changes no longer fit the notebook; nothing was changed.");
}

namespace {

struct EndIteration {
    void operator()(sqlite3_changeset_iter* at) const { sqlite3changeset_finalize(at); }
};

std::string text_of(sqlite3_value* value) {
    const auto text = reinterpret_cast<const char*>(sqlite3_value_text(value));
    return text ? std::string(text, static_cast<std::size_t>(sqlite3_value_bytes(value)))
                : std::string();
}

using ValueOf = int (*)(sqlite3_changeset_iter*, int, sqlite3_value**);

RowKey key_of(sqlite3_changeset_iter* at, ValueOf value_of) {
    unsigned char* is_key = nullptr;
    int columns = 0;
    check(nullptr, sqlite3changeset_pk(at, &is_key, &columns), kDamagedChanges);
    RowKey key;
    int parts = 0;
    for (int column = 0; column < columns; ++column) {
        sqlite3_value* value = nullptr;
        if (!is_key[column] || value_of(at, column, &value) != SQLITE_OK || !value) continue;
        if (parts++ == 0 && sqlite3_value_type(value) == SQLITE_INTEGER)
            key = std::int64_t{sqlite3_value_int64(value)};
        else if (parts == 1)
            key = text_of(value);
        else if (auto number = std::get_if<std::int64_t>(&key))
            key = std::to_string(*number) + ',' + text_of(value);
        else
            key = std::get<std::string>(key) + ',' + text_of(value);
    }
    return key;
}

Change change_at(sqlite3_changeset_iter* at) {
    const char* table = nullptr;
    int columns = 0, kind = 0, indirect = 0;
    check(nullptr, sqlite3changeset_op(at, &table, &columns, &kind, &indirect), kDamagedChanges);
    Change change;
    change.table = table;
    if (kind == SQLITE_INSERT) {
        change.kind = Change::Kind::added;
        change.key = key_of(at, sqlite3changeset_new);
        return change;
    }
    change.key = key_of(at, sqlite3changeset_old);
    change.kind = kind == SQLITE_DELETE ? Change::Kind::removed : Change::Kind::changed;
    if (kind == SQLITE_DELETE) return change;
    for (int column = 0; column < columns; ++column) {
        sqlite3_value* value = nullptr;
        if (sqlite3changeset_new(at, column, &value) == SQLITE_OK && value)
            change.columns.push_back(column);
    }
    return change;
}

Cell cell_of(sqlite3_value* value) {
    switch (sqlite3_value_type(value)) {
    case SQLITE_INTEGER:
        return std::int64_t{sqlite3_value_int64(value)};
    case SQLITE_FLOAT:
        return sqlite3_value_double(value);
    case SQLITE_TEXT:
        return text_of(value);
    case SQLITE_BLOB: {
        const auto bytes = static_cast<const std::byte*>(sqlite3_value_blob(value));
        return bytes ? Blob(bytes, bytes + sqlite3_value_bytes(value)) : Blob();
    }
    default:
        return std::monostate();
    }
}

WrittenRow written_at(sqlite3_changeset_iter* at) {
    Change change = change_at(at);
    WrittenRow row{change.kind, std::move(change.table), std::move(change.key), {}};
    unsigned char* is_key = nullptr;
    int columns = 0;
    check(nullptr, sqlite3changeset_pk(at, &is_key, &columns), kDamagedChanges);
    const bool is_added = row.kind == Change::Kind::added;
    const bool is_removed = row.kind == Change::Kind::removed;
    for (int column = 0; column < columns; ++column) {
        sqlite3_value* value = nullptr;
        auto& written = row.values.emplace_back();
        if (is_removed && !is_key[column]) continue;
        const auto value_of =
            is_key[column] && !is_added ? sqlite3changeset_old : sqlite3changeset_new;
        if (value_of(at, column, &value) == SQLITE_OK && value) written = cell_of(value);
    }
    return row;
}

template <class Look>
void iterate(const Blob& changes, const Look& look) {
    check_form(changes);
    sqlite3_changeset_iter* raw = nullptr;
    check(nullptr,
          sqlite3changeset_start(&raw, static_cast<int>(changes.size()),
                                 const_cast<std::byte*>(changes.data())),
          kDamagedChanges);
    const std::unique_ptr<sqlite3_changeset_iter, EndIteration> at(raw);
    int code = SQLITE_ROW;
    while ((code = sqlite3changeset_next(raw)) == SQLITE_ROW)
        look(raw);
    if (code != SQLITE_DONE) check(nullptr, code, kDamagedChanges);
}

} // namespace

void each_change(const Blob& changes, const std::function<void(const Change&)>& look) {
    iterate(changes, [&](sqlite3_changeset_iter* at) { look(change_at(at)); });
}

void each_written(const Blob& changes, const std::function<void(const WrittenRow&)>& look) {
    iterate(changes, [&](sqlite3_changeset_iter* at) { look(written_at(at)); });
}

Blob changes_between(Database& database, const std::string& from, const std::string& to,
                     std::span<const char* const> tables) {
    constexpr const char* kSentence = "What has changed cannot be found out.";
    sqlite3_session* raw = nullptr;
    check(database.connection(), sqlite3session_create(database.connection(), to.c_str(), &raw),
          kSentence);
    const std::unique_ptr<sqlite3_session, decltype(&sqlite3session_delete)> session(
        raw, sqlite3session_delete);
    for (const char* table : tables) {
        check(database.connection(), sqlite3session_attach(raw, table), kSentence);
        char* why = nullptr;
        const int code = sqlite3session_diff(raw, from.c_str(), table, &why);
        const std::string detail = why ? why : "";
        sqlite3_free(why);
        if (code != SQLITE_OK) throw Trouble({FailureKind::damaged, kSentence, detail});
    }
    int size = 0;
    void* bytes = nullptr;
    check(database.connection(), sqlite3session_changeset(raw, &size, &bytes), kSentence);
    return taken(bytes, size);
}

} // namespace fettle::store
