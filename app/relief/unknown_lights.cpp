#include "relief/factors.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

using Vector = Eigen::Vector3d;
using Matrix = Eigen::Matrix3d;
using Settings = Eigen::Matrix<double, 9, 1>; // a Matrix row by row

// How far from true each of what is asked for may be: of the strengths, of the part's facing the
// camera, of the torch's height above it (common practice, no source).
constexpr double kStrengthOff = 0.1, kLean = 0.15, kHeightOff = 0.5;
constexpr double kUsualHeight = 0.7; // sine of the torch's height above the part
constexpr double kSlopeSettled = 0.06;

Failure refused(const std::string& sentence) {
    return {FailureKind::invalid, sentence};
}

// The quadratic form that is least for [P3 x P1, P3 x P2] of the wanted matrix with rows P1, P2,
// P3: (P3 x P1) . (b x db/dy) = (P3 x P2) . (b x db/dx) wherever b is of one surface.
Eigen::Matrix<double, 6, 6> integrability(const Factors& factors) {
    Eigen::Matrix<double, 6, 6> form = Eigen::Matrix<double, 6, 6>::Zero();
    const auto unit = [&](int x, int y) {
        return factors.normals[std::size_t(y) * factors.width + x].normalized();
    };
    const auto in = [&](int x, int y) { return factors.in[std::size_t(y) * factors.width + x]; };
    for (int y = 1; y + 1 < factors.height; ++y)
        for (int x = 1; x + 1 < factors.width; ++x) {
            if (!in(x, y) || !in(x - 1, y) || !in(x + 1, y) || !in(x, y - 1) || !in(x, y + 1))
                continue;
            const Vector here = unit(x, y);
            Eigen::Matrix<double, 6, 1> row;
            row << here.cross(unit(x, y + 1) - unit(x, y - 1)),
                -here.cross(unit(x + 1, y) - unit(x - 1, y));
            form += row * row.transpose();
        }
    return form;
}

Matrix rows_of(const Settings& settings) {
    return Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(settings.data());
}

// What is asked of the matrix, each against how far it may be off.
struct Asked {
    Eigen::Matrix<double, 6, 6> form; // its root: six figures that should be 0
    Eigen::MatrixXd lights;
    Vector middle; // of the normals as factored

    Eigen::VectorXd left(const Settings& settings) const {
        const Matrix p = rows_of(settings);
        const Vector p1 = p.row(0), p2 = p.row(1), p3 = p.row(2);
        Eigen::Matrix<double, 6, 1> crossed;
        crossed << p3.cross(p1), p3.cross(p2);
        const int count = int(lights.rows());
        Eigen::VectorXd all(6 + count + 3);
        all.head<6>() = form * crossed / std::max(1e-12, crossed.norm());
        const Matrix to_lights = p.inverse();
        double height = 0;
        for (int k = 0; k < count; ++k) {
            const Vector light = lights.row(k) * to_lights;
            all[6 + k] = (light.squaredNorm() - 1) / (2 * kStrengthOff);
            height += light.z() / std::max(1e-12, light.norm()) / count;
        }
        const double facing = p3.dot(middle);
        all[6 + count] = p1.dot(middle) / facing / kLean;
        all[7 + count] = p2.dot(middle) / facing / kLean;
        all[8 + count] = (height - kUsualHeight) / kHeightOff;
        return all;
    }
};

// Levenberg and Marquardt, slopes by differences. Gives what is left over.
double settle(const Asked& asked, Settings& settings) {
    double damping = 1e-3;
    Eigen::VectorXd left = asked.left(settings);
    for (int round = 0; round < 200 && damping < 1e10; ++round) {
        Eigen::MatrixXd slope(left.size(), 9);
        for (int i = 0; i < 9; ++i) {
            Settings moved = settings;
            const double step = 1e-6 * std::max(1.0, std::abs(settings[i]));
            moved[i] += step;
            slope.col(i) = (asked.left(moved) - left) / step;
        }
        Eigen::MatrixXd normal = slope.transpose() * slope;
        normal.diagonal() *= 1 + damping;
        normal.diagonal().array() += 1e-12;
        const Settings tried = settings - Settings(normal.ldlt().solve(slope.transpose() * left));
        const Eigen::VectorXd then = asked.left(tried);
        if (then.allFinite() && then.squaredNorm() < left.squaredNorm()) {
            const bool still = left.squaredNorm() - then.squaredNorm() < 1e-12;
            settings = tried, left = then, damping /= 5;
            if (still) break;
        } else {
            damping *= 4;
        }
    }
    return left.squaredNorm();
}

