#include "notebook/evidence.h"

#include "notebook/rules.h"

#include <array>

namespace fettle {
namespace {

// Photos of the part that show how it was found, by the stage of their tie.
constexpr std::string_view kAsItWas =
    "SELECT t.photo_id FROM ties t JOIN photos f ON f.id = t.photo_id "
    "WHERE t.part_id = ?1 AND (t.stage = 'as found' OR (t.stage = 'before' AND NOT EXISTS "
    "      (SELECT 1 FROM condition_steps s WHERE s.part_id = ?1 AND s.condition <> 'as found' "
    "       AND s.on_date < substr(f.taken, 1, 10)))) "
    "ORDER BY f.at IS NULL, f.at, f.id";
constexpr std::string_view kWithMarks =
    "SELECT DISTINCT m.photo_id FROM marks m WHERE m.part_id = ?1 ORDER BY m.photo_id";
// The user's word holds as long as the photo is tied to the part.
constexpr std::string_view kSaid =
    "SELECT e.photo_id FROM evidence e JOIN ties t ON t.photo_id = e.photo_id AND t.part_id = ?1 "
    "WHERE e.part_id = ?1 AND e.shows = ?2 ORDER BY e.id";

using Photos = std::vector<PhotoId>;

PhotoId photo_of(const store::Statement& row) {
    return row.get<PhotoId>(0);
}

void add_new(Photos& photos, const Photos& more) {
    for (const auto photo : more)
        if (std::ranges::find(photos, photo) == photos.end()) photos.push_back(photo);
}

std::string reason_for_none(store::Database& database, PartId part, Evidence shows) {
    auto row = database.query("SELECT none_because FROM evidence WHERE part_id = ? AND shows = ? "
                              "AND photo_id IS NULL",
                              part, word(shows));
    return row.next() ? row.get<std::string>(0) : std::string();
}

bool is_stripped(store::Database& database, PartId part) {
    return database.query("SELECT 1 FROM parts WHERE id = ? AND condition <> 'as found'", part)
        .next();
}

// What the photos show of the sides: by their tie any one counts as one side, and a photo that was
// said to show the other side not as both.
void count_sides(EvidenceLine& one, EvidenceLine& other, const Photos& as_it_was) {
    for (const auto photo : as_it_was)
        if (std::ranges::find(other.said, photo) == other.said.end()) add_new(one.photos, {photo});
    if (!one.none_because.empty() || !other.none_because.empty()) {
        if (!one.photos.empty() || !other.photos.empty()) return;
        if (!one.none_because.empty() && !other.none_because.empty()) return;
        one.todo = "one side: photograph the side that can be seen";
        return;
    }
    const bool two = other.photos.size() > 1 ||
                     (!one.photos.empty() && !other.photos.empty() && one.photos != other.photos);
    if (two) return;
    if (one.photos.empty() && other.photos.empty())
        one.todo = "both sides: photograph one and the other";
    else if (other.photos.empty() && one.photos.size() > 1)
        other.todo = "both sides: say which of the " + std::to_string(one.photos.size()) +
                     " photos shows the other side, or photograph it";
    else
        other.todo = "both sides: only one so far";
}

using Lines = std::array<EvidenceLine, 4>;

Lines lines_of(store::Database& database, PartId part) {
    const auto as_it_was = all_rows(database.query(kAsItWas, part), photo_of);
    Lines lines;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        auto& line = lines[at];
        line.shows = static_cast<Evidence>(at);
        line.said = all_rows(database.query(kSaid, part, word(line.shows)), photo_of);
        line.photos = line.said;
        line.none_because = reason_for_none(database, part, line.shows);
    }
    auto& [finish, marks, one, other] = lines;
    add_new(finish.photos, as_it_was);
    add_new(marks.photos, all_rows(database.query(kWithMarks, part), photo_of));
    if (finish.photos.empty() && finish.none_because.empty())
        finish.todo = is_stripped(database, part)
                          ? "original finish: no photo of it was kept; say so if none is left"
                          : "original finish: photograph it, or say that none is left";
    if (marks.photos.empty() && marks.none_because.empty())
        marks.todo = "marks: none read; photograph and read them, or say that there are none";
    count_sides(one, other, as_it_was);
    return lines;
}

Result<std::string> tag_of(const Notebook& notebook, PartId part) {
    return one_row(
        notebook, "part", std::to_string(part.value),
        [](const store::Statement& row) { return row.get<std::string>(0); },
        "SELECT tag FROM parts WHERE id IS ?", part);
}

} // namespace

