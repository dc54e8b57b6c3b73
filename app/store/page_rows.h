// Rows read straight off the pages of a database file, for one so damaged that SQLite will not: a
// page that cannot be read costs the rows on it and no others. By SQLite's published file format
// (sqlite.org/fileformat2.html): pages, b-trees, records, overflow chains, the list of free pages.
// For files as this program writes them: UTF-8, nothing reserved at the pages' ends.
//
// Takes whatever bytes there are; nothing in them is believed before it was checked. One thread.
#pragma once

#include "base/result.h"
#include "store/tables.h"

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <vector>

namespace fettle::store {

struct RawRow {
    std::int64_t number = 0; // the rowid; 0 in a table without
    std::vector<Cell> cells; // as stored: fewer than the table has where columns came later
};

struct RawTable {
    std::vector<RawRow> rows;
    std::size_t damaged = 0; // pages and rows on the way that cannot be read
};

class PageRows {
  public:
    // Fails with io.
    static Result<PageRows> read(const std::filesystem::path& file);

    // Where the tables begin, by what the file says of itself: name to page. `damaged` when not all
    // of that can be read.
    struct Roots {
        std::map<std::string, std::uint32_t> tables;
        bool damaged = false;
    };
    const Roots& roots() const { return roots_; }
    // As the header has it, whatever that is.
    int user_version() const;
    std::size_t pages() const { return reached_.size() - 1; }

    // All rows below a page. Each page is given out once.
    RawTable table(std::uint32_t root);
    // Pages of rows that nothing read so far leads to and that are not free: those of damaged
    // tables, whose way there is gone. Tables without rowids cannot be told there and are left out.
    std::vector<std::vector<RawRow>> stray_pages();

  private:
    explicit PageRows(std::vector<unsigned char> bytes);

    struct Page { // of a b-tree
        const unsigned char* bytes = nullptr;
        std::size_t head = 0; // where its header begins
        int kind = 0;
        std::size_t cells = 0;
    };
    std::optional<Page> page(std::uint32_t number) const;
    std::optional<std::size_t> cell_at(const Page& page, std::size_t cell) const;
    std::optional<RawRow> row_at(const Page& page, std::size_t at) const;
    std::optional<std::vector<unsigned char>> payload(const Page& page, std::size_t at,
                                                      std::uint64_t size) const;
    void read_rows(const Page& page, RawTable& into) const;
    void mark_free_pages();
    void read_roots();

    std::vector<unsigned char> bytes_;
    std::size_t page_size_ = 4096;
    std::vector<bool> reached_; // by number, from 1
    Roots roots_;
};

} // namespace fettle::store
