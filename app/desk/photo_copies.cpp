#include "desk/photo_copies.h"

#include "photos/jpeg.h"

#include <algorithm>
#include <condition_variable>
#include <mutex>
#include <thread>

namespace fettle::desk {
namespace {

constexpr std::size_t kAheadOfOneWorker = 4;

} // namespace

Result<photos::JpegCopy> copy_of(photos::Decoder& decoder, const CopyWish& wish) {
    if (!wish.part) return decoder.copy(wish.file, wish.longest_side);
    const auto& part = *wish.part;
    const int longest = std::max(part.w, part.h);
    const double scale =
        wish.longest_side > 0 ? std::min(1.0, double(wish.longest_side) / longest) : 1;
    auto picture = decoder.region(wish.file, {part.x, part.y, part.w, part.h, scale});
    if (!picture) return picture.failure();
    auto jpeg = photos::encode_jpeg(*picture);
    if (!jpeg) return jpeg.failure();
    return photos::JpegCopy{picture->size(), std::move(*jpeg)};
}

struct PhotoCopies::Inside {
    std::vector<CopyWish> wishes;
    std::vector<std::optional<Result<photos::JpegCopy>>> made;
    std::size_t begun = 0, taken = 0, ahead = 0;
    std::mutex held;
    std::condition_variable changed;
    bool ends = false;
    std::vector<std::jthread> workers; // last: they end before the rest goes

    void work() {
        photos::Decoder decoder;
        std::unique_lock hold(held);
        while (true) {
            changed.wait(
                hold, [this] { return ends || begun >= wishes.size() || begun < taken + ahead; });
            if (ends || begun >= wishes.size()) return;
            const std::size_t mine = begun++;
            hold.unlock();
            auto copy = copy_of(decoder, wishes[mine]);
            hold.lock();
            made[mine] = std::move(copy);
            changed.notify_all();
        }
    }
};

PhotoCopies::PhotoCopies(std::vector<CopyWish> wishes, unsigned workers)
    : inside_(std::make_unique<Inside>()) {
    if (workers == 0) workers = std::max(1U, std::thread::hardware_concurrency());
    inside_->made.resize(wishes.size());
    inside_->wishes = std::move(wishes);
    inside_->ahead = kAheadOfOneWorker * workers;
    workers = std::min<unsigned>(workers, static_cast<unsigned>(inside_->wishes.size()));
    for (unsigned number = 0; number < workers; ++number)
        inside_->workers.emplace_back([inside = inside_.get()] { inside->work(); });
}

PhotoCopies::~PhotoCopies() {
    {
        const std::scoped_lock hold(inside_->held);
        inside_->ends = true;
    }
    inside_->changed.notify_all();
}

Result<photos::JpegCopy> PhotoCopies::next() {
    std::unique_lock hold(inside_->held);
    auto& mine = inside_->made[inside_->taken];
    inside_->changed.wait(hold, [&mine] { return mine.has_value(); });
    auto copy = std::move(*mine);
    mine.reset();
    ++inside_->taken;
    inside_->changed.notify_all();
    return copy;
}

} // namespace fettle::desk
