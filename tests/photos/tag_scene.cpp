#include "photos/tag_scene.h"

#include <BarcodeFormat.h>
#include <BitMatrix.h>
#include <MultiFormatWriter.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace tag_tests {
namespace {

using fettle::photos::Picture;

constexpr double kInk = 22, kCard = 232; // of 255
constexpr int kQuiet = 5;                // modules of white card around the code
constexpr int kFine = 4;                 // samples a pixel, each way

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

// From pixels to modules on the card, whose middle is (0, 0).
class Camera {
  public:
    Camera(const TagView& view, int width, int height)
        : middle_x_(view.x * width),
          middle_y_(view.y * height),
          focus_(1.2 * width),
          distance_(focus_ / view.module) {
        const double turn = radians(view.turn), tilt = radians(view.tilt),
                     axis = radians(view.tilt_axis);
        const double ax = std::cos(axis), ay = std::sin(axis);
        // Rodrigues' formula about (ax, ay, 0), applied to the turned unit vectors of the card.
        const auto rotated = [&](double x, double y) -> std::array<double, 3> {
            const double along = ax * x + ay * y, c = std::cos(tilt), s = std::sin(tilt);
            return {x * c + ax * along * (1 - c), y * c + ay * along * (1 - c),
                    (ax * y - ay * x) * s};
        };
        u_ = rotated(std::cos(turn), std::sin(turn));
        v_ = rotated(-std::sin(turn), std::cos(turn));
    }

    // Card coordinates of what is seen at a pixel.
    std::array<double, 2> on_card(double px, double py) const {
        // (u U + v V + (0, 0, d)) = t (x, y, 1): three linear equations in u, v and t.
        const double x = (px - middle_x_) / focus_, y = (py - middle_y_) / focus_;
        const double a = u_[0] - x * u_[2], b = v_[0] - x * v_[2];
        const double c = u_[1] - y * u_[2], d = v_[1] - y * v_[2];
        const double determinant = a * d - b * c;
        const double right = x * distance_, below = y * distance_;
        return {(right * d - b * below) / determinant, (a * below - right * c) / determinant};
    }

