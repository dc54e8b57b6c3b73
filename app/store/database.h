// SQLite, wrapped: one connection, its statements and its transactions. Knows no domain rule.
//
// Trouble with the database (disk full, damage, a statement that does not fit the schema) is thrown
// as store::Trouble: it can happen at any line and no line in between can mend it. The notebook
// room catches it at its two edges, reading and acting, and hands it on as a Failure. A Database is
// used by one thread at a time; it owns its connection, statements end before it does.
#pragma once

#include "base/ids.h"
#include "base/result.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace fettle::store {

class Trouble : public std::runtime_error {
  public:
    explicit Trouble(Failure failure)
        : std::runtime_error(failure.sentence), failure_(std::move(failure)) {}
    const Failure& failure() const { return failure_; }

  private:
    Failure failure_;
};

using Blob = std::vector<std::byte>;

// What names a row: its number, or the parts of its key with commas between.
using RowKey = std::variant<std::int64_t, std::string>;

// A prepared statement with its values bound. Columns and parameters count from 0 and 1 as in
// SQLite. Ids of 0 and empty optionals are NULL.
class Statement {
  public:
    Statement(sqlite3* connection, std::string_view sql);
    Statement(Statement&&) = default;
    Statement& operator=(Statement&&) = default;

    template <class... Values>
    Statement& bind(const Values&... values) {
        int parameter = 0;
        (put(++parameter, values), ...);
        return *this;
    }

    // True while there is a row to read.
    bool next();
    void run() {
        while (next()) {
        }
    }

    template <class T>
    T get(int column) const {
        T value{};
        take(column, value);
        return value;
    }
    bool is_null(int column) const;

  private:
    void put(int parameter, std::int64_t value);
    void put(int parameter, double value);
    void put(int parameter, std::string_view value);
    void put(int parameter, std::span<const std::byte> value);
    void put(int parameter, std::nullptr_t);
    void put(int parameter, int value) { put(parameter, std::int64_t{value}); }
    void put(int parameter, bool value) { put(parameter, std::int64_t{value}); }
    void put(int parameter, const char* value) { put(parameter, std::string_view(value)); }
    void put(int parameter, const std::string& value) { put(parameter, std::string_view(value)); }
    template <class T>
    void put(int parameter, const std::optional<T>& value) {
        value ? put(parameter, *value) : put(parameter, nullptr);
    }
    void put(int parameter, const RowKey& key) {
        std::visit([&](const auto& value) { put(parameter, value); }, key);
    }
    template <class Tag>
    void put(int parameter, Id<Tag> id) {
        id ? put(parameter, id.value) : put(parameter, nullptr);
    }

    void take(int column, std::int64_t& value) const;
    void take(int column, double& value) const;
    void take(int column, std::string& value) const;
    void take(int column, Blob& value) const;
    void take(int column, RowKey& value) const;
    void take(int column, int& value) const { value = static_cast<int>(get<std::int64_t>(column)); }
    void take(int column, bool& value) const { value = get<std::int64_t>(column) != 0; }
    template <class T>
    void take(int column, std::optional<T>& value) const {
        if (!is_null(column)) value = get<T>(column);
    }
    template <class Tag>
    void take(int column, Id<Tag>& id) const {
        id.value = get<std::int64_t>(column);
    }

    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

// scratch: written for the moment, without the safeguards against a power cut.
// bare: the file read as it lies, without its log; nothing is laid beside it and nothing locked.
enum class Access { read, write, scratch, bare };

class Database {
  public:
    // Opens a file; write and scratch create it when missing, reading needs no more than that the
    // file can be read. Reading and writing set foreign keys, and writing WAL with
    // synchronous=EXTRA (FULL, and the journal used on the way into WAL stays removed after a power
    // cut): what the user typed is on the disk when an act returns.
    Database(const std::filesystem::path& file, Access access);

    template <class... Values>
    Statement query(std::string_view sql, const Values&... values) {
        Statement statement(connection_.get(), sql);
        statement.bind(values...);
        return statement;
    }
    template <class... Values>
    void run(std::string_view sql, const Values&... values) {
        query(sql, values...).run();
    }
    // The id of the row just inserted.
    template <class... Values>
    std::int64_t insert(std::string_view sql, const Values&... values) {
        run(sql, values...);
        return last_row();
    }
    // Makes `name`(text) known to SQL. It may read from the connection it is given.
    using Function = std::optional<std::int64_t> (*)(sqlite3* connection, std::string_view text);
    void define(const char* name, Function function);

    // Several statements without values.
    void run_script(const std::string& sql);

    // Brings all that was written into the one file, so that it can be moved. Throws when it
    // cannot.
    void gather();

    std::int64_t last_row() const;
    std::int64_t rows_changed() const; // by the last statement
    // True when the file was removed, moved or replaced since it was opened: what is written now
    // would be lost.
    bool moved() const;
    int user_version();
    int application_id();
    sqlite3* connection() const { return connection_.get(); }

  private:
    void open(const std::string& name, int flags);
    void open_to_read(const std::filesystem::path& file);
    void open_bare(const std::filesystem::path& file);

    struct Close {
        void operator()(sqlite3* connection) const;
    };
    std::unique_ptr<sqlite3, Close> connection_;
};

// Which tables the statements read that this thread prepares while it lives, views and triggers
// looked through. One within another tells the outer one as well.
class TablesRead {
  public:
    TablesRead();
    ~TablesRead();
    TablesRead(const TablesRead&) = delete;
    TablesRead& operator=(const TablesRead&) = delete;

    const std::set<std::string>& names() const { return names_; }
    // For the one that is watching now, if any: what stands on a reading made before.
    static void note(const std::set<std::string>& names);

  private:
    std::set<std::string> names_;
    TablesRead* outer_;
};

// A database and what is kept beside it while it is open, whether these files are there or not.
std::array<std::filesystem::path, 5> files_of(const std::filesystem::path& database);
// Removes a database that nobody has open, and what was kept beside it.
void remove_database(const std::filesystem::path& file);

// True when a program ended while it wrote into the file itself (which only happens before the log
// is in use): nobody can read it before that is settled.
bool left_half_written(const std::filesystem::path& file);
// Takes back what was half written. Only while nobody else has it open for writing.
void settle_half_written(const std::filesystem::path& file);

// Rolls back unless committed.
class Transaction {
  public:
    explicit Transaction(Database& database);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

  private:
    Database* database_;
};

} // namespace fettle::store
