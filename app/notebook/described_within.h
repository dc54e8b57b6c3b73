// The parts that the description of tables is put together from. For this room only.
#pragma once

#include "notebook/described.h"

namespace fettle {

inline constexpr ColumnSaid kOwnId{"id", Holds::id, kAlways, "its number"};

std::span<const TableSaid> described_rebuild();  // vehicles, positions, parts, tasks, the log
std::span<const TableSaid> described_seen();     // photos and what is seen in them
std::span<const TableSaid> described_dealings(); // consignments, evidence, money, people, drafts

} // namespace fettle
