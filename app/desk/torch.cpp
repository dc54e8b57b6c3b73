#include "desk/torch.h"

#include "base/text.h"
#include "base/whole_file.h"
#include "relief/align.h"

#include <stb_image_write.h>

#include <algorithm>
#include <cmath>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using relief::Rectangle;

constexpr int kSearchSide = 600; // samples that the ball is looked for on
constexpr int kLeastMargin = 24; // pixels around the region, for photos that moved

Failure refused(const std::string& sentence) {
    return {FailureKind::invalid, sentence};
}

std::string in_words(const Rectangle& part) {
    return std::to_string(part.x) + "," + std::to_string(part.y) + "," +
           std::to_string(part.width) + "," + std::to_string(part.height);
}

// What of each photo is kept: the region and a margin around it, as far as the photo goes.
Result<Rectangle> window_around(const Rectangle& region, photos::Size photo) {
    const std::int64_t right = std::int64_t{region.x} + region.width;
    const std::int64_t below = std::int64_t{region.y} + region.height;
    if (region.x < 0 || region.y < 0 || region.width < 32 || region.height < 32 ||
        right > photo.width || below > photo.height)
        return refused("The region " + in_words(region) +
                       " is not accepted: it is x,y,w,h of 32 "
                       "pixels a side or more within the photos of " +
                       std::to_string(photo.width) + " by " + std::to_string(photo.height) + ".");
    const int margin = std::max(kLeastMargin, std::max(region.width, region.height) / 20);
    Rectangle window{std::max(0, region.x - margin), std::max(0, region.y - margin), 0, 0};
    window.width = std::min(photo.width, region.x + region.width + margin) - window.x;
    window.height = std::min(photo.height, region.y + region.height + margin) - window.y;
    if (std::int64_t{window.width} * window.height > kMostTorchPixels)
        return refused("The region is of " +
                       std::to_string(std::int64_t{region.width} * region.height / 1'000'000) +
                       " million pixels; choose one of 14 million or less around the stamping.");
    return window;
}

struct Photographs {
    std::vector<relief::Shot> shots; // the window of each
    std::vector<relief::Grid> small; // the whole of each, where the ball is looked for
    int by = 1;
    photos::Size size;
    Rectangle region, window;
};

Done take(Photographs& all, const TorchWish& wish, const fs::path& file,
          const photos::Picture& picture) {
    if (all.shots.empty()) {
        all.size = picture.size();
        all.region = wish.region.value_or(Rectangle{0, 0, picture.width, picture.height});
        const auto window = window_around(all.region, all.size);
        if (!window) return window.failure();
        all.window = *window;
        const int longest = std::max(picture.width, picture.height);
        all.by = std::max(1, (longest + kSearchSide - 1) / kSearchSide);
    }
    if (picture.size() != all.size)
        return refused("The photo " + fettle::quoted(file.native()) + " is " +
                       std::to_string(picture.width) + " by " + std::to_string(picture.height) +
                       " pixels and the first " + std::to_string(all.size.width) + " by " +
                       std::to_string(all.size.height) +
                       ": a torch set is of one size, taken from one place.");
    const relief::Shot whole = relief::shot_of(picture.rgba, picture.width, picture.height);
    all.shots.push_back(relief::cut_out(whole, all.window));
    if (wish.lamps == Lamps::ball_sought) all.small.push_back(relief::light_of(whole, all.by));
    return done();
}

Result<Photographs> photographs(photos::Decoder& decoder, const TorchWish& wish) {
    const std::size_t count = wish.photos.size();
    if (count < std::size_t(relief::kLeastShots) || count > std::size_t(relief::kMostShots))
        return refused("A torch set is of " + std::to_string(relief::kLeastShots) + " to " +
                       std::to_string(relief::kMostShots) + " photos, not of " +
                       std::to_string(count) + ".");
    Photographs all;
    for (std::size_t i = 0; i < count; ++i) {
        if (wish.work.stop.stop_requested()) return relief::stopped();
        if (wish.work.progress) wish.work.progress(i, count, wish.photos[i].filename().string());
        const auto picture = decoder.picture(wish.photos[i]);
        if (!picture) return picture.failure();
        if (auto taken = take(all, wish, wish.photos[i], *picture); !taken) return taken.failure();
    }
    return all;
}

