#include "photos/plane_map.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <complex>
#include <vector>

namespace fettle::photos {
namespace {

using Matrix3 = Eigen::Matrix<double, 3, 3, Eigen::RowMajor>;

// Flatter triangles than this, height by longest side, count as three points in a line.
constexpr double kFlat = 0.01;

Matrix3 matrix_of(const PlaneMap& map) {
    return Eigen::Map<const Matrix3>(map.m.data());
}

PlaneMap map_of(Matrix3 matrix) {
    // By a positive number, so that depths keep their sign.
    const double largest = matrix.cwiseAbs().maxCoeff();
    const double last = std::abs(matrix(2, 2));
    matrix /= last > 1e-12 * largest ? last : largest;
    PlaneMap map;
    Eigen::Map<Matrix3>(map.m.data()) = matrix;
    return map;
}

double distance(PlanePoint one, PlanePoint other) {
    return std::hypot(one.x - other.x, one.y - other.y);
}

// Twice the area of the triangle, positive one way round.
double twice_area(PlanePoint a, PlanePoint b, PlanePoint c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool in_a_line(PlanePoint a, PlanePoint b, PlanePoint c) {
    const double longest = std::max({distance(a, b), distance(b, c), distance(c, a)});
    return std::abs(twice_area(a, b, c)) <= kFlat * longest * longest;
}

std::string number(std::size_t at) {
    return std::to_string(at + 1);
}

using Points = std::vector<PlanePoint>;

Done apart(const Points& points, const PlaneSide& side) {
    double spread = 0;
    for (const auto& one : points) {
        if (!std::isfinite(one.x) || !std::isfinite(one.y))
            return Failure{FailureKind::invalid,
                           "A point of " + side.name + " is not a place; give finite figures."};
        for (const auto& other : points)
            spread = std::max(spread, distance(one, other));
    }
    for (std::size_t a = 0; a < points.size(); ++a)
        for (std::size_t b = a + 1; b < points.size(); ++b)
            if (distance(points[a], points[b]) <= std::max(side.least_apart, 1e-6 * spread))
                return Failure{FailureKind::invalid, "Points " + number(a) + " and " + number(b) +
                                                         " lie on one spot in " + side.name +
                                                         "; matching points must lie well apart."};
    return done();
}

Done three_in_a_line(std::size_t a, std::size_t b, std::size_t c, const PlaneSide& side) {
    return Failure{FailureKind::invalid, "Points " + number(a) + ", " + number(b) + " and " +
                                             number(c) + " lie in a line in " + side.name +
                                             "; move one of them off the line."};
}

// An affine map needs one honest triangle, a homography four points no three of which are in line.
Done spread_out(PlaneKind kind, const Points& points, const PlaneSide& side) {
    if (auto fine = apart(points, side); !fine || kind == PlaneKind::similarity) return fine;
    const std::size_t count = points.size();
    const bool every = kind == PlaneKind::homography && count == 4;
    bool any = false;
    for (std::size_t a = 0; a < count; ++a)
        for (std::size_t b = a + 1; b < count; ++b)
            for (std::size_t c = b + 1; c < count; ++c) {
                const bool flat = in_a_line(points[a], points[b], points[c]);
                if (flat && every) return three_in_a_line(a, b, c, side);
                any = any || !flat;
            }
    return any ? done() : three_in_a_line(0, 1, 2, side);
}

// Four points seen from elsewhere keep their order: the triangles all keep their sense of turning,
// or all change it (a mirrored picture). Otherwise the horizon would cut through between them.
Done same_order(std::span<const PointPair> pairs) {
    if (pairs.size() != 4) return done();
    int kept = 0;
    for (std::size_t left_out = 0; left_out < 4; ++left_out) {
        const auto& a = pairs[left_out == 0 ? 1 : 0];
        const auto& b = pairs[left_out <= 1 ? 2 : 1];
        const auto& c = pairs[left_out <= 2 ? 3 : 2];
        kept += twice_area(a.from, b.from, c.from) * twice_area(a.to, b.to, c.to) > 0 ? 1 : 0;
    }
    if (kept == 0 || kept == 4) return done();
    return Failure{FailureKind::invalid,
                   "The four points do not lie in the same order on both sides; see that each "
                   "number stands at the same spot in both."};
}

PlaneMap similarity(std::span<const PointPair> pairs) {
    // In complex numbers z' = a z + b, which is linear in a and b.
    using Complex = std::complex<double>;
    Complex from_mean, to_mean;
    for (const auto& pair : pairs) {
        from_mean += Complex(pair.from.x, pair.from.y) / double(pairs.size());
        to_mean += Complex(pair.to.x, pair.to.y) / double(pairs.size());
    }
    Complex across;
    double square = 0;
    for (const auto& pair : pairs) {
        const Complex from = Complex(pair.from.x, pair.from.y) - from_mean;
        across += std::conj(from) * (Complex(pair.to.x, pair.to.y) - to_mean);
        square += std::norm(from);
    }
    const Complex a = across / square;
    const Complex b = to_mean - a * from_mean;
    return {{a.real(), -a.imag(), b.real(), a.imag(), a.real(), b.imag(), 0, 0, 1}};
}

PlaneMap affine(std::span<const PointPair> pairs) {
    Eigen::Vector2d from_mean = Eigen::Vector2d::Zero(), to_mean = Eigen::Vector2d::Zero();
    for (const auto& pair : pairs) {
        from_mean += Eigen::Vector2d(pair.from.x, pair.from.y) / double(pairs.size());
        to_mean += Eigen::Vector2d(pair.to.x, pair.to.y) / double(pairs.size());
    }
    Eigen::Matrix2d square = Eigen::Matrix2d::Zero(), across = Eigen::Matrix2d::Zero();
    for (const auto& pair : pairs) {
        const Eigen::Vector2d from = Eigen::Vector2d(pair.from.x, pair.from.y) - from_mean;
        square += from * from.transpose();
        across += (Eigen::Vector2d(pair.to.x, pair.to.y) - to_mean) * from.transpose();
    }
    const Eigen::Matrix2d a = across * square.inverse();
    const Eigen::Vector2d b = to_mean - a * from_mean;
    return {{a(0, 0), a(0, 1), b(0), a(1, 0), a(1, 1), b(1), 0, 0, 1}};
}

// Moves the mean to the origin and the mean distance from it to sqrt 2 (Hartley and Zisserman,
// 4.4.4).
Matrix3 normalising(const Points& points) {
    double x = 0, y = 0, far = 0;
    for (const auto& point : points) {
        x += point.x / double(points.size());
        y += point.y / double(points.size());
    }
    for (const auto& point : points)
        far += distance(point, {x, y}) / double(points.size());
    const double scale = std::sqrt(2.0) / far;
    Matrix3 matrix;
    matrix << scale, 0, -scale * x, 0, scale, -scale * y, 0, 0, 1;
    return matrix;
}

PlaneMap homography(const Points& from, const Points& to) {
    const PlaneMap from_near = map_of(normalising(from)), to_near = map_of(normalising(to));
    Eigen::MatrixXd rows(2 * std::ptrdiff_t(from.size()), 9);
    for (std::size_t i = 0; i < from.size(); ++i) {
        const auto [x, y] = from_near(from[i]);
        const auto [u, v] = to_near(to[i]);
        // Two rows a pair, (4.3) there with w' = 1.
        rows.row(2 * std::ptrdiff_t(i)) << 0, 0, 0, -x, -y, -1, v * x, v * y, v;
        rows.row(2 * std::ptrdiff_t(i) + 1) << x, y, 1, 0, 0, 0, -u * x, -u * y, -u;
    }
    const Eigen::JacobiSVD<Eigen::MatrixXd> parts(rows, Eigen::ComputeFullV);
    const Eigen::VectorXd least = parts.matrixV().col(8);
    const Matrix3 near = Eigen::Map<const Matrix3>(least.data());
    const Matrix3 matrix = matrix_of(to_near).inverse() * near * matrix_of(from_near);
    const PlaneMap map = map_of(matrix);
    return map.depth(from.front()) < 0 ? map_of(-matrix) : map;
}

Points side_of(std::span<const PointPair> pairs, PlanePoint PointPair::*side) {
    Points points;
    for (const auto& pair : pairs)
        points.push_back(pair.*side);
    return points;
}

} // namespace

PlanePoint PlaneMap::operator()(PlanePoint point) const {
    const double w = depth(point);
    return {(m[0] * point.x + m[1] * point.y + m[2]) / w,
            (m[3] * point.x + m[4] * point.y + m[5]) / w};
}

PlaneMap after_each_other(const PlaneMap& first, const PlaneMap& second) {
    return map_of(matrix_of(second) * matrix_of(first));
}

PlaneMap undone(const PlaneMap& map) {
    return map_of(matrix_of(map).inverse());
}

std::size_t pairs_needed(PlaneKind kind) {
    return kind == PlaneKind::similarity ? 2 : kind == PlaneKind::affine ? 3 : 4;
}

PlaneKind kind_settled_by(std::size_t pairs) {
    if (pairs <= 2) return PlaneKind::similarity;
    return pairs == 3 ? PlaneKind::affine : PlaneKind::homography;
}

Result<PlaneMap> map_by_points(PlaneKind kind, std::span<const PointPair> pairs,
                               const PlaneSides& sides) {
    if (pairs.size() < pairs_needed(kind))
        return Failure{FailureKind::invalid,
                       "There are " + std::to_string(pairs.size()) + " matching points; at least " +
                           std::to_string(pairs_needed(kind)) + " are needed."};
    const Points from = side_of(pairs, &PointPair::from), to = side_of(pairs, &PointPair::to);
    if (auto fine = spread_out(kind, from, sides.from); !fine) return fine.failure();
    if (auto fine = spread_out(kind, to, sides.to); !fine) return fine.failure();
    if (kind == PlaneKind::similarity) return similarity(pairs);
    if (kind == PlaneKind::affine) return affine(pairs);
    if (auto fine = same_order(pairs); !fine) return fine.failure();
    return homography(from, to);
}

Misses misses_of(const PlaneMap& map, std::span<const PointPair> pairs) {
    Misses misses;
    double square = 0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const double miss = distance(map(pairs[i].from), pairs[i].to);
        square += miss * miss;
        if (miss <= misses.worst) continue;
        misses.worst = miss;
        misses.worst_at = i;
    }
    if (!pairs.empty()) misses.typical = std::sqrt(square / double(pairs.size()));
    return misses;
}

} // namespace fettle::photos