Result<std::vector<EvidenceLine>> evidence_of(const Notebook& notebook, PartId part) {
    return notebook.read([&](store::Database& database) {
        const auto lines = lines_of(database, part);
        return std::vector(lines.begin(), lines.end());
    });
}

std::vector<std::string> evidence_missing_within(store::Database& database, PartId part) {
    std::vector<std::string> missing;
    for (const auto& line : lines_of(database, part))
        if (!line.todo.empty()) missing.push_back(line.todo);
    return missing;
}

Result<std::vector<std::string>> evidence_missing(const Notebook& notebook, PartId part) {
    return notebook.read(
        [&](store::Database& database) { return evidence_missing_within(database, part); });
}

Done note_evidence(Notebook& notebook, PartId part, PhotoId photo, Evidence shows) {
    auto tag = tag_of(notebook, part);
    if (!tag) return tag.failure();
    const auto number = std::to_string(photo.value);
    return notebook.act("photo " + number + " shows " + std::string(word(shows)) + " of " + *tag,
                        [&](store::Database& database) -> Done {
                            if (!database.query("SELECT 1 FROM photos WHERE id IS ?", photo).next())
                                return nothing_called("photo", number);
                            database.run("INSERT OR IGNORE INTO ties(id, photo_id, part_id, stage) "
                                         "VALUES (next_id('ties'), ?, ?, ?)",
                                         photo, part, word(Stage::before));
                            database.run(
                                "INSERT OR IGNORE INTO evidence(id, part_id, shows, photo_id) "
                                "VALUES (next_id('evidence'), ?, ?, ?)",
                                part, word(shows), photo);
                            return done();
                        });
}

Done drop_evidence(Notebook& notebook, PartId part, PhotoId photo, Evidence shows) {
    auto tag = tag_of(notebook, part);
    if (!tag) return tag.failure();
    return notebook.act("photo " + std::to_string(photo.value) + " does not show " +
                            std::string(word(shows)) + " of " + *tag,
                        [&](store::Database& database) -> Done {
                            database.run("DELETE FROM evidence WHERE part_id = ? AND shows = ? "
                                         "AND photo_id = ?",
                                         part, word(shows), photo);
                            return done();
                        });
}

Done note_no_evidence(Notebook& notebook, PartId part, Evidence shows, const std::string& because) {
    auto tag = tag_of(notebook, part);
    if (!tag) return tag.failure();
    const std::string kind(word(shows));
    if (auto said = require_text("reason why there is no photo of the " + kind, because); !said)
        return said;
    return notebook.act("noted that " + *tag + " has nothing to show: " + kind,
                        [&](store::Database& database) -> Done {
                            database.run("DELETE FROM evidence WHERE part_id = ? AND shows = ? "
                                         "AND photo_id IS NULL",
                                         part, kind);
                            database.run("INSERT INTO evidence(id, part_id, shows, none_because) "
                                         "VALUES (next_id('evidence'), ?, ?, ?)",
                                         part, kind, because);
                            return done();
                        });
}

Done drop_no_evidence(Notebook& notebook, PartId part, Evidence shows) {
    auto tag = tag_of(notebook, part);
    if (!tag) return tag.failure();
    return notebook.act("took back that " + *tag +
                            " has nothing to show: " + std::string(word(shows)),
                        [&](store::Database& database) -> Done {
                            database.run("DELETE FROM evidence WHERE part_id = ? AND shows = ? "
                                         "AND photo_id IS NULL",
                                         part, word(shows));
                            return done();
                        });
}

} // namespace fettle
