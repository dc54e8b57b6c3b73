// Who wrote what when, once a notebook is kept on two machines: the moments by which two copies
// tell what the other has not seen. For this room only.
//
// A stamp is the side that wrote and a moment in milliseconds since 1970 that grows with every act,
// whatever the clock does; a record made anew has one stamp for all its fields. What was there
// before the first carrying has none and is known to all.
#pragma once

#include "store/changes.h"

namespace fettle {

struct Stamp {
    std::int64_t moment = 0; // 0: before the first carrying
    int side = 0;
    auto operator<=>(const Stamp&) const = default; // the later stands
};

// 0: this notebook was never carried.
int own_side(store::Database& database);

// A moment later than any known here, and than `least`.
Stamp stamp_after(store::Database& database, int side, std::int64_t least);
// The same; noted as written by this side.
Stamp next_stamp(store::Database& database, int side);

// Inside an act that ends: stamps what its changes wrote. Does nothing while there is one copy.
void stamp_changes(store::Database& database, const store::Blob& changes);

// The first number after `last` that is this side's to give.
std::int64_t next_of_side(std::int64_t last, int side);

// Makes next_id('TABLE') known to SQL: NULL while there is one copy, so that SQLite numbers the
// row; then the next id of this side, never one of a row that was removed. Every INSERT into a
// recorded table with ids takes its id from there (tests/tree/numbered.py).
void number_rows(store::Database& database);

} // namespace fettle
