#include "torque/surfaces.h"

namespace fettle::torque {

std::optional<Surface> surface_named(std::string_view name) {
    for (const Surface& surface : kSurfaces) {
        if (name == surface.name) return surface;
    }
    return std::nullopt;
}

} // namespace fettle::torque
