#include "photos/stamp_filters.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace fettle::photos {
namespace {

constexpr float kMiddle = 0.5F;       // what even metal comes to
constexpr float kDeviation = 0.2F;    // what evened contrast comes to
constexpr float kDarkest = 1.0F / 64; // light this weak is not divided by
constexpr float kReliefGain = 2.0F;   // a rise of a half within sigma is black or white

constexpr int kPasses = 3;
// A large blur is taken of a picture shrunk so far that its sigma stays above this.
constexpr double kShrunkSigma = 3;

// A box of 2 `reach` + 1 samples and two more at its ends that count for `ends` each, so that its
// variance is exactly that wanted: (2 (1 + 4 + ... + reach²) + 2 ends (reach + 1)²) / (2 reach + 1
// + 2 ends), solved for `ends` (Gwosdek, Grewenig, Bruhn and Weickert, 2011).
struct Box {
    int reach = 0;
    float ends = 0, share = 1;

    explicit Box(double variance) {
        reach = std::max(0, int(std::floor((std::sqrt(12 * variance + 1) - 1) / 2)));
        const double r = reach, whole = 2 * r + 1;
        const double exact =
            whole * (3 * variance - r * (r + 1)) / (6 * ((r + 1) * (r + 1) - variance));
        ends = float(std::max(0.0, exact));
        share = float(1 / (whole + 2 * double(ends)));
    }
};

// Rows side by side: their sums do not wait for one another.
constexpr int kRows = 4;

template <int Rows>
void box_along(const Box& box, const float* from, float* to, int count) {
    const auto held = [&](int row, int at) {
        return from[row * count + std::clamp(at, 0, count - 1)];
    };
    float sums[Rows] = {};
    for (int row = 0; row < Rows; ++row)
        for (int at = -box.reach; at <= box.reach; ++at)
            sums[row] += held(row, at);
    const float ends = box.ends, share = box.share;
    const int reach = box.reach + 1;
    const auto edge = [&](int x) {
        for (int row = 0; row < Rows; ++row) {
            const float after = held(row, x + reach);
            to[row * count + x] = (sums[row] + ends * (held(row, x - reach) + after)) * share;
            sums[row] += after - held(row, x - reach + 1);
        }
    };
    const int inner = count - reach; // may lie before the first
    int x = 0;
    for (; x < std::min(reach, count); ++x)
        edge(x);
    for (; x < inner; ++x)
        for (int row = 0; row < Rows; ++row) {
            const float* at = from + std::ptrdiff_t{row} * count + x;
            to[row * count + x] = (sums[row] + ends * (at[-reach] + at[reach])) * share;
            sums[row] += at[reach] - at[-box.reach];
        }
    for (; x < count; ++x)
        edge(x);
}

void box_down(const Box& box, const Brightness& from, Brightness& to) {
    const int width = from.width;
    const auto row = [&](int y) {
        return from.samples.data() + std::size_t(std::clamp(y, 0, from.height - 1)) * width;
    };
    std::vector<float> sums(std::size_t(width), 0.0F);
    for (int y = -box.reach; y <= box.reach; ++y) {
        const float* line = row(y);
        for (int x = 0; x < width; ++x)
            sums[x] += line[x];
    }
    const float ends = box.ends, share = box.share;
    for (int y = 0; y < from.height; ++y) {
        const float *before = row(y - box.reach - 1), *after = row(y + box.reach + 1);
        const float* leaving = row(y - box.reach);
        float *out = to.samples.data() + std::size_t(y) * width, *sum = sums.data();
        for (int x = 0; x < width; ++x) {
            out[x] = (sum[x] + ends * (before[x] + after[x])) * share;
            sum[x] += after[x] - leaving[x];
        }
    }
}

// Small blurs cost less, and are exact, as the sampled Gaussian itself; below 1 it would be sampled
// too coarsely to have its width.
constexpr double kLeastSampled = 1, kMostSampled = 4, kSampledReach = 3.5;

std::vector<float> gaussian(double sigma) {
    std::vector<float> half(std::size_t(std::ceil(kSampledReach * sigma)) + 1);
    double sum = 0;
    for (std::size_t i = 0; i < half.size(); ++i) {
        const double away = double(i) / sigma;
        half[i] = float(std::exp(-away * away / 2));
        sum += half[i] * (i == 0 ? 1.0 : 2.0);
    }
    for (float& share : half)
        share = float(share / sum);
    return half;
}

Brightness sampled_gaussian(const Brightness& from, double sigma) {
    const std::vector<float> share = gaussian(sigma);
    const int reach = int(share.size()) - 1, width = from.width;
    Brightness along{width, from.height, std::vector<float>(from.samples.size())};
    std::vector<float> line(std::size_t(width + 2 * reach));
    for (int y = 0; y < from.height; ++y) {
        const float* in = &from.samples[std::size_t(y) * width];
        for (int x = -reach; x < width + reach; ++x)
            line[x + reach] = in[std::clamp(x, 0, width - 1)];
        float* out = &along.samples[std::size_t(y) * width];
        for (int x = 0; x < width; ++x)
            out[x] = share[0] * line[x + reach];
        for (int k = 1; k <= reach; ++k) {
            const float *left = line.data() + reach - k, *right = line.data() + reach + k;
            for (int x = 0; x < width; ++x)
                out[x] += share[k] * (left[x] + right[x]);
        }
    }
    Brightness both{width, from.height, std::vector<float>(from.samples.size())};
    const auto row = [&](int y) {
        return &along.samples[std::size_t(std::clamp(y, 0, from.height - 1)) * width];
    };
    for (int y = 0; y < from.height; ++y) {
        float* out = &both.samples[std::size_t(y) * width];
        const float* middle = row(y);
        for (int x = 0; x < width; ++x)
            out[x] = share[0] * middle[x];
        for (int k = 1; k <= reach; ++k) {
            const float *above = row(y - k), *below = row(y + k);
            for (int x = 0; x < width; ++x)
                out[x] += share[k] * (above[x] + below[x]);
        }
    }
    return both;
}

Brightness blurred_in_full(Brightness from, double sigma) {
    if (sigma >= kLeastSampled && sigma <= kMostSampled) return sampled_gaussian(from, sigma);
    const Box box(sigma * sigma / kPasses);
    Brightness other{from.width, from.height, std::vector<float>(from.samples.size())};
    for (int pass = 0; pass < kPasses; ++pass) {
        for (int y = 0; y < from.height;) {
            const std::size_t start = std::size_t(y) * from.width;
            const float* in = from.samples.data() + start;
            float* out = other.samples.data() + start;
            const bool several = y + kRows <= from.height;
            several ? box_along<kRows>(box, in, out, from.width)
                    : box_along<1>(box, in, out, from.width);
            y += several ? kRows : 1;
        }
        box_down(box, other, from);
    }
    return from;
}

// Each sample the mean of `by` times `by`, of fewer at the right and lower edges.
Brightness shrunk_by(const Brightness& from, int by) {
    Brightness small{(from.width + by - 1) / by, (from.height + by - 1) / by, {}};
    small.samples.resize(std::size_t(small.width) * small.height);
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x) {
            const int right = std::min(from.width, (x + 1) * by);
            const int bottom = std::min(from.height, (y + 1) * by);
            float sum = 0;
            for (int row = y * by; row < bottom; ++row)
                for (int column = x * by; column < right; ++column)
                    sum += from.at(column, row);
            small.at(x, y) = sum / float((right - x * by) * (bottom - y * by));
        }
    return small;
}

