// How many pieces of a part are at hand: neither used nor away, by themselves or within an assembly
// that is away. For this room only, inside an act or a reading.
#pragma once

#include "notebook/notebook.h"

#include <unordered_map>

namespace fettle {

struct Stock {
    int quantity = 1, used = 0;
    int out = 0;    // sent, and to come back
    int coming = 0; // on the way in from a seller
    int lost = 0;   // no longer waited for
    int at_hand() const { return std::max(0, quantity - used - out - coming - lost); }
};

// Read once for many parts. What is packed and not sent yet is at hand.
class Stocks {
  public:
    explicit Stocks(store::Database& database);
    Stock of(PartId part, int quantity, int used) const;
    // The part, or the assembly it is within, that is away; no id when neither is.
    PartId away_with(PartId part) const;

  private:
    struct Away {
        int out = 0, coming = 0, lost = 0;
    };
    std::unordered_map<std::int64_t, Away> away_;
    std::unordered_map<std::int64_t, std::int64_t> within_; // assemblies that are together
};

// The assembly that the part is within now, with its tag; none when it lies by itself.
struct Holder {
    PartId part{};
    std::string tag;
};
Holder holder_of(store::Database& database, PartId part);

} // namespace fettle
