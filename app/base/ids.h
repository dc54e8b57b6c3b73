// Record ids as distinct types, so that a task can never be handed over as a part.
#pragma once

#include <compare>
#include <cstdint>

namespace fettle {

template <class Tag>
struct Id {
    std::int64_t value = 0; // 0: none yet
    explicit operator bool() const { return value != 0; }
    auto operator<=>(const Id&) const = default;
};

using VehicleId = Id<struct VehicleTag>;
using PositionId = Id<struct PositionTag>;
using PartId = Id<struct PartTag>;
using PhotoId = Id<struct PhotoTag>;
using TaskId = Id<struct TaskTag>;
using EntryId = Id<struct EntryTag>;
using WorkedResultId = Id<struct WorkedResultTag>;
using MeasurementId = Id<struct MeasurementTag>;
using MarkId = Id<struct MarkTag>;
using MakerId = Id<struct MakerTag>;
using RunId = Id<struct RunTag>;
using ContactId = Id<struct ContactTag>;
using ConsignmentId = Id<struct ConsignmentTag>;
using CostId = Id<struct CostTag>;
using HelpId = Id<struct HelpTag>;
using DifferenceId = Id<struct DifferenceTag>;

} // namespace fettle
