// Camera clocks: how far each is ahead of the time, put right once for all photos of the camera,
// those that come later included. What the camera wrote is kept; an undo brings it back.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

struct Clock {
    std::chrono::milliseconds ahead{}; // of the time; negative when it is behind
    std::optional<std::chrono::minutes>
        zone; // it is set to, east of UTC; for cameras that do not say
    bool operator==(const Clock&) const = default;
};

// Known by what its photos say.
struct Camera {
    std::string make;
    std::string model;
    int photos = 0;
    Clock clock;

    std::string name() const; // "make model"
};

// Those that took a photo of this notebook, by name; photos that name no camera have none.
Result<std::vector<Camera>> list_cameras(const Notebook& notebook);
// By "make model" or the model alone, in any case. Fails with not_found naming those there are, and
// with refused when two are called so.
Result<Camera> camera_called(const Notebook& notebook, const std::string& name);

// Replaces what is known of the camera's clock and moves the times of its photos, and of those that
// were placed beside them. A clock that is right in its zone is forgotten.
Done set_clock(Notebook& notebook, const Camera& camera, const Clock& clock);

// By a photo of a clock: what it showed, "2026-03-07 19:42:05" or, when the camera is less than
// twelve hours wrong, "19:42:05" or "19:42". By two photos of the same moment: `right` has the
// right time. Fails with invalid when a photo lacks its time, or is the other camera's.
Result<std::chrono::milliseconds> ahead_by_clock_photo(const Notebook& notebook,
                                                       const Camera& camera, PhotoId photo,
                                                       const std::string& showed);
Result<std::chrono::milliseconds>
ahead_by_same_moment(const Notebook& notebook, const Camera& camera, PhotoId photo, PhotoId right);

// A time the camera wrote, by the clock put right.
Moment put_right(Moment written, const Clock& clock);

// For this room: what is stored of a camera's clock, and a photo's time with its place in the
// order.
Clock clock_of(store::Database& database, const std::string& make, const std::string& model);
void set_taken(store::Database& database, PhotoId photo, const std::string& iso);

} // namespace fettle
