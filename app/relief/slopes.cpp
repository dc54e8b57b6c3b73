#include "relief/slopes.h"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <mutex>

namespace fettle::relief {
namespace {

constexpr float kFits = 0.02F;       // of the brightest: readings this near are as good as exact
constexpr float kNoise = 1.0F / 512; // of full light: what cameras' steps and noise come to
constexpr float kDeepShadow = 0.04F; // of the brightest: darker than that says nothing of the slope
constexpr float kOutlying = 3;
constexpr int kRounds = 3;
constexpr float kLeastSpread = 1e-4F; // of the lights that are left, for three unknowns to be told

using Vector = Eigen::Vector3f;
using Matrix = Eigen::Matrix3f;

struct Pixel {
    std::array<float, kMostShots> reading; // 0 to 1
    std::array<bool, kMostShots> used;
    int count = 0; // used
};

// Of three unknowns by their normal equations; false where the lights do not settle them.
bool solved(const Matrix& normal, const Vector& right, Vector& answer) {
    const Vector one = normal.col(0), two = normal.col(1), three = normal.col(2);
    const Vector across = two.cross(three);
    const float determinant = one.dot(across), size = normal.trace() / 3;
    if (!(determinant > kLeastSpread * size * size * size)) return false;
    answer = Vector(right.dot(across), one.dot(right.cross(three)), one.dot(two.cross(right))) /
             determinant;
    return true;
}

// The lights of a set, and the whole fit at once for pixels where nothing is amiss.
struct Lamps {
    int count = 0;
    std::array<Vector, kMostShots> light;
    std::array<Vector, kMostShots> share; // of each reading in the three unknowns

    explicit Lamps(std::span<const Light> lights) : count(int(lights.size())) {
        Matrix normal = Matrix::Zero();
        for (int k = 0; k < count; ++k) {
            const auto& [towards, strength] = lights[k];
            light[k] =
                Vector(float(towards.x), float(towards.y), float(towards.z)) * float(strength);
            normal += light[k] * light[k].transpose();
        }
        const Matrix inverse = normal.inverse();
        for (int k = 0; k < count; ++k)
            share[k] = inverse * light[k];
    }
};

bool fits_at_once(const Lamps& lamps, const Pixel& pixel, Vector& answer) {
    answer.setZero();
    float brightest = 0;
    for (int k = 0; k < lamps.count; ++k) {
        answer += lamps.share[k] * pixel.reading[k];
        brightest = std::max(brightest, pixel.reading[k]);
    }
    const float near = std::max(kFits * brightest, kNoise);
    for (int k = 0; k < lamps.count; ++k) {
        if (pixel.reading[k] < kDeepShadow * brightest) return false;
        if (std::abs(pixel.reading[k] - answer.dot(lamps.light[k])) > near) return false;
    }
    return true;
}

bool weighed_fit(const Lamps& lamps, const Pixel& pixel,
                 const std::array<float, kMostShots>& weights, Vector& answer) {
    Matrix normal = Matrix::Zero();
    Vector right = Vector::Zero();
    for (int k = 0; k < lamps.count; ++k) {
        if (!pixel.used[k]) continue;
        const Vector weighed = lamps.light[k] * weights[k];
        normal += weighed * lamps.light[k].transpose();
        right += weighed * pixel.reading[k];
    }
    return solved(normal, right, answer);
}

// The second brightest that is used: a single glint is not taken for the light that counts.
float brightest_but_one(const Pixel& pixel, int count) {
    float most = 0, second = 0;
    for (int k = 0; k < count; ++k)
        if (pixel.used[k]) {
            second = std::max(second, std::min(most, pixel.reading[k]));
            most = std::max(most, pixel.reading[k]);
        }
    return second;
}

float median_size(std::array<float, kMostShots>& sizes, int count) {
    std::nth_element(sizes.begin(), sizes.begin() + count / 2, sizes.begin() + count);
    return sizes[count / 2];
}

// Least sum of sizes, then without what is off. Marks in `pixel` what was used at last.
bool careful_fit(const Lamps& lamps, Pixel& pixel, Vector& answer, Readings& tally) {
    const float bright = brightest_but_one(pixel, lamps.count);
    for (int k = 0; k < lamps.count && pixel.count > 3; ++k)
        if (pixel.used[k] && pixel.reading[k] < kDeepShadow * bright) {
            pixel.used[k] = false;
            --pixel.count, ++tally.dark;
        }
    std::array<float, kMostShots> weights, left{};
    weights.fill(1);
    if (!weighed_fit(lamps, pixel, weights, answer)) return false;
    if (pixel.count == 3) return true;
    const float near = std::max(kFits * bright, kNoise);
    for (int round = 0; round < kRounds; ++round) {
        for (int k = 0; k < lamps.count; ++k) {
            left[k] = std::abs(pixel.reading[k] - answer.dot(lamps.light[k]));
            weights[k] = near / std::max(left[k], near / 8);
        }
        if (!weighed_fit(lamps, pixel, weights, answer)) return false;
    }
    std::array<float, kMostShots> sizes{};
    int count = 0;
    for (int k = 0; k < lamps.count; ++k) {
        left[k] = pixel.reading[k] - answer.dot(lamps.light[k]);
        if (pixel.used[k]) sizes[count++] = std::abs(left[k]);
    }
    const float most = std::max(kOutlying * 1.4826F * median_size(sizes, count), near);
    Pixel kept = pixel;
    Readings dropped;
    for (int k = 0; k < lamps.count; ++k)
        if (kept.used[k] && std::abs(left[k]) > most) {
            kept.used[k] = false;
            --kept.count, ++(left[k] < 0 ? dropped.dark : dropped.bright);
        }
    weights.fill(1);
    Vector without;
    if (kept.count < 3 || !weighed_fit(lamps, kept, weights, without)) return true;
    pixel = kept, answer = without;
    tally.dark += dropped.dark, tally.bright += dropped.bright;
    return true;
}

// Readings of one row's pixels, each photo as it lies.
struct Reader {
    std::span<const Shot> shots;
    std::vector<PoseMap> maps;

