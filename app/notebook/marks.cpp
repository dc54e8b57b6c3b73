#include "notebook/marks.h"

#include "base/text.h"
#include "notebook/people.h"
#include "notebook/photos.h"
#include "notebook/rules.h"
#include "notebook/ties.h"

#include <nlohmann/json.hpp>

#include <array>
#include <charconv>

namespace fettle {
namespace {

std::string in_words(const Region& region) {
    return std::to_string(region.x) + "," + std::to_string(region.y) + "," +
           std::to_string(region.w) + "," + std::to_string(region.h);
}

Done check_mark(const Mark& mark, const Photo& photo) {
    if (auto filled = require_text("reading of the mark", mark.reading); !filled) return filled;
    const auto& region = mark.region;
    const bool inside = region.x >= 0 && region.y >= 0 && region.w > 0 && region.h > 0 &&
                        region.x <= photo.width - region.w && region.y <= photo.height - region.h;
    if (!inside)
        return Failure{FailureKind::invalid, "The region " + in_words(region) +
                                                 " does not lie in the picture, which is " +
                                                 std::to_string(photo.width) + " by " +
                                                 std::to_string(photo.height) +
                                                 " pixels: give x,y,w,h of a box inside it."};
    if (!mark.seen_with.empty() &&
        !nlohmann::json::parse(mark.seen_with, nullptr, false).is_object())
        return Failure{FailureKind::invalid,
                       "How the mark was seen is a JSON object or blank, not " +
                           fettle::quoted(mark.seen_with) + "."};
    return done();
}

// The part a photo shows, when it is tied to exactly one.
Result<PartId> only_part_of(const Notebook& notebook, PhotoId photo) {
    auto ties = ties_of_photo(notebook, photo);
    if (!ties) return ties.failure();
    PartId part{};
    for (const auto& tie : *ties) {
        auto to = std::get_if<PartId>(&tie.to);
        if (to && part) return PartId{};
        if (to) part = *to;
    }
    return part;
}

constexpr std::string_view kColumns =
    "SELECT m.id, m.photo_id, m.x, m.y, m.w, m.h, m.reading, ifnull(k.name, ''), m.sure, "
    "       m.part_id, m.seen_with FROM marks m LEFT JOIN makers k ON k.id = m.maker_id ";

Mark mark_of(const store::Statement& row) {
    return {row.get<MarkId>(0),
            row.get<PhotoId>(1),
            {row.get<int>(2), row.get<int>(3), row.get<int>(4), row.get<int>(5)},
            row.get<std::string>(6),
            row.get<std::string>(7),
            stored_word<Sureness>(row, 8),
            row.get<PartId>(9),
            row.get<std::string>(10)};
}

} // namespace

Result<Region> parse_region(std::string_view text) {
    std::array<int, 4> numbers{};
    auto at = text.data();
    const auto end = text.data() + text.size();
    bool fine = true;
    for (std::size_t i = 0; i < numbers.size() && fine; ++i) {
        auto [stop, error] = std::from_chars(at, end, numbers[i]);
        fine = error == std::errc() && (i == 3 ? stop == end : stop != end && *stop == ',');
        at = stop + (fine && i < 3 ? 1 : 0);
    }
    if (!fine)
        return Failure{FailureKind::invalid,
                       "\"" + std::string(text) +
                           "\" is no region: accepted is x,y,w,h in whole pixels "
                           "of the upright picture, such as 420,310,180,90."};
    return Region{numbers[0], numbers[1], numbers[2], numbers[3]};
}

Result<MarkId> keep_mark(Notebook& notebook, Mark mark) {
    auto photo = photo_by_id(notebook, mark.photo);
    if (!photo) return photo.failure();
    if (auto fine = check_mark(mark, *photo); !fine) return fine.failure();
    if (!mark.part) {
        auto part = only_part_of(notebook, mark.photo);
        if (!part) return part.failure();
        mark.part = *part;
    }
    return notebook.act(
        "read the mark " + mark.reading, [&](store::Database& database) -> Result<MarkId> {
            auto maker = maker_named(database, mark.maker);
            const auto& [x, y, w, h] = mark.region;
            if (!mark.id)
                return MarkId{database.insert(
                    "INSERT INTO marks(id, photo_id, x, y, w, h, reading, maker_id, sure, "
                    "part_id, seen_with) VALUES (next_id('marks'), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                    mark.photo, x, y, w, h, mark.reading, maker, word(mark.sure), mark.part,
                    mark.seen_with)};
            database.run("UPDATE marks SET photo_id = ?, x = ?, y = ?, w = ?, h = ?, "
                         "reading = ?, maker_id = ?, sure = ?, part_id = ?, seen_with = ? "
                         "WHERE id = ?",
                         mark.photo, x, y, w, h, mark.reading, maker, word(mark.sure), mark.part,
                         mark.seen_with, mark.id);
            return mark.id;
        });
}

Done remove_mark(Notebook& notebook, MarkId id) {
    return notebook.act("removed a mark", [&](store::Database& database) -> Done {
        database.run("DELETE FROM marks WHERE id = ?", id);
        if (database.rows_changed() == 0) return nothing_called("mark", std::to_string(id.value));
        return done();
    });
}

Result<Mark> mark_by_id(const Notebook& notebook, MarkId id) {
    return one_row(notebook, "mark", std::to_string(id.value), mark_of,
                   std::string(kColumns) + "WHERE m.id IS ?", id);
}

Result<std::vector<Mark>> list_marks(const Notebook& notebook, const MarkFilter& filter) {
    const auto where = Conditions().is("m.photo_id", filter.photo).is("m.part_id", filter.part);
    return notebook.read([&](store::Database& database) {
        return all_rows(database.query(std::string(kColumns) + where.sql() +
                                       "ORDER BY k.name IS NULL, k.name, m.id"),
                        mark_of);
    });
}

} // namespace fettle