// Straight lines between the middles of the blocks.
Brightness grown_by(const Brightness& small, int by, int width, int height) {
    struct Between {
        int first, second;
        float share;
    };
    const auto between = [by](int at, int count) {
        const float exact =
            std::clamp((float(at) + 0.5F) / float(by) - 0.5F, 0.0F, float(count - 1));
        const int first = int(exact);
        return Between{first, std::min(first + 1, count - 1), exact - float(first)};
    };
    std::vector<Between> columns;
    for (int x = 0; x < width; ++x)
        columns.push_back(between(x, small.width));
    Brightness large{width, height, std::vector<float>(std::size_t(width) * height)};
    std::vector<float> line(std::size_t(small.width));
    for (int y = 0; y < height; ++y) {
        const Between rows = between(y, small.height);
        for (int x = 0; x < small.width; ++x)
            line[x] = small.at(x, rows.first) +
                      rows.share * (small.at(x, rows.second) - small.at(x, rows.first));
        float* out = large.samples.data() + std::size_t(y) * width;
        for (int x = 0; x < width; ++x)
            out[x] = line[columns[x].first] +
                     columns[x].share * (line[columns[x].second] - line[columns[x].first]);
    }
    return large;
}

void mix(Brightness& picture, const Brightness& with, double amount) {
    const float share = float(amount);
    for (std::size_t i = 0; i < picture.samples.size(); ++i)
        picture.samples[i] += share * (with.samples[i] - picture.samples[i]);
}

void lay_relief(Brightness& picture, const StampFilters& filters, double sigma) {
    // A slope that rises away from the light faces it.
    Brightness shade = slope_towards(picture, sigma, filters.light_from);
    const float gain = kReliefGain * float(std::max(1.0, sigma));
    for (float& sample : shade.samples)
        sample = kMiddle - gain * sample;
    mix(picture, shade, filters.relief);
}

