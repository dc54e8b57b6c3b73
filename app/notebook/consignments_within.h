// What the two halves of consignments share: reading one, and closing it when nothing is waited
// for. For this room only, inside an act or a reading.
#pragma once

#include "notebook/consignments.h"

namespace fettle {

Result<Consignment> stored_consignment(store::Database& database, ConsignmentId id);
// Items of which pieces are not back: part, then what away_of() reads. More conditions may follow.
extern const std::string_view kItemsAway;
Away away_of(const store::Statement& row);
// Pieces of the part that are not at hand: on any consignment and not back, lost ones included.
int pieces_away(store::Database& database, PartId part);
// Notes the day when the last item came or was settled, and takes it back when one is awaited.
void note_end(store::Database& database, ConsignmentId id, Day on);

inline std::string consignment_name(ConsignmentId id) {
    return "consignment " + std::to_string(id.value);
}
std::string pieces_of(int pieces, const std::string& tag); // "2 pieces of K2", "H7" for one piece

} // namespace fettle