  private:
    double middle_x_, middle_y_, focus_, distance_;
    std::array<double, 3> u_, v_;
};

// A piece of the picture in doubles, three channels.
struct Patch {
    int x, y, width, height;
    std::vector<double> samples;
    double& at(int px, int py, int channel) {
        return samples[(std::size_t(py) * width + px) * 3 + channel];
    }
};

void blur_lines(Patch& patch, double sigma, bool across) {
    const int reach = static_cast<int>(std::ceil(3 * sigma));
    std::vector<double> weights;
    double sum = 0;
    for (int at = -reach; at <= reach; ++at)
        sum += weights.emplace_back(std::exp(-at * at / (2 * sigma * sigma)));
    const int lines = across ? patch.height : patch.width;
    const int length = across ? patch.width : patch.height;
    std::vector<double> line(length);
    for (int number = 0; number < lines; ++number)
        for (int channel = 0; channel < 3; ++channel) {
            const auto sample = [&](int at) -> double& {
                return across ? patch.at(at, number, channel) : patch.at(number, at, channel);
            };
            for (int at = 0; at < length; ++at)
                line[at] = sample(at);
            for (int at = 0; at < length; ++at) {
                double value = 0;
                for (int step = -reach; step <= reach; ++step)
                    value += weights[step + reach] * line[std::clamp(at + step, 0, length - 1)];
                sample(at) = value / sum;
            }
        }
}

void draw_card(Patch& patch, const ZXing::BitMatrix& code, const Camera& camera,
               const TagView& view) {
    const double half_code = code.width() / 2.0, half_card = half_code + kQuiet;
    const double lx = std::cos(radians(view.light_from)), ly = std::sin(radians(view.light_from));
    for (int y = 0; y < patch.height; ++y)
        for (int x = 0; x < patch.width; ++x) {
            double covered = 0, card = 0;
            for (int fine = 0; fine < kFine * kFine; ++fine) {
                const auto [u, v] = camera.on_card(patch.x + x + (fine % kFine + 0.5) / kFine,
                                                   patch.y + y + (fine / kFine + 0.5) / kFine);
                if (std::abs(u) >= half_card || std::abs(v) >= half_card) continue;
                ++covered;
                const double column = std::floor(u + half_code), row = std::floor(v + half_code);
                const bool is_ink = column >= 0 && row >= 0 && column < code.width() &&
                                    row < code.height() && code.get(int(column), int(row));
                // Brightest on one side of the card, 1/light of that on the other.
                const double way = std::clamp((u * lx + v * ly) / half_card / 2 + 0.5, 0.0, 1.0);
                card += (is_ink ? kInk : kCard) * (1 + way * (1 / view.light - 1));
            }
            constexpr double kSamples = kFine * kFine;
            for (int channel = 0; channel < 3; ++channel) {
                double& sample = patch.at(x, y, channel);
                sample = sample * (1 - covered / kSamples) + card / kSamples;
            }
        }
}

Patch patch_around(const Picture& picture, const TagView& view, int modules) {
    const double reach = (modules / 2.0 + kQuiet) * 1.6 * view.module + 4;
    const int left = std::max(0, int(view.x * picture.width - reach));
    const int top = std::max(0, int(view.y * picture.height - reach));
    const int right = std::min(picture.width, int(view.x * picture.width + reach));
    const int bottom = std::min(picture.height, int(view.y * picture.height + reach));
    Patch patch{left, top, right - left, bottom - top, {}};
    patch.samples.resize(std::size_t(patch.width) * patch.height * 3);
    for (int y = 0; y < patch.height; ++y)
        for (int x = 0; x < patch.width; ++x)
            for (int channel = 0; channel < 3; ++channel)
                patch.at(x, y, channel) = std::to_integer<int>(
                    picture.rgba[(std::size_t(top + y) * picture.width + left + x) * 4 + channel]);
    return patch;
}

std::byte sample_of(double value) {
    return static_cast<std::byte>(std::clamp(std::lround(value), 0l, 255l));
}

// Noise that changes smoothly over `grain` pixels, -1 to 1, added onto every pixel.
void add_noise(std::vector<double>& field, int width, int height, double grain, double strength,
               std::mt19937& random) {
    const int columns = int(width / grain) + 2, rows = int(height / grain) + 2;
    std::uniform_real_distribution<double> any(-1, 1);
    std::vector<double> knots(std::size_t(columns) * rows);
    std::ranges::generate(knots, [&] { return any(random); });
    for (int y = 0; y < height; ++y) {
        const double fy = y / grain;
        const int row = int(fy);
        for (int x = 0; x < width; ++x) {
            const double fx = x / grain;
            const int column = int(fx);
            const double* knot = knots.data() + std::size_t(row) * columns + column;
            const double across = fx - column, down = fy - row;
            field[std::size_t(y) * width + x] +=
                strength * ((knot[0] * (1 - across) + knot[1] * across) * (1 - down) +
                            (knot[columns] * (1 - across) + knot[columns + 1] * across) * down);
        }
    }
}

} // namespace

void draw_tag(Picture& picture, const std::string& text, const TagView& view,
              std::mt19937& random) {
    const auto code = ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
                          .setMargin(0)
                          .setEccLevel(6)
                          .encode(text, 1, 1);
    auto patch = patch_around(picture, view, code.width());
    draw_card(patch, code, Camera(view, picture.width, picture.height), view);
    if (const double sigma = view.blur * view.module; sigma > 0.05)
        for (bool across : {true, false})
            blur_lines(patch, sigma, across);
    std::normal_distribution<double> noise(0, view.noise);
    for (int y = 0; y < patch.height; ++y)
        for (int x = 0; x < patch.width; ++x) {
            const double grain = noise(random);
            for (int channel = 0; channel < 3; ++channel)
                picture
                    .rgba[(std::size_t(patch.y + y) * picture.width + patch.x + x) * 4 + channel] =
                    sample_of(patch.at(x, y, channel) + grain);
        }
}

Picture workshop_texture(int width, int height, std::mt19937& random) {
    std::vector<double> field(std::size_t(width) * height, 110.0);
    for (const auto& [grain, strength] :
         {std::pair{width / 3.0, 50.0}, {width / 17.0, 30.0}, {23.0, 25.0}, {5.0, 20.0}})
        add_noise(field, width, height, grain, strength, random);
    std::vector<double> rust(field.size());
    add_noise(rust, width, height, width / 9.0, 40, random);
    Picture picture{width, height, std::vector<std::byte>(field.size() * 4)};
    std::uniform_int_distribution<int> grain(-9, 9);
    for (std::size_t at = 0; at < field.size(); ++at) {
        const double fine = field[at] + grain(random);
        picture.rgba[4 * at] = sample_of(fine + rust[at]);
        picture.rgba[4 * at + 1] = sample_of(fine + rust[at] * 0.3);
        picture.rgba[4 * at + 2] = sample_of(fine - rust[at] * 0.5);
        picture.rgba[4 * at + 3] = std::byte{255};
    }
    return picture;
}

} // namespace tag_tests
