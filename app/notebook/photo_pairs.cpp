#include "notebook/photo_pairs.h"

#include "notebook/photos.h"
#include "notebook/rules.h"

#include <nlohmann/json.hpp>

#include <array>
#include <cmath>

namespace fettle {
namespace {

using nlohmann::json;

bool inside(double x, double y, const Photo& photo) {
    return std::isfinite(x) && std::isfinite(y) && x >= 0 && y >= 0 && x <= photo.width &&
           y <= photo.height;
}

Failure outside(std::size_t number, const Photo& photo) {
    return {FailureKind::invalid,
            "Matching point " + std::to_string(number + 1) + " does not lie in " +
                photo.original_name + ", which is " + std::to_string(photo.width) + " by " +
                std::to_string(photo.height) + " pixels: put it on the picture."};
}

Done check_points(const PhotoPair& pair, const Photo& photo, const Photo& onto) {
    if (pair.points.size() > kMostMatchingPoints)
        return Failure{FailureKind::invalid,
                       std::to_string(pair.points.size()) + " matching points were given; " +
                           std::to_string(kMostMatchingPoints) + " at most are kept."};
    for (std::size_t i = 0; i < pair.points.size(); ++i) {
        const MatchingPoint& point = pair.points[i];
        if (!inside(point.x, point.y, photo)) return outside(i, photo);
        if (!inside(point.onto_x, point.onto_y, onto)) return outside(i, onto);
    }
    return done();
}

PhotoPair other_way_round(PhotoPair pair) {
    std::swap(pair.photo, pair.onto);
    for (MatchingPoint& point : pair.points)
        point = {point.onto_x, point.onto_y, point.x, point.y};
    return pair;
}

std::string to_text(const std::vector<MatchingPoint>& points) {
    json all = json::array();
    for (const auto& point : points)
        all.push_back({point.x, point.y, point.onto_x, point.onto_y});
    return all.dump();
}

std::vector<MatchingPoint> points_from(const std::string& text) {
    std::vector<MatchingPoint> points;
    try {
        for (const auto& four : json::parse(text).get<std::vector<std::array<double, 4>>>())
            points.push_back({four[0], four[1], four[2], four[3]});
    } catch (const json::exception& error) {
        throw store::Trouble({FailureKind::damaged,
                              "The matching points of two photos do not read as they should.",
                              error.what()});
    }
    return points;
}

std::optional<PhotoPair> kept_pair(store::Database& database, PhotoId photo, PhotoId onto) {
    auto row = database.query("SELECT points FROM photo_pairs WHERE photo_id = ? AND onto_id = ?",
                              photo, onto);
    if (!row.next()) return std::nullopt;
    return PhotoPair{photo, onto, points_from(row.get<std::string>(0))};
}

void write_pair(store::Database& database, const PhotoPair& pair) {
    if (pair.points.empty())
        database.run("DELETE FROM photo_pairs WHERE photo_id = ? AND onto_id = ?", pair.photo,
                     pair.onto);
    else
        database.run("INSERT INTO photo_pairs(id, photo_id, onto_id, points) VALUES "
                     "(next_id('photo_pairs'), ?, ?, ?) "
                     "ON CONFLICT (photo_id, onto_id) DO UPDATE SET points = excluded.points",
                     pair.photo, pair.onto, to_text(pair.points));
}

} // namespace

Done keep_photo_pair(Notebook& notebook, const PhotoPair& pair) {
    if (pair.photo == pair.onto)
        return Failure{FailureKind::invalid,
                       "A photo cannot be laid onto itself: choose another one."};
    auto photo = photo_by_id(notebook, pair.photo);
    if (!photo) return photo.failure();
    auto onto = photo_by_id(notebook, pair.onto);
    if (!onto) return onto.failure();
    if (auto fine = check_points(pair, *photo, *onto); !fine) return fine;
    const std::string two = photo->original_name + " and " + onto->original_name;
    const std::string words = pair.points.empty()
                                  ? "removed the matching points of " + two
                                  : "matched " + two + " in " + std::to_string(pair.points.size()) +
                                        (pair.points.size() == 1 ? " point" : " points");
    return notebook.act(words, [&](store::Database& database) -> Done {
        const bool reversed = kept_pair(database, pair.onto, pair.photo).has_value();
        write_pair(database, reversed ? other_way_round(pair) : pair);
        return done();
    });
}

Result<PhotoPair> photo_pair(const Notebook& notebook, PhotoId photo, PhotoId onto) {
    return notebook.read([&](store::Database& database) {
        if (auto kept = kept_pair(database, photo, onto)) return *kept;
        if (auto kept = kept_pair(database, onto, photo)) return other_way_round(*kept);
        return PhotoPair{photo, onto, {}};
    });
}

} // namespace fettle
