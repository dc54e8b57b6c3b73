#include "relief/fourier.h"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace fettle::relief {
namespace {

using Complex = std::complex<double>;
using std::numbers::pi;

constexpr int kColumns = 16; // taken out together: a row's neighbours come with it from memory

// Rows, then columns, in place.
void transform(std::vector<Complex>& square, int side, bool inverse) {
    Eigen::FFT<double> fft;
    std::vector<Complex> line(side), out(side);
    const auto run = [&] { inverse ? fft.inv(out, line) : fft.fwd(out, line); };
    for (int y = 0; y < side; ++y) {
        const auto row = square.begin() + std::ptrdiff_t(y) * side;
        std::copy_n(row, side, line.begin());
        run();
        std::ranges::copy(out, row);
    }
    for (int x = 0; x < side; ++x) {
        for (int y = 0; y < side; ++y)
            line[y] = square[std::size_t(y) * side + x];
        run();
        for (int y = 0; y < side; ++y)
            square[std::size_t(y) * side + x] = out[y];
    }
}

// Columns of the grid as lines one after another, and back.
void columns_out(const Grid& grid, int first, int count, std::vector<double>& lines) {
    for (int y = 0; y < grid.height; ++y)
        for (int x = 0; x < count; ++x)
            lines[std::size_t(x) * grid.height + y] = double(grid.at(first + x, y));
}
void columns_in(Grid& grid, int first, int count, const std::vector<double>& lines) {
    for (int y = 0; y < grid.height; ++y)
        for (int x = 0; x < count; ++x)
            grid.at(first + x, y) = float(lines[std::size_t(x) * grid.height + y]);
}

void through(CosineLines& cosine, Way way, std::vector<double>& lines, int length) {
    const int count = int(lines.size()) / length;
    for (int at = 0; at + 1 < count; at += 2) {
        double* one = lines.data() + std::size_t(at) * length;
        way == Way::forward ? cosine.forward(one, one + length) : cosine.inverse(one, one + length);
    }
}

} // namespace

int quick_length(int least) {
    for (int length = std::max(1, least);; ++length) {
        int left = length;
        for (const int prime : {2, 3, 5})
            while (left % prime == 0)
                left /= prime;
        if (left == 1) return length;
    }
}

struct CosineLines::Inside {
    Eigen::FFT<double> fft;
    std::vector<Complex> turns, line, out; // turns: exp(-i pi k / 2 N)
};

CosineLines::CosineLines(int length) : inside_(std::make_unique<Inside>()) {
    inside_->line.resize(length);
    inside_->out.resize(length);
    for (int k = 0; k < length; ++k)
        inside_->turns.push_back(std::polar(1.0, -pi * k / (2.0 * length)));
}

CosineLines::~CosineLines() = default;

void CosineLines::forward(double* one, double* other) {
    auto& [fft, turns, line, out] = *inside_;
    const int length = int(line.size());
    // Even samples upwards, odd ones back down.
    for (int n = 0; n < length; ++n) {
        const int at = n % 2 == 0 ? n / 2 : length - 1 - n / 2;
        line[at] = {one[n], other[n]};
    }
    fft.fwd(out, line);
    for (int k = 0; k < length; ++k) {
        const Complex mirrored = std::conj(out[(length - k) % length]);
        const Complex first = 0.5 * (out[k] + mirrored);
        const Complex second = Complex(0, -0.5) * (out[k] - mirrored);
        one[k] = (turns[k] * first).real();
        other[k] = (turns[k] * second).real();
    }
}

void CosineLines::inverse(double* one, double* other) {
    auto& [fft, turns, line, out] = *inside_;
    const int length = int(line.size());
    for (int k = 0; k < length; ++k) {
        const int back = length - k;
        const Complex first(one[k], k == 0 ? 0 : -one[back]);
        const Complex second(other[k], k == 0 ? 0 : -other[back]);
        line[k] = std::conj(turns[k]) * (first + Complex(0, 1) * second);
    }
    fft.inv(out, line);
    for (int n = 0; n < length; ++n) {
        const int at = n % 2 == 0 ? n / 2 : length - 1 - n / 2;
        one[n] = out[at].real();
        other[n] = out[at].imag();
    }
}

Done cosine_transform(Grid& grid, Way way, const Work& work, const std::string& what) {
    const int pairs = (grid.height + kColumns - 1) / kColumns;
    auto rows = in_pieces(pairs, work, what, [&](int piece) {
        CosineLines cosine(grid.width);
        const int first = piece * kColumns, count = std::min(kColumns, grid.height - first);
        std::vector<double> lines(std::size_t(count + count % 2) * grid.width, 0.0);
        std::copy_n(grid.row(first), std::size_t(count) * grid.width, lines.begin());
        through(cosine, way, lines, grid.width);
        std::transform(lines.begin(), lines.begin() + std::ptrdiff_t(count) * grid.width,
                       grid.row(first), [](double value) { return float(value); });
    });
    if (!rows) return rows;
    const int blocks = (grid.width + kColumns - 1) / kColumns;
    return in_pieces(blocks, work, what, [&](int piece) {
        CosineLines cosine(grid.height);
        const int first = piece * kColumns, count = std::min(kColumns, grid.width - first);
        std::vector<double> lines(std::size_t(count + count % 2) * grid.height, 0.0);
        columns_out(grid, first, count, lines);
        through(cosine, way, lines, grid.height);
        columns_in(grid, first, count, lines);
    });
}

Grid correlated(const Grid& still, const Grid& moved, Weigh weigh, int side) {
    // Two real pictures in one transform: F = A + i B.
    std::vector<Complex> square(std::size_t(side) * side);
    for (int y = 0; y < still.height; ++y)
        for (int x = 0; x < still.width; ++x)
            square[std::size_t(y) * side + x] += Complex(double(still.at(x, y)), 0);
    for (int y = 0; y < moved.height; ++y)
        for (int x = 0; x < moved.width; ++x)
            square[std::size_t(y) * side + x] += Complex(0, double(moved.at(x, y)));
    transform(square, side, false);
    std::vector<Complex> product(square.size());
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            const Complex here = square[std::size_t(y) * side + x];
            const Complex there = std::conj(
                square[std::size_t((side - y) % side) * side + std::size_t((side - x) % side)]);
            const Complex a = 0.5 * (here + there), b = Complex(0, -0.5) * (here - there);
            const Complex cross = a * std::conj(b);
            const double size = std::abs(cross);
            product[std::size_t(y) * side + x] = weigh == Weigh::products ? cross
                                                 : size > 1e-30           ? cross / size
                                                                          : Complex();
        }
    transform(product, side, true);
    Grid answer(side, side);
    for (std::size_t i = 0; i < product.size(); ++i)
        answer.samples[i] = float(product[i].real());
    return answer;
}

} // namespace fettle::relief