    // Gives whether all can be used.
    bool read(double x, double y, Pixel& pixel, Readings& tally) const {
        bool whole = true;
        pixel.count = 0;
        for (std::size_t k = 0; k < shots.size(); ++k) {
            const Point at = maps[k](x, y);
            const Shot& shot = shots[k];
            pixel.reading[k] = 0;
            pixel.used[k] = false;
            if (at.x < 0 || at.y < 0 || at.x > shot.width - 1 || at.y > shot.height - 1) {
                ++tally.outside;
            } else if (const float light = reading(shot, at.x, at.y); light < 0) {
                ++tally.clipped;
            } else {
                pixel.reading[k] = light;
                pixel.used[k] = true;
                ++pixel.count;
            }
            whole = whole && pixel.used[k];
        }
        return whole;
    }

    // Between four pixels; below 0 where one of them is at its limit.
    static float reading(const Shot& shot, double x, double y) {
        const int left = std::min(int(x), shot.width - 2), top = std::min(int(y), shot.height - 2);
        const std::uint16_t* above = shot.light.data() + std::size_t(top) * shot.width + left;
        const std::uint16_t* below = above + shot.width;
        if (above[0] == kClipped || above[1] == kClipped || below[0] == kClipped ||
            below[1] == kClipped)
            return -1;
        const float u = float(x - left), v = float(y - top);
        const float upper = float(above[0]) + u * (float(above[1]) - float(above[0]));
        const float lower = float(below[0]) + u * (float(below[1]) - float(below[0]));
        return (upper + v * (lower - upper)) / 65535;
    }
};

void put(Slopes& slopes, int x, int y, const Vector& answer) {
    const float albedo = answer.norm();
    slopes.albedo.at(x, y) = albedo;
    const float up = std::max(answer.z(), albedo / (2 * kMostSlope));
    if (!(up > 0)) return;
    slopes.right.at(x, y) = std::clamp(-answer.x() / up, -kMostSlope, kMostSlope);
    slopes.down.at(x, y) = std::clamp(-answer.y() / up, -kMostSlope, kMostSlope);
}

Failure refused(const std::string& sentence) {
    return {FailureKind::invalid, sentence};
}

Done check_lights(std::span<const Light> lights) {
    Matrix normal = Matrix::Zero();
    for (const auto& [towards, strength] : lights) {
        const Vector light(float(towards.x), float(towards.y), float(towards.z));
        if (!light.allFinite() || !(strength > 0))
            return refused("A light has no direction or no strength.");
        normal += light * light.transpose();
    }
    Vector any;
    if (!solved(normal, Vector(1, 1, 1), any))
        return refused("The lights all come from one side or from two opposite ones: move the "
                       "torch around the part.");
    return done();
}

} // namespace

Done check_set(std::span<const Shot> shots, std::size_t lights, std::size_t poses,
               const Rectangle& part) {
    if (shots.size() < std::size_t(kLeastShots) || shots.size() > std::size_t(kMostShots))
        return refused("A torch set is of " + std::to_string(kLeastShots) + " to " +
                       std::to_string(kMostShots) + " photos, not of " +
                       std::to_string(shots.size()) + ".");
    if (lights != shots.size() || poses != shots.size())
        return refused("Of " + std::to_string(shots.size()) + " photos the lights of " +
                       std::to_string(lights) + " and the places of " + std::to_string(poses) +
                       " are known; all are needed.");
    const Shot& first = shots[0];
    for (const Shot& shot : shots)
        if (shot.width != first.width || shot.height != first.height)
            return refused("The photos of a torch set are of one size.");
    if (part.x < 0 || part.y < 0 || part.width < 2 || part.height < 2 ||
        part.x + part.width > first.width || part.y + part.height > first.height)
        return refused("The region " + std::to_string(part.x) + "," + std::to_string(part.y) + "," +
                       std::to_string(part.width) + "," + std::to_string(part.height) +
                       " does not lie within the photos of " + std::to_string(first.width) +
                       " by " + std::to_string(first.height) + " pixels.");
    return done();
}

Result<Slopes> slopes_of(std::span<const Shot> shots, std::span<const Light> lights,
                         std::span<const Pose> poses, const Rectangle& part, const Work& work) {
    if (auto sound = check_set(shots, lights.size(), poses.size(), part); !sound)
        return sound.failure();
    if (auto sound = check_lights(lights); !sound) return sound.failure();
    Slopes slopes{Grid(part.width, part.height),
                  Grid(part.width, part.height),
                  Grid(part.width, part.height),
                  {},
                  0};
    const Lamps lamps(lights);
    Reader reader{shots, {}};
    for (const Pose& pose : poses)
        reader.maps.emplace_back(pose, (shots[0].width - 1) / 2.0, (shots[0].height - 1) / 2.0);
    std::mutex adding;
    auto worked = in_bands(part.height, work, "slopes", [&](int first, int last) {
        Readings tally;
        std::size_t unknown = 0;
        Pixel pixel;
        for (int y = first; y < last; ++y)
            for (int x = 0; x < part.width; ++x) {
                const bool whole = reader.read(part.x + x, part.y + y, pixel, tally);
                Vector answer = Vector::Zero();
                const bool known = (whole && fits_at_once(lamps, pixel, answer)) ||
                                   (pixel.count >= 3 && careful_fit(lamps, pixel, answer, tally));
                if (known)
                    put(slopes, x, y, answer);
                else
                    ++unknown;
            }
        const std::lock_guard hold(adding);
        slopes.readings.dark += tally.dark, slopes.readings.bright += tally.bright;
        slopes.readings.clipped += tally.clipped, slopes.readings.outside += tally.outside;
        slopes.unknown += unknown;
    });
    if (!worked) return worked.failure();
    slopes.readings.all = slopes.albedo.samples.size() * shots.size();
    return slopes;
}

} // namespace fettle::relief
