#include "ui/pictures/pixel_fetch.h"

#include "photos/thumbs.h"
#include "photos/tile_cache.h"

#include <algorithm>
#include <exception>
#include <optional>
#include <utility>

namespace fettle::ui {
namespace {

// Pictures that have come and wait for the UI thread: no more is fetched beyond this.
constexpr std::size_t kMostWaitingBytes = 64u << 20;

// What one worker holds: a decoder, and the thumbnail cache where one can be had.
class Bench {
  public:
    explicit Bench(const PixelFetch::Settings& settings)
        : decoder_(settings.decode_program), tiles_(settings.cache_folder) {
        if (auto cache = photos::ThumbnailCache::open(settings.cache_folder))
            cache_ = std::move(*cache);
    }

    Fetched fetch(const Errand& errand, const std::atomic<bool>* stop) {
        Fetched fetched{errand.key, errand.hash, photos::Picture{}};
        if (errand.kind != Errand::Kind::cut) {
            fetched.picture = picture(errand);
            return fetched;
        }
        auto tiles = tiles_.find_or_cut(errand.hash, errand.file, decoder_, *stop);
        if (tiles)
            fetched.tiles = std::move(*tiles);
        else
            fetched.picture = tiles.failure();
        return fetched;
    }

  private:
    Result<photos::Picture> picture(const Errand& errand) {
        try {
            if (errand.kind == Errand::Kind::thumbnail) return thumbnail(errand);
            if (errand.kind == Errand::Kind::whole)
                return decoder_.picture(errand.file, errand.longest_side);
            if (errand.kind == Errand::Kind::tile) return errand.tiles->tile(errand.place);
            return region(errand);
        } catch (const std::exception& trouble) {
            return Failure{FailureKind::io,
                           "The photo " + errand.file.filename().string() +
                               " could not be fetched: there is not enough memory or disk.",
                           trouble.what()};
        }
    }

    Result<photos::Picture> region(const Errand& errand) {
        auto picture = decoder_.region(errand.file, errand.region);
        if (!picture || !errand.filters.any()) return picture;
        return photos::filtered(*picture, errand.filters, errand.region.scale);
    }

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
    photos::TileCache tiles_;
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
    {
        const std::scoped_lock hold(held_);
        if (cutting_) *cutting_->stop = true;
    }
    changed_.notify_all();
    workers_.clear();
}

void PixelFetch::new_frame() {
    const std::scoped_lock hold(held_);
    ++frame_;
    std::erase_if(waiting_, [this](const Waiting& waiting) { return waiting.frame + 2 < frame_; });
    if (cutting_ && cutting_->frame + 2 < frame_) *cutting_->stop = true;
}

void PixelFetch::ask(Errand errand) {
    const std::scoped_lock hold(held_);
    if (cutting_ && cutting_->key == errand.key) cutting_->frame = frame_;
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

void PixelFetch::stop(const std::string& key) {
    const std::scoped_lock hold(held_);
    std::erase_if(waiting_, [&](const Waiting& waiting) { return waiting.errand.key == key; });
    if (cutting_ && cutting_->key == key) *cutting_->stop = true;
}

bool PixelFetch::full() const {
    return fetched_bytes_ >= kMostWaitingBytes;
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
    fetched_bytes_ -= bytes;
    changed_.notify_all();
    return taken;
}

void PixelFetch::wait_idle() {
    std::unique_lock hold(held_);
    changed_.wait(hold, [this] { return fetching_ == 0 && (waiting_.empty() || full()); });
}

std::vector<PixelFetch::Waiting>::iterator PixelFetch::next() {
    auto best = waiting_.end();
    for (auto at = waiting_.begin(); at != waiting_.end(); ++at) {
        if (cutting_ && at->errand.kind == Errand::Kind::cut) continue;
        if (best == waiting_.end() || at->frame > best->frame ||
            (at->frame == best->frame && at->turn < best->turn))
            best = at;
    }
    return best;
}

std::shared_ptr<std::atomic<bool>> PixelFetch::begin(const Errand& errand) {
    under_way_.insert(errand.key);
    ++fetching_;
    if (errand.kind != Errand::Kind::cut) return nullptr;
    cutting_ = Cutting{errand.key, frame_, std::make_shared<std::atomic<bool>>(false)};
    return cutting_->stop;
}

void PixelFetch::finish(Fetched fetched) {
    --fetching_;
    if (cutting_ && cutting_->key == fetched.key) cutting_.reset();
    if (fetched.picture) fetched_bytes_ += fetched.picture->rgba.size();
    fetched_.push_back(std::move(fetched));
    changed_.notify_all();
}

void PixelFetch::work(const std::stop_token& stop) {
    std::optional<Bench> bench; // opened with the first errand
    std::unique_lock hold(held_);
    while (changed_.wait(hold, stop, [this] { return next() != waiting_.end() && !full(); })) {
        if (stop.stop_requested()) return;
        const auto chosen = next();
        const Errand errand = std::move(chosen->errand);
        waiting_.erase(chosen);
        const auto cut_stop = begin(errand);
        hold.unlock();
        if (!bench) bench.emplace(settings_);
        auto fetched = bench->fetch(errand, cut_stop.get());
        hold.lock();
        finish(std::move(fetched));
        if (!settings_.wake) continue;
        hold.unlock();
        settings_.wake();
        hold.lock();
    }
}

} // namespace fettle::ui
