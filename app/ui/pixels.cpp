#include "ui/pixels.h"

#include "ui/pixel_fetch.h"

#include <algorithm>
#include <span>
#include <unordered_map>
#include <unordered_set>

namespace fettle::ui {
namespace {

// What one frame hands to the graphics card; more would be felt as a stutter.
constexpr std::size_t kMostUpload = 24u << 20;

std::span<const std::uint8_t> bytes_of(const photos::Picture& picture) {
    return {reinterpret_cast<const std::uint8_t*>(picture.rgba.data()), picture.rgba.size()};
}

} // namespace

struct Pixels::Inside {
    const Notebook& book;
    Surface surface;
    std::function<void()> wake;
    TextureCache textures;
    std::unordered_set<std::string> hopeless;              // keys that could not be fetched
    std::unordered_map<std::string, std::string> failures; // the sentence, by photo hash
    PixelFetch fetch; // last: its workers end before the rest goes

    Inside(const Notebook& notebook, const Settings& settings)
        : book(notebook),
          surface(settings.surface),
          wake(settings.wake),
          textures(settings.most_texture_bytes),
          fetch({notebook.cache_folder(), settings.decode_program, settings.wake}) {}

    const Texture* find_or_ask(const Photo& photo, Errand errand) {
        if (const Texture* here = textures.find(errand.key)) return here;
        if (hopeless.contains(errand.key)) return nullptr;
        errand.hash = photo.hash;
        errand.file = photo_file(book, photo);
        fetch.ask(std::move(errand));
        return nullptr;
    }

    bool receive(std::size_t most_bytes) {
        auto come = fetch.take(most_bytes);
        for (auto& [key, hash, picture] : come) {
            if (picture) {
                textures.put(key,
                             Texture(surface, picture->width, picture->height, bytes_of(*picture)));
            } else {
                hopeless.insert(key);
                failures[hash] = picture.failure().sentence;
            }
        }
        return !come.empty();
    }
};

Pixels::Pixels(const Notebook& book, Settings settings)
    : inside_(std::make_unique<Inside>(book, settings)) {}

Pixels::~Pixels() = default;

void Pixels::receive() {
    inside_->textures.new_frame();
    inside_->fetch.new_frame();
    // Whatever was left over for the next frame must not wait for the next event.
    if (inside_->receive(kMostUpload) && inside_->wake) inside_->wake();
}

const Texture* Pixels::thumbnail(const Photo& photo) {
    return inside_->find_or_ask(photo, {.key = "thumbnail " + photo.hash});
}

const Texture* Pixels::picture(const Photo& photo, int longest_side) {
    return inside_->find_or_ask(photo,
                                {.key = "whole " + photo.hash + " " + std::to_string(longest_side),
                                 .kind = Errand::Kind::whole,
                                 .longest_side = longest_side});
}

const Texture* Pixels::tile(const Photo& photo, int level, int column, int row) {
    const int side = kTile << level;
    photos::Region region{column * side, row * side};
    region.width = std::min(side, photo.width - region.x);
    region.height = std::min(side, photo.height - region.y);
    region.scale = 1.0 / (1 << level);
    if (region.x < 0 || region.y < 0 || region.width <= 0 || region.height <= 0) return nullptr;
    return inside_->find_or_ask(photo,
                                {.key = "tile " + photo.hash + " " + std::to_string(level) + " " +
                                        std::to_string(column) + " " + std::to_string(row),
                                 .kind = Errand::Kind::region,
                                 .region = region});
}

std::string Pixels::failure(const Photo& photo) const {
    const auto found = inside_->failures.find(photo.hash);
    return found == inside_->failures.end() ? std::string() : found->second;
}

void Pixels::settle() {
    inside_->fetch.wait_idle();
    while (inside_->receive(kMostUpload)) {
    }
}

} // namespace fettle::ui