// Looked for in the photos as the first one sees them; their poses lie about the window's middle.
Result<relief::Ball> sought_ball(const Photographs& all, const std::vector<relief::Pose>& poses,
                                 const relief::Work& work) {
    std::vector<relief::Grid> laid;
    for (std::size_t i = 0; i < poses.size(); ++i) {
        const relief::PoseMap map(poses[i], (all.window.width - 1) / 2.0,
                                  (all.window.height - 1) / 2.0);
        const relief::Grid& small = all.small[i];
        const double x = all.by * (small.width - 1) / 2.0 - all.window.x;
        const double y = all.by * (small.height - 1) / 2.0 - all.window.y;
        const relief::Point there = map(x, y);
        laid.push_back(relief::posed(
            small, {(there.x - x) / all.by, (there.y - y) / all.by, poses[i].turn, poses[i].scale},
            small.width, small.height));
    }
    auto found = relief::find_ball(laid, work);
    if (!found) return found.failure();
    const double half = (all.by - 1) / 2.0;
    return relief::Ball{found->x * all.by + half, found->y * all.by + half, found->radius * all.by};
}

// The ball moves in the photos as the part does.
Result<std::vector<relief::Direction>> lights_by(photos::Decoder& decoder, const TorchWish& wish,
                                                 const Photographs& all, const relief::Ball& ball,
                                                 const std::vector<relief::Pose>& poses) {
    std::vector<relief::Direction> towards;
    for (std::size_t i = 0; i < poses.size(); ++i) {
        if (wish.work.stop.stop_requested()) return relief::stopped();
        const relief::PoseMap map(poses[i], (all.window.width - 1) / 2.0,
                                  (all.window.height - 1) / 2.0);
        const relief::Point middle = map(ball.x - all.window.x, ball.y - all.window.y);
        const double x = middle.x + all.window.x, y = middle.y + all.window.y;
        const double around = ball.radius + 4;
        const int left = std::max(0, int(x - around)), top = std::max(0, int(y - around));
        const int right = std::min(all.size.width, int(x + around) + 1);
        const int below = std::min(all.size.height, int(y + around) + 1);
        if (!(ball.radius > 0) || right <= left || below <= top)
            return refused("The ball does not lie within the photos of " +
                           std::to_string(all.size.width) + " by " +
                           std::to_string(all.size.height) + " pixels.");
        const auto seen = decoder.region(wish.photos[i], {left, top, right - left, below - top, 1});
        if (!seen) return seen.failure();
        const relief::BallView view{
            relief::light_of(relief::shot_of(seen->rgba, seen->width, seen->height)),
            {x - left, y - top, ball.radius * poses[i].scale}};
        auto light = relief::light_from_ball(view, i);
        if (!light) return light.failure();
        towards.push_back(*light);
    }
    return towards;
}

} // namespace

Result<TorchSet> work_torch_set(photos::Decoder& decoder, const TorchWish& wish) {
    auto all = photographs(decoder, wish);
    if (!all) return all.failure();
    std::vector<relief::Pose> poses(all->shots.size());
    if (!wish.still) {
        auto laid = relief::aligned(all->shots, relief::Freedom::similarity, wish.work);
        if (!laid) return laid.failure();
        poses = std::move(*laid);
    }
    TorchSet set{{}, all->region, {}};
    std::optional<std::vector<relief::Direction>> towards;
    if (wish.lamps != Lamps::unknown) {
        const auto ball = wish.lamps == Lamps::ball_given ? Result<relief::Ball>(wish.ball)
                                                          : sought_ball(*all, poses, wish.work);
        if (!ball) return ball.failure();
        auto lights = lights_by(decoder, wish, *all, *ball, poses);
        if (!lights) return lights.failure();
        set.ball = *ball;
        towards = std::move(*lights);
    }
    const Rectangle part{all->region.x - all->window.x, all->region.y - all->window.y,
                         all->region.width, all->region.height};
    auto relief = relief::relief_of(all->shots, poses, part, towards, wish.work);
    if (!relief) return relief.failure();
    set.relief = std::move(*relief);
    return set;
}

Done check_new_file(const fs::path& file) {
    std::error_code error;
    if (fs::exists(fs::symlink_status(file, error)))
        return Failure{FailureKind::refused, "There is something at " +
                                                 fettle::quoted(file.native()) +
                                                 " already: give the picture another name."};
    return done();
}

Done write_grey_png(const relief::GreyPicture& picture, const fs::path& file) {
    if (auto free = check_new_file(file); !free) return free;
    std::string bytes;
    const auto add = [](void* to, void* from, int count) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(from), std::size_t(count));
    };
    if (stbi_write_png_to_func(add, &bytes, picture.width, picture.height, 1,
                               picture.samples.data(), picture.width) == 0)
        return Failure{FailureKind::io, "The picture could not be made into a PNG."};
    return write_whole(file, bytes);
}

} // namespace fettle::desk
