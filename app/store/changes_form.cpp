// Whether bytes have the form of a changeset ("SESSION CHANGESET FORMAT" at the head of SQLite's
// ext/session/sqlite3session.c; from memory, held against what SQLite writes by the tests).
//
// SQLite's own reader is meant for what SQLite wrote: 3.40 goes round for ever over a table that
// claims to have no columns.
#include "store/changes.h"

#include <sqlite3.h>

#include <algorithm>

namespace fettle::store {
namespace {

constexpr std::size_t kMostColumns = 2000; // SQLITE_MAX_COLUMN

// Each step gives false where the bytes are not as they should be.
class Form {
  public:
    explicit Form(const Blob& bytes) : rest_(bytes) {}

    bool holds() {
        bool in_table = false;
        while (!rest_.empty()) {
            const auto kind = byte();
            if (kind == 'T')
                in_table = table();
            else if (!in_table || !change(kind))
                return false;
            if (!in_table) return false;
        }
        return true;
    }

  private:
    // Precondition: there is one.
    unsigned byte() {
        const auto first = std::to_integer<unsigned>(rest_.front());
        rest_ = rest_.subspan(1);
        return first;
    }

    bool skip(std::size_t count) {
        if (count > rest_.size()) return false;
        rest_ = rest_.subspan(count);
        return true;
    }

    // A number as SQLite writes lengths: seven bits a byte, the highest first.
    bool number(std::size_t& value) {
        value = 0;
        for (int read = 0; read < 5 && !rest_.empty(); ++read) {
            const auto next = byte();
            value = value << 7 | (next & 0x7f);
            if (next < 0x80) return true;
        }
        return false;
    }

    // How many columns, which of them are the key, its name to a zero.
    bool table() {
        if (!number(columns_) || columns_ == 0 || columns_ > kMostColumns) return false;
        if (rest_.size() < columns_) return false;
        const auto key = rest_.first(columns_);
        if (std::ranges::all_of(key, [](std::byte part) { return part == std::byte{0}; }))
            return false;
        rest_ = rest_.subspan(columns_);
        const auto end = std::ranges::find(rest_, std::byte{0});
        return end != rest_.begin() && end != rest_.end() &&
               skip(std::size_t(end - rest_.begin()) + 1);
    }

    bool change(unsigned kind) {
        if (!skip(1)) return false; // whether a trigger made it
        switch (kind) {
        case SQLITE_INSERT:
        case SQLITE_DELETE:
            return record(false);
        case SQLITE_UPDATE:
            return record(true) && record(true);
        default:
            return false;
        }
    }

    bool record(bool some_left_out) {
        for (std::size_t column = 0; column < columns_; ++column)
            if (!value(some_left_out)) return false;
        return true;
    }

    bool value(bool may_be_left_out) {
        if (rest_.empty()) return false;
        std::size_t length = 0;
        switch (byte()) {
        case 0:
            return may_be_left_out;
        case SQLITE_INTEGER:
        case SQLITE_FLOAT:
            return skip(8);
        case SQLITE_TEXT:
        case SQLITE_BLOB:
            return number(length) && skip(length);
        case SQLITE_NULL:
            return true;
        default:
            return false;
        }
    }

    std::span<const std::byte> rest_;
    std::size_t columns_ = 0;
};

} // namespace

bool has_form_of_changes(const Blob& bytes) {
    return Form(bytes).holds();
}

} // namespace fettle::store
