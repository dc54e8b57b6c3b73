#include "store/database.h"

#include "store/trouble.h"

#include <sqlite3.h>

#include <cctype>
#include <utility>

namespace fettle::store {
namespace {

FailureKind kind_of(int code) {
    switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return FailureKind::busy;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return FailureKind::damaged;
    default:
        return FailureKind::io;
    }
}

std::string sentence_for(int code) {
    switch (code & 0xff) {
    case SQLITE_FULL:
        return "The disk is full: nothing of this act was written.";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return "The notebook is in use by another program: try again when it has finished.";
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return kDamagedDatabase;
    case SQLITE_READONLY:
        return "The notebook cannot be written: its folder or file is read-only.";
    case SQLITE_CANTOPEN:
        return "The notebook's database cannot be opened.";
    case SQLITE_IOERR:
        return "The notebook's disk gave an error and the act was given up: see that the disk is "
               "there and sound, and where it was away meanwhile, open the notebook again.";
    default:
        return "The notebook's database refused the act.";
    }
}

void check(sqlite3* connection, int code) {
    if (code != SQLITE_OK) throw_trouble(connection, code);
}

} // namespace

void throw_trouble(sqlite3* connection, int code) {
    std::string detail = connection ? sqlite3_errmsg(connection) : sqlite3_errstr(code);
    throw Trouble({kind_of(code), sentence_for(code), std::move(detail)});
}

Statement::Statement(sqlite3* connection, std::string_view sql) {
    sqlite3_stmt* raw = nullptr;
    check(connection,
          sqlite3_prepare_v2(connection, sql.data(), static_cast<int>(sql.size()), &raw, nullptr));
    statement_.reset(raw);
}

namespace {

thread_local TablesRead* watching = nullptr;

int note_read(void*, int action, const char* table, const char*, const char*, const char*) {
    if (action == SQLITE_READ && table && watching) TablesRead::note({table});
    return SQLITE_OK;
}

} // namespace

TablesRead::TablesRead() : outer_(std::exchange(watching, this)) {}

TablesRead::~TablesRead() {
    watching = outer_;
    note(names_);
}

void TablesRead::note(const std::set<std::string>& names) {
    if (watching) watching->names_.insert(names.begin(), names.end());
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

bool Statement::next() {
    int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) return false;
    throw_trouble(sqlite3_db_handle(statement_.get()), code);
}

void Statement::put(int parameter, std::int64_t value) {
    check(sqlite3_db_handle(statement_.get()),
          sqlite3_bind_int64(statement_.get(), parameter, value));
}

void Statement::put(int parameter, double value) {
    check(sqlite3_db_handle(statement_.get()),
          sqlite3_bind_double(statement_.get(), parameter, value));
}

void Statement::put(int parameter, std::string_view value) {
    // A null pointer would bind NULL, and an empty text is not nothing.
    const char* text = value.data() ? value.data() : "";
    check(sqlite3_db_handle(statement_.get()),
          sqlite3_bind_text64(statement_.get(), parameter, text, value.size(), SQLITE_TRANSIENT,
                              SQLITE_UTF8));
}

void Statement::put(int parameter, std::span<const std::byte> value) {
    const void* bytes = value.data() ? static_cast<const void*>(value.data()) : "";
    check(sqlite3_db_handle(statement_.get()),
          sqlite3_bind_blob64(statement_.get(), parameter, bytes, value.size(), SQLITE_TRANSIENT));
}

void Statement::put(int parameter, std::nullptr_t) {
    check(sqlite3_db_handle(statement_.get()), sqlite3_bind_null(statement_.get(), parameter));
}

bool Statement::is_null(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

void Statement::take(int column, std::int64_t& value) const {
    value = sqlite3_column_int64(statement_.get(), column);
}

void Statement::take(int column, double& value) const {
    value = sqlite3_column_double(statement_.get(), column);
}

void Statement::take(int column, std::string& value) const {
    auto text = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
    if (text)
        value.assign(text,
                     static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column)));
}

void Statement::take(int column, Blob& value) const {
    auto bytes = static_cast<const std::byte*>(sqlite3_column_blob(statement_.get(), column));
    if (bytes) value.assign(bytes, bytes + sqlite3_column_bytes(statement_.get(), column));
}

void Statement::take(int column, RowKey& value) const {
    if (sqlite3_column_type(statement_.get(), column) == SQLITE_INTEGER)
        value = get<std::int64_t>(column);
    else
        value = get<std::string>(column);
}

namespace {

namespace fs = std::filesystem;

bool holds_something(const fs::path& file) {
    std::error_code error;
    const auto bytes = fs::file_size(file, error);
    return !error && bytes > 0;
}

// As SQLite's URIs want it.
std::string escaped(const fs::path& file) {
    constexpr char kDigits[] = "0123456789abcdef";
    std::string text;
    const std::string whole = fs::absolute(file);
    for (const char letter : whole) {
        const auto byte = static_cast<unsigned char>(letter);
        if (std::isalnum(byte) || letter == '/')
            text += letter;
        else
            text += {'%', kDigits[byte >> 4], kDigits[byte & 15]};
    }
    return text;
}

} // namespace

