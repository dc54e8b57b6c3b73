#include "ui/pixel_fetch.h"

#include "photos/thumbs.h"

#include <algorithm>
#include <exception>
#include <optional>
#include <utility>

namespace fettle::ui {
namespace {

// What one worker holds: a decoder, and the thumbnail cache where one can be had.
class Bench {
  public:
    explicit Bench(const PixelFetch::Settings& settings) : decoder_(settings.decode_program) {
        if (auto cache = photos::ThumbnailCache::open(settings.cache_folder))
            cache_ = std::move(*cache);
    }

    Result<photos::Picture> fetch(const Errand& errand) {
        try {
            if (errand.kind == Errand::Kind::thumbnail) return thumbnail(errand);
            if (errand.kind == Errand::Kind::whole)
                return decoder_.picture(errand.file, errand.longest_side);
            return decoder_.region(errand.file, errand.region);
        } catch (const std::exception& trouble) {
            return Failure{FailureKind::io,
                           "The photo " + errand.file.filename().string() +
                               " could not be fetched: there is not enough memory or disk.",
                           trouble.what()};
        }
    }

  private:
    Result<photos::Picture> thumbnail(const Errand& errand) {
        if (cache_)
            if (const auto kept = cache_->find(errand.hash))
                if (auto picture = photos::decode_thumbnail(*kept)) return picture;
        auto look = decoder_.look(errand.file);
        if (!look) return look.failure();
        // A cache that cannot be written only means that the picture is made anew next time.
        if (cache_) (void)cache_->put(errand.hash, look->thumbnail);
        return photos::decode_thumbnail(look->thumbnail);
    }

    photos::Decoder decoder_;
    std::optional<photos::ThumbnailCache> cache_;
};

} // namespace

PixelFetch::PixelFetch(Settings settings) : settings_(std::move(settings)) {
    for (unsigned i = 0; i < settings_.workers; ++i)
        workers_.emplace_back([this](const std::stop_token& stop) { work(stop); });
}

PixelFetch::~PixelFetch() {
    for (auto& worker : workers_)
        worker.request_stop();
    changed_.notify_all();
    workers_.clear();
}

void PixelFetch::new_frame() {
    const std::scoped_lock hold(held_);
    ++frame_;
    std::erase_if(waiting_, [this](const Waiting& waiting) { return waiting.frame + 2 < frame_; });
}

void PixelFetch::ask(Errand errand) {
    const std::scoped_lock hold(held_);
    if (under_way_.contains(errand.key)) return;
    const auto same = std::ranges::find_if(
        waiting_, [&](const Waiting& waiting) { return waiting.errand.key == errand.key; });
    if (same == waiting_.end()) {
        waiting_.push_back({std::move(errand), frame_, ++turn_});
        changed_.notify_one();
    } else if (same->frame != frame_) {
        same->frame = frame_;
        same->turn = ++turn_;
    }
}

std::vector<Fetched> PixelFetch::take(std::size_t most_bytes) {
    const std::scoped_lock hold(held_);
    std::vector<Fetched> taken;
    std::size_t bytes = 0;
    auto fresh = fetched_.begin();
    for (; fresh != fetched_.end() && bytes < most_bytes; ++fresh) {
        if (fresh->picture) bytes += fresh->picture->rgba.size();
        under_way_.erase(fresh->key);
        taken.push_back(std::move(*fresh));
    }
    fetched_.erase(fetched_.begin(), fresh);
    return taken;
}

void PixelFetch::wait_idle() {
    std::unique_lock hold(held_);
    changed_.wait(hold, [this] { return waiting_.empty() && fetching_ == 0; });
}

std::vector<PixelFetch::Waiting>::iterator PixelFetch::next() {
    return std::ranges::min_element(waiting_, [](const Waiting& one, const Waiting& other) {
        return one.frame != other.frame ? one.frame > other.frame : one.turn < other.turn;
    });
}

void PixelFetch::work(const std::stop_token& stop) {
    std::optional<Bench> bench; // opened with the first errand
    std::unique_lock hold(held_);
    while (changed_.wait(hold, stop, [this] { return !waiting_.empty(); })) {
        if (stop.stop_requested()) return;
        const auto chosen = next();
        const Errand errand = std::move(chosen->errand);
        waiting_.erase(chosen);
        under_way_.insert(errand.key);
        ++fetching_;
        hold.unlock();
        if (!bench) bench.emplace(settings_);
        auto picture = bench->fetch(errand);
        hold.lock();
        --fetching_;
        fetched_.push_back({errand.key, errand.hash, std::move(picture)});
        changed_.notify_all();
        if (!settings_.wake) continue;
        hold.unlock();
        settings_.wake();
        hold.lock();
    }
}

} // namespace fettle::ui
