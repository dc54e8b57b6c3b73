#include "notebook/photos.h"

#include "notebook/clocks.h"
#include "notebook/row_rules.h"
#include "notebook/rules.h"

#include <bit>

namespace fettle {
namespace {

constexpr std::string_view kColumns =
    "SELECT f.id, f.hash, f.file, f.in_place, f.original_name, f.bytes, f.format, f.width, "
    "       f.height, f.orientation, f.taken, f.camera_make, f.camera_model, f.lens, f.latitude, "
    "       f.longitude, f.altitude, f.damage, "
    "       f.taken_by_camera, f.taken_from, f.sharpness, f.likeness, "
    "       (SELECT count(*) FROM ties t WHERE t.photo_id = f.id) "
    "FROM photos f ";

Photo photo_of(const store::Statement& row) {
    Photo photo;
    photo.id = row.get<PhotoId>(0);
    photo.hash = row.get<std::string>(1);
    photo.file = row.get<std::string>(2);
    photo.in_place = row.get<bool>(3);
    photo.original_name = row.get<std::string>(4);
    photo.bytes = row.get<std::int64_t>(5);
    photo.format = row.get<std::string>(6);
    photo.width = row.get<int>(7);
    photo.height = row.get<int>(8);
    photo.orientation = row.get<int>(9);
    if (auto taken = parse_moment(row.get<std::string>(10))) photo.taken = *taken;
    photo.camera_make = row.get<std::string>(11);
    photo.camera_model = row.get<std::string>(12);
    photo.lens = row.get<std::string>(13);
    photo.latitude = row.get<std::optional<double>>(14);
    photo.longitude = row.get<std::optional<double>>(15);
    photo.altitude = row.get<std::optional<double>>(16);
    photo.damage = row.get<std::string>(17);
    if (auto written = parse_moment(row.get<std::string>(18))) photo.taken_by_camera = *written;
    photo.taken_from = stored_word<TakenFrom>(row, 19);
    photo.sharpness = row.get<std::optional<double>>(20);
    if (auto bits = row.get<std::optional<std::int64_t>>(21))
        photo.likeness = std::bit_cast<std::uint64_t>(*bits);
    photo.ties = row.get<int>(22);
    return photo;
}

} // namespace

Result<PhotoId> add_photo(Notebook& notebook, const Photo& photo, Step step) {
    auto add = [&](store::Database& database) -> Result<PhotoId> {
        if (database.query("SELECT 1 FROM photos WHERE hash = ?", photo.hash).next())
            return Failure{FailureKind::refused,
                           "The photo " + photo.original_name + " is in the notebook already."};
        std::optional<std::string> taken, by_camera;
        if (photo.taken && photo.taken_from == TakenFrom::camera) {
            by_camera = to_iso(*photo.taken);
            const auto clock = clock_of(database, photo.camera_make, photo.camera_model);
            taken = to_iso(put_right(*photo.taken, clock));
        } else if (photo.taken) {
            taken = to_iso(*photo.taken);
        }
        std::optional<std::int64_t> likeness;
        if (photo.likeness) likeness = std::bit_cast<std::int64_t>(*photo.likeness);
        const PhotoId id{database.insert(
            "INSERT INTO photos(id, hash, file, in_place, original_name, bytes, format, width, "
            "height, "
            "orientation, camera_make, camera_model, lens, latitude, longitude, altitude, damage, "
            "taken_by_camera, taken_from, sharpness, likeness) VALUES (next_id('photos'), ?, ?, ?, "
            "?, ?, ?, ?, ?, ?, "
            "?, "
            "?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            photo.hash, photo.file.string(), photo.in_place, photo.original_name, photo.bytes,
            photo.format, photo.width, photo.height, photo.orientation, photo.camera_make,
            photo.camera_model, photo.lens, photo.latitude, photo.longitude, photo.altitude,
            photo.damage, by_camera, word(photo.taken_from), photo.sharpness, likeness)};
        if (taken) set_taken(database, id, *taken);
        return id;
    };
    return notebook.act("took in " + photo.original_name, add, step);
}

Result<std::optional<PhotoId>> photo_with_hash(const Notebook& notebook, const std::string& hash) {
    return notebook.read([&](store::Database& database) -> std::optional<PhotoId> {
        auto row = database.query("SELECT id FROM photos WHERE hash = ?", hash);
        if (!row.next()) return std::nullopt;
        return row.get<PhotoId>(0);
    });
}

Result<std::unordered_set<std::string>> all_photo_hashes(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        std::unordered_set<std::string> hashes;
        auto rows = database.query("SELECT hash FROM photos");
        while (rows.next())
            hashes.insert(rows.get<std::string>(0));
        return hashes;
    });
}