void Database::open(const std::string& name, int flags) {
    sqlite3* raw = nullptr;
    int code = sqlite3_open_v2(name.c_str(), &raw, flags | SQLITE_OPEN_FULLMUTEX, nullptr);
    connection_.reset(raw);
    if (code != SQLITE_OK) throw_trouble(raw, code);
    sqlite3_extended_result_codes(raw, 1);
    sqlite3_busy_timeout(raw, 2000);
    sqlite3_set_authorizer(raw, note_read, nullptr); // it forbids nothing
}

// A log is kept beside the file even to read it, which a folder that cannot be written does not
// take. Where no log was left there is nothing in it to miss.
void Database::open_to_read(const fs::path& file) {
    open(file.native(), SQLITE_OPEN_READONLY);
    const int code =
        sqlite3_exec(connection(), "SELECT 1 FROM sqlite_schema", nullptr, nullptr, nullptr) & 0xff;
    if (code != SQLITE_READONLY && code != SQLITE_CANTOPEN) return;
    if (holds_something(file.native() + "-wal"))
        throw Trouble({FailureKind::io,
                       "The notebook's last acts lie in " + file.filename().string() +
                           "-wal, and its folder cannot be written: copy the whole folder to where "
                           "it can, and open it there."});
    open_bare(file);
}

void Database::open_bare(const fs::path& file) {
    open("file:" + escaped(file) + "?immutable=1", SQLITE_OPEN_READONLY | SQLITE_OPEN_URI);
}

std::array<fs::path, 5> files_of(const fs::path& database) {
    const auto& name = database.native();
    return {database, name + "-wal", name + "-shm", name + "-journal", name + "-mark"};
}

void remove_database(const fs::path& file) {
    std::error_code ignored;
    for (const auto& one : files_of(file))
        fs::remove(one, ignored);
}

bool left_half_written(const fs::path& file) {
    return holds_something(file.native() + "-journal");
}

void settle_half_written(const fs::path& file) {
    sqlite3* raw = nullptr;
    const int opened = sqlite3_open_v2(file.c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
    const int read = sqlite3_exec(raw, "SELECT 1 FROM sqlite_schema", nullptr, nullptr, nullptr);
    sqlite3_close(raw);
    if (opened != SQLITE_OK || read != SQLITE_OK)
        throw_trouble(nullptr, opened != SQLITE_OK ? opened : read);
}

Database::Database(const fs::path& file, Access access) {
    if (access == Access::read)
        open_to_read(file);
    else if (access == Access::bare)
        open_bare(file);
    else
        open(file.native(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
    sqlite3* const raw = connection();
    // A damaged or hostile file must not talk SQLite into corrupting itself. (trusted_schema stays
    // on: with it off, triggers may not write the full-text index.)
    sqlite3_db_config(raw, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    if (access == Access::scratch) {
        run_script("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF;");
        return;
    }
    run_script("PRAGMA foreign_keys = ON;");
    if (access == Access::write)
        run_script("PRAGMA synchronous = EXTRA; PRAGMA journal_mode = WAL;");
}

void Database::Close::operator()(sqlite3* connection) const {
    sqlite3_close_v2(connection);
}

namespace {
void call_defined(sqlite3_context* context, int, sqlite3_value** values) {
    const auto function = reinterpret_cast<Database::Function>(sqlite3_user_data(context));
    const auto text = reinterpret_cast<const char*>(sqlite3_value_text(values[0]));
    try {
        const auto answer = function(sqlite3_context_db_handle(context), text ? text : "");
        answer ? sqlite3_result_int64(context, *answer) : sqlite3_result_null(context);
    } catch (const std::exception& error) { // nothing may be thrown through SQLite
        sqlite3_result_error(context, error.what(), -1);
    }
}
} // namespace

void Database::define(const char* name, Function function) {
    check(connection_.get(), sqlite3_create_function_v2(connection_.get(), name, 1, SQLITE_UTF8,
                                                        reinterpret_cast<void*>(function),
                                                        call_defined, nullptr, nullptr, nullptr));
}

void Database::run_script(const std::string& sql) {
    check(connection_.get(),
          sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Database::last_row() const {
    return sqlite3_last_insert_rowid(connection_.get());
}

std::int64_t Database::rows_changed() const {
    return sqlite3_changes64(connection_.get());
}

void Database::gather() {
    auto mode = query("PRAGMA journal_mode = DELETE");
    if (!mode.next() || mode.get<std::string>(0) != "delete")
        throw Trouble(
            {FailureKind::busy,
             "The notebook is in use by another program: try again when it has finished."});
}

bool Database::moved() const {
    int has_moved = 0;
    sqlite3_file_control(connection_.get(), "main", SQLITE_FCNTL_HAS_MOVED, &has_moved);
    return has_moved != 0;
}

namespace {
int pragma_number(Database& database, std::string_view sql) {
    auto row = database.query(sql);
    return row.next() ? row.get<int>(0) : 0;
}
} // namespace

int Database::user_version() {
    return pragma_number(*this, "PRAGMA user_version");
}

int Database::application_id() {
    return pragma_number(*this, "PRAGMA application_id");
}

Transaction::Transaction(Database& database) : database_(&database) {
    database_->run("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    // After a disk error SQLite may have rolled back by itself; a second ROLLBACK then does
    // nothing.
    if (database_) sqlite3_exec(database_->connection(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
    database_->run("COMMIT");
    database_ = nullptr;
}

} // namespace fettle::store
