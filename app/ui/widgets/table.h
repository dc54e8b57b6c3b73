// A list in columns. Pressing a head puts the rows in its order, pressing it again turns the order
// round; which columns are shown can be chosen. Columns that do not fit give way, the last first,
// so that nothing runs into its neighbour. UI thread only.
#pragma once

#include "ui/frame/page.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

struct TableColumn {
    std::string_view key;   // "condition"
    std::string_view title; // "condition"
    float least = 0;        // width before scaling; where there is less room it is left out
    float share = 1;        // of the room that is over
    bool at_first = true;   // shown unless chosen otherwise
    bool figures = false;   // set at the right edge
};

// What a person has chosen.
struct TableState {
    std::string by; // key of the column that gives the order; empty: the first
    bool downwards = false;
    std::set<std::string> changed; // columns shown, or left out, otherwise than at first
    bool choosing = false;
};

// What the order of rows depends on besides what they hold.
struct RowOrder {
    std::string by;
    bool downwards = false;
    std::uint64_t reading = 0; // of the rows; ui/beside/snapshot.h
    bool operator==(const RowOrder&) const = default;
};

// Where a row stands when a column gives the order. What is blank comes last, either way round.
struct Rank {
    bool blank = false;
    std::string words;
    std::int64_t number = 0;
    auto operator<=>(const Rank&) const = default;
};
Rank by_words(const std::string& words); // numbers within them by what they count: B2 before B10
Rank by_number(std::int64_t number, const std::string& of = {});
// Rows of the same rank stay as they stand.
void order_rows(std::vector<std::size_t>& rows, bool downwards,
                const std::function<Rank(std::size_t)>& rank_of);

class Table {
  public:
    // `room`: pixels. The first column is always there.
    Table(Page& page, std::string_view key, std::span<const TableColumn> columns, TableState& state,
          float room, float row_height = Measure::kRow);

    // The heads have the keys `key.head.condition`. True when the order changed.
    bool heads();
    // Words in a column of the row whose upper edge is at `top`, cut where the column ends.
    void cell(std::string_view column, float top, std::string_view text,
              Role role = Role::ink) const;
    // Edges of a column in pixels of the window; without width when it is not shown.
    Rect place_of(std::string_view column) const;

  private:
    struct Place {
        const TableColumn* column;
        float left, right;
    };

    const Place* find(std::string_view column) const; // nothing: it is not shown

    Page& page_;
    std::string key_;
    TableState& state_;
    float row_height_;
    std::vector<Place> places_;
};

// A word that opens the choice of columns, `key.columns`, and while it is open a line of them.
void choose_columns(Page& page, std::string_view key, std::span<const TableColumn> columns,
                    TableState& state);

} // namespace fettle::ui
