#include "notebook/clocks.h"

#include "base/text.h"
#include "notebook/photos.h"
#include "notebook/rules.h"

#include <algorithm>

namespace fettle {
namespace {

using std::chrono::milliseconds;
using std::chrono::minutes;

Clock clock_in(const store::Statement& row, int column) {
    Clock clock{milliseconds(row.get<std::int64_t>(column)), {}};
    if (auto zone = row.get<std::optional<int>>(column + 1)) clock.zone = minutes(*zone);
    return clock;
}

struct Written {
    PhotoId photo;
    Moment by_camera;
    std::optional<Moment> taken;
};

std::vector<Written> photos_of(store::Database& database, const Camera& camera) {
    std::vector<Written> photos;
    auto rows =
        database.query("SELECT id, taken_by_camera, taken FROM photos WHERE camera_make = ? "
                       "AND camera_model = ? AND taken_by_camera IS NOT NULL",
                       camera.make, camera.model);
    while (rows.next()) {
        auto written = parse_moment(rows.get<std::string>(1));
        if (!written) throw store::Trouble(written.failure());
        auto taken = parse_moment(rows.get<std::string>(2));
        photos.push_back(
            {rows.get<PhotoId>(0), *written, taken ? std::optional(*taken) : std::nullopt});
    }
    return photos;
}

// Photos placed beside this one go with it.
void move_neighbours(store::Database& database, PhotoId near, milliseconds by) {
    if (by.count() == 0) return;
    std::vector<std::pair<PhotoId, Moment>> placed;
    auto rows = database.query("SELECT id, taken FROM photos WHERE taken_near = ?", near);
    while (rows.next())
        if (auto taken = parse_moment(rows.get<std::string>(1)))
            placed.emplace_back(rows.get<PhotoId>(0), *taken);
    for (auto& [photo, taken] : placed) {
        taken.local += by;
        set_taken(database, photo, to_iso(taken));
    }
}

Result<Photo> photo_with_time(const Notebook& notebook, const Camera& camera, PhotoId id) {
    auto photo = photo_by_id(notebook, id);
    if (!photo) return photo;
    const std::string number = "Photo " + std::to_string(id.value);
    if (photo->camera_make != camera.make || photo->camera_model != camera.model)
        return Failure{FailureKind::invalid,
                       number + " is not by " + camera.name() + ": name one of its own photos."};
    if (!photo->taken_by_camera)
        return Failure{FailureKind::invalid, number + " has no time by its camera: name one that "
                                                      "has."};
    return photo;
}

} // namespace

std::string Camera::name() const {
    // Some makers repeat their name at the start of the model.
    if (lower_ascii(model).starts_with(lower_ascii(make))) return model;
    return std::string(trim(make + ' ' + model));
}

Moment put_right(Moment written, const Clock& clock) {
    written.local -= clock.ahead;
    // What was put right to the second is not known better than that.
    if (!written.offset) written.offset = clock.zone;
    return written;
}

Clock clock_of(store::Database& database, const std::string& make, const std::string& model) {
    auto row = database.query(
        "SELECT ahead_ms, zone_min FROM clocks WHERE camera_make = ? AND camera_model = ?", make,
        model);
    return row.next() ? clock_in(row, 0) : Clock{};
}

void set_taken(store::Database& database, PhotoId photo, const std::string& iso) {
    database.run("UPDATE photos SET taken = ?1, at = CAST(round((julianday(?1, "
                 "CASE WHEN ?1 GLOB '*[+-][0-9][0-9]:[0-9][0-9]' THEN '+0 days' ELSE 'utc' END) "
                 "- 2440587.5) * 86400000.0) AS INTEGER) WHERE id = ?2",
                 iso, photo);
}

Result<std::vector<Camera>> list_cameras(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(
            database.query(
                "SELECT f.camera_make, f.camera_model, count(*), ifnull(k.ahead_ms, 0), k.zone_min "
                "FROM photos f LEFT JOIN clocks k ON k.camera_make = f.camera_make "
                "                               AND k.camera_model = f.camera_model "
                "WHERE f.camera_make || f.camera_model <> '' "
                "GROUP BY f.camera_make, f.camera_model ORDER BY f.camera_make, f.camera_model"),
            [](const store::Statement& row) {
                return Camera{row.get<std::string>(0), row.get<std::string>(1), row.get<int>(2),
                              clock_in(row, 3)};
            });
    });
}