Result<Photo> photo_by_id(const Notebook& notebook, PhotoId id) {
    return one_row(notebook, "photo", std::to_string(id.value), photo_of,
                   std::string(kColumns) + "WHERE f.id IS ?", id);
}

Result<std::vector<Photo>> list_photos(const Notebook& notebook, const PhotoFilter& filter) {
    Conditions where;
    if (filter.untied_only) where.add("NOT EXISTS (SELECT 1 FROM ties t WHERE t.photo_id = f.id)");
    where.among("f.id", "SELECT photo_id FROM ties WHERE part_id =", filter.part)
        .among("f.id", "SELECT photo_id FROM ties WHERE task_id =", filter.task)
        .among("f.id", "SELECT photo_id FROM ties WHERE entry_id =", filter.entry);
    // A moment begins with its day; the letter after the one that parts them ends the last day.
    if (filter.from) where.add("f.taken >= '" + to_iso(*filter.from) + "'");
    if (filter.to) where.add("f.taken < '" + to_iso(*filter.to) + "U'");
    return notebook.read([&](store::Database& database) {
        return all_rows(
            database.query(std::string(kColumns) + where.sql() + "ORDER BY f.at NULLS LAST, f.id"),
            photo_of);
    });
}

Done each_photo(const Notebook& notebook, const std::function<Done(const Photo&)>& take) {
    constexpr int kAtOnce = 500;
    std::int64_t last = 0; // a PhotoId of none would be NULL, after which nothing comes
    for (;;) {
        const auto some = notebook.read([&](store::Database& database) {
            return all_rows(
                database.query(std::string(kColumns) + "WHERE f.id > ? ORDER BY f.id LIMIT ?", last,
                               kAtOnce),
                photo_of);
        });
        if (!some) return some.failure();
        if (some->empty()) return done();
        for (const Photo& photo : *some)
            if (auto taken = take(photo); !taken) return taken;
        last = some->back().id.value;
    }
}

Result<int> count_photos(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        auto row = database.query("SELECT count(*) FROM photos");
        row.next();
        return row.get<int>(0);
    });
}

Result<int> count_untied_photos(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        // Both counts run along an index each; looking for the ties of every photo takes many times
        // as long.
        auto row = database.query("SELECT (SELECT count(*) FROM photos) - "
                                  "(SELECT count(DISTINCT photo_id) FROM ties)");
        row.next();
        return row.get<int>(0);
    });
}

Done guess_time_near(Notebook& notebook, PhotoId photo, const Moment& taken, PhotoId near,
                     Step step) {
    auto guess = [&](store::Database& database) -> Done {
        database.run("UPDATE photos SET taken_from = ?, taken_near = ? WHERE id = ?",
                     word(TakenFrom::neighbours), near, photo);
        set_taken(database, photo, to_iso(taken));
        return done();
    };
    return notebook.act("guessed the time of a photo", guess, step);
}

Done put_photo_file(Notebook& notebook, PhotoId photo, const std::filesystem::path& file,
                    bool in_place, Step step) {
    auto put = [&](store::Database& database) -> Done {
        database.run("UPDATE photos SET file = ?, in_place = ? WHERE id = ?", file.string(),
                     in_place, photo);
        return done();
    };
    return notebook.act("noted where the file of a photo stands", put, step);
}

std::filesystem::path photo_file(const Notebook& notebook, const Photo& photo) {
    if (photo.in_place) return photo.file;
    // What was made elsewhere (a backup, somebody's notebook) may try to lead out of the folder.
    return notebook.folder() /
           (stays_within(photo.file.native()) ? photo.file : "photos" / photo.file.filename());
}

} // namespace fettle