void sharpen(Brightness& picture, double sigma, double amount) {
    const Brightness soft = blurred(picture, sigma);
    const float times = float(kMostUnsharp * amount);
    for (std::size_t i = 0; i < picture.samples.size(); ++i)
        picture.samples[i] += times * (picture.samples[i] - soft.samples[i]);
}

} // namespace

Brightness brightness_of(const Picture& picture) {
    Brightness brightness{picture.width, picture.height, {}};
    brightness.samples.resize(std::size_t(picture.width) * picture.height);
    const auto* from = reinterpret_cast<const unsigned char*>(picture.rgba.data());
    for (float& sample : brightness.samples) {
        sample = (0.299F * from[0] + 0.587F * from[1] + 0.114F * from[2]) / 255;
        from += 4;
    }
    return brightness;
}

Picture grey_picture(const Brightness& brightness) {
    Picture picture{brightness.width, brightness.height, {}};
    picture.rgba.resize(brightness.samples.size() * 4);
    std::byte* to = picture.rgba.data();
    for (const float sample : brightness.samples) {
        const auto grey = std::byte(std::clamp(sample, 0.0F, 1.0F) * 255 + 0.5F);
        to[0] = to[1] = to[2] = grey;
        to[3] = std::byte{255};
        to += 4;
    }
    return picture;
}

Brightness blurred(const Brightness& from, double sigma) {
    assert(from.width > 0 && from.height > 0 && sigma >= 0);
    const int by = std::min({int(sigma / kShrunkSigma), from.width, from.height, 8});
    if (by < 2) return blurred_in_full(from, sigma);
    // The blocks of the shrinking, 1/12 of by², and the lines of the growing, 1/6, blur as well.
    const double rest = sigma * sigma - by * by * (1.0 / 12 + 1.0 / 6);
    const Brightness small = blurred_in_full(shrunk_by(from, by), std::sqrt(rest) / by);
    return grown_by(small, by, from.width, from.height);
}

Brightness flattened(const Brightness& from, double radius) {
    Brightness flat = blurred(from, radius);
    for (std::size_t i = 0; i < flat.samples.size(); ++i)
        flat.samples[i] = kMiddle * from.samples[i] / std::max(flat.samples[i], kDarkest);
    return flat;
}

Brightness evened_contrast(const Brightness& from, double radius) {
    Brightness apart = blurred(from, radius);
    Brightness squares = apart;
    for (std::size_t i = 0; i < apart.samples.size(); ++i) {
        apart.samples[i] = from.samples[i] - apart.samples[i];
        squares.samples[i] = apart.samples[i] * apart.samples[i];
    }
    squares = blurred(squares, radius);
    constexpr float kLeastDeviation = kDeviation / float(kMostGain);
    for (std::size_t i = 0; i < apart.samples.size(); ++i) {
        const float deviation =
            std::max(kLeastDeviation, std::sqrt(std::max(0.0F, squares.samples[i])));
        apart.samples[i] = kMiddle + kDeviation * apart.samples[i] / deviation;
    }
    return apart;
}

Brightness slope_towards(const Brightness& from, double sigma, double side_degrees) {
    const Brightness soft = blurred(from, sigma);
    const double side = side_degrees * std::numbers::pi / 180;
    const float across = float(std::sin(side)) / 2, down = float(-std::cos(side)) / 2;
    Brightness slope{soft.width, soft.height, std::vector<float>(soft.samples.size())};
    for (int y = 0; y < soft.height; ++y) {
        const int above = std::max(0, y - 1), below = std::min(soft.height - 1, y + 1);
        for (int x = 0; x < soft.width; ++x) {
            const int left = std::max(0, x - 1), right = std::min(soft.width - 1, x + 1);
            slope.at(x, y) = across * (soft.at(right, y) - soft.at(left, y)) +
                             down * (soft.at(x, below) - soft.at(x, above));
        }
    }
    return slope;
}

Brightness filtered(Brightness from, const StampFilters& filters, double scale) {
    assert(scale > 0 && scale <= 1);
    if (from.width <= 0 || from.height <= 0) return from;
    const double radius = filters.radius * scale, fine = radius * kFineShare;
    if (filters.flatten > 0) mix(from, flattened(from, radius), filters.flatten);
    if (filters.contrast > 0) mix(from, evened_contrast(from, radius), filters.contrast);
    if (filters.relief > 0) lay_relief(from, filters, fine);
    if (filters.sharpen > 0) sharpen(from, fine, filters.sharpen);
    if (filters.invert)
        for (float& sample : from.samples)
            sample = 1 - sample;
    return from;
}

Picture filtered(const Picture& from, const StampFilters& filters, double scale) {
    if (!filters.any()) return from;
    return grey_picture(filtered(brightness_of(from), filters, scale));
}

} // namespace fettle::photos