Result<Camera> camera_called(const Notebook& notebook, const std::string& name) {
    auto cameras = list_cameras(notebook);
    if (!cameras) return cameras.failure();
    std::vector<Camera> called;
    std::vector<std::string> names;
    for (const auto& camera : *cameras) {
        names.push_back(camera.name());
        if (same_but_for_case(camera.name(), trim(name)) ||
            same_but_for_case(camera.model, trim(name)))
            called.push_back(camera);
    }
    if (called.size() == 1) return called.front();
    const std::string known =
        names.empty() ? "its photos name none" : "there are " + join(names, ", ");
    if (called.empty())
        return Failure{FailureKind::not_found, "There is no camera " + fettle::quoted(name) +
                                                   " in this notebook: " + known + "."};
    return Failure{FailureKind::refused,
                   fettle::quoted(name) + " is more than one camera: " + known + "."};
}

Done set_clock(Notebook& notebook, const Camera& camera, const Clock& clock) {
    return notebook.act(
        "set the clock of " + camera.name(), [&](store::Database& database) -> Done {
            database.run("DELETE FROM clocks WHERE camera_make = ? AND camera_model = ?",
                         camera.make, camera.model);
            std::optional<int> zone;
            if (clock.zone) zone = static_cast<int>(clock.zone->count());
            if (clock != Clock{})
                database.run(
                    "INSERT INTO clocks(id, camera_make, camera_model, ahead_ms, zone_min) "
                    "VALUES (next_id('clocks'), ?, ?, ?, ?)",
                    camera.make, camera.model, std::int64_t(clock.ahead.count()), zone);
            for (const auto& [photo, written, before] : photos_of(database, camera)) {
                const auto taken = put_right(written, clock);
                if (before == taken) continue;
                set_taken(database, photo, to_iso(taken));
                if (before) move_neighbours(database, photo, taken.local - before->local);
            }
            return done();
        });
}

Result<milliseconds> ahead_by_clock_photo(const Notebook& notebook, const Camera& camera,
                                          PhotoId photo, const std::string& showed) {
    auto of_clock = photo_with_time(notebook, camera, photo);
    if (!of_clock) return of_clock.failure();
    const auto& written = *of_clock->taken_by_camera;
    if (auto whole = parse_moment(showed)) return written.local - whole->local;
    auto clock = parse_moment(to_iso(written.day()) + "T" + std::string(trim(showed)));
    if (!clock)
        return Failure{FailureKind::invalid,
                       "The time " + fettle::quoted(showed) +
                           " cannot be read: accepted are 19:42:05 and 2026-03-07 19:42:05."};
    // The nearest of the day before, the same day and the day after.
    auto ahead = written.local - clock->local;
    constexpr std::chrono::hours kDay(24), kHalfDay(12);
    if (ahead > kHalfDay) ahead -= kDay;
    if (ahead < -kHalfDay) ahead += kDay;
    return ahead;
}

Result<milliseconds> ahead_by_same_moment(const Notebook& notebook, const Camera& camera,
                                          PhotoId photo, PhotoId right) {
    auto wrong = photo_with_time(notebook, camera, photo);
    if (!wrong) return wrong.failure();
    auto other = photo_by_id(notebook, right);
    if (!other) return other.failure();
    if (other->camera_make == camera.make && other->camera_model == camera.model)
        return Failure{FailureKind::invalid, "Photo " + std::to_string(right.value) + " is by " +
                                                 camera.name() +
                                                 " as well: name a photo by another camera."};
    if (!other->taken || other->taken_from != TakenFrom::camera)
        return Failure{FailureKind::invalid, "Photo " + std::to_string(right.value) +
                                                 " has no time by its camera: name one that has."};
    const auto &written = *wrong->taken_by_camera, &true_time = *other->taken;
    auto ahead = written.local - true_time.local;
    if (written.offset && true_time.offset) ahead -= *written.offset - *true_time.offset;
    return ahead;
}

} // namespace fettle