// A first matrix: the third row towards the middle of the normals, the first two from what is left
// of integrability when the part is nearly flat, where P3 is known.
Settings first_guess(const Asked& asked, const Eigen::Matrix<double, 6, 6>& form, double steep) {
    const Vector p3 = asked.middle.normalized();
    Matrix flat; // two axes square to P3
    flat.col(0) = p3.unitOrthogonal();
    flat.col(1) = p3.cross(flat.col(0));
    Eigen::Matrix<double, 6, 4> crossed = Eigen::Matrix<double, 6, 4>::Zero();
    crossed.block<3, 2>(0, 0) = flat.leftCols<2>();
    crossed.block<3, 2>(3, 2) = flat.leftCols<2>();
    const Eigen::Matrix4d within = crossed.transpose() * form * crossed;
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix4d> axes(within);
    const Eigen::Matrix<double, 6, 1> best = crossed * axes.eigenvectors().col(0);
    Eigen::Matrix<double, 3, 3, Eigen::RowMajor> p;
    p.row(0) = best.head<3>().cross(p3); // P3 x (c x P3) = c
    p.row(1) = best.tail<3>().cross(p3);
    p.topRows<2>() *= steep / std::max(1e-9, p.topRows<2>().norm());
    p.row(2) = p3;
    // Lights of strength 1 on the mean.
    const double strength = (asked.lights * p.inverse()).rowwise().norm().mean();
    const Eigen::Matrix<double, 3, 3, Eigen::RowMajor> scaled = p * strength;
    return Eigen::Map<const Settings>(scaled.data());
}

UnknownLights lights_by(const Matrix& p, const Factors& factors, const Vector& middle) {
    UnknownLights found;
    // Normals towards the camera: with all signs turned nothing that is seen changes.
    const double sign = p.row(2).dot(middle) < 0 ? -1 : 1;
    const Eigen::MatrixXd lights = sign * factors.lights * p.inverse();
    const double mean = lights.rowwise().norm().mean();
    double sum = 0, squares = 0;
    for (int k = 0; k < lights.rows(); ++k) {
        const Vector light = lights.row(k);
        const Vector towards = light.normalized();
        found.lights.push_back({{towards.x(), towards.y(), towards.z()}, light.norm() / mean});
        sum += towards.z(), squares += towards.z() * towards.z();
    }
    const double count = double(lights.rows());
    const double spread = std::sqrt(std::max(0.0, squares / count - sum * sum / count / count));
    found.slope_settled = spread > kSlopeSettled && count >= 6;
    return found;
}

} // namespace

Result<UnknownLights> unknown_lights(const SmallSet& set) {
    if (set.light.size() < std::size_t(kLeastShots))
        return refused("Without a ball a torch set needs 4 photos or more, not " +
                       std::to_string(set.light.size()) + ".");
    const Factors factors = factors_of(set);
    if (!factors.enough())
        return refused("Too little of the region is lit in all photos to tell where the torch "
                       "stood: choose a larger region, or lay a shiny ball beside the part.");
    if (!factors.tells())
        return refused("The photos differ too little to tell where the torch stood: move it all "
                       "around the part, at several heights.");
    const Eigen::Matrix<double, 6, 6> form = integrability(factors);
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, 6, 6>> axes(form);
    const double most = axes.eigenvalues()[5];
    if (!(most > 0))
        return refused("The region shows no relief to tell by where the torch stood: lay a shiny "
                       "ball beside the part.");
    Asked asked;
    // What is not of one surface in the best case is noise: figures are counted against that.
    const double noise = std::max(axes.eigenvalues()[0], 1e-6 * most);
    asked.form = axes.eigenvectors() *
                 (axes.eigenvalues().cwiseMax(0) / noise).cwiseSqrt().asDiagonal() *
                 axes.eigenvectors().transpose();
    asked.lights = factors.lights;
    asked.middle = Vector::Zero();
    for (std::size_t at = 0; at < factors.in.size(); ++at)
        if (factors.in[at]) asked.middle += factors.normals[at].normalized();
    asked.middle.normalize();
    double best = INFINITY;
    Settings found = Settings::Zero();
    for (const double steep : {0.3, 1.0, 3.0, 10.0}) {
        Settings tried = first_guess(asked, form, steep);
        if (const double left = settle(asked, tried); left < best) best = left, found = tried;
    }
    if (!std::isfinite(best))
        return refused("The lights of the photos do not fit one surface: lay a shiny ball beside "
                       "the part.");
    return lights_by(rows_of(found), factors, asked.middle);
}

} // namespace fettle::relief
