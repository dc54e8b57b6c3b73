#include "ui/pictures/pixels.h"

#include "ui/pictures/filtered_parts.h"
#include "ui/pictures/pixel_fetch.h"

#include <algorithm>
#include <cmath>
#include <list>
#include <map>
#include <span>
#include <unordered_map>
#include <unordered_set>

namespace fettle::ui {
namespace {

// What one frame hands to the graphics card; more would be felt as a stutter.
constexpr std::size_t kMostUpload = 8u << 20;

constexpr std::size_t kMostOpen = 8; // files of tiles

std::span<const std::uint8_t> bytes_of(const photos::Picture& picture) {
    return {reinterpret_cast<const std::uint8_t*>(picture.rgba.data()), picture.rgba.size()};
}

std::string tile_key(const char* kind, const Photo& photo, const TilePlace& place) {
    return kind + photo.hash + " " + std::to_string(place.level) + " " +
           std::to_string(place.column) + " " + std::to_string(place.row);
}

std::string cut_key(const Photo& photo) {
    return "cut " + photo.hash;
}

} // namespace

struct Pixels::Inside {
    const Notebook& book;
    Surface surface;
    std::function<void()> wake;
    TextureCache textures;
    std::unordered_set<std::string> hopeless;                // keys that could not be fetched
    std::unordered_map<std::string, std::string> failures;   // the sentence, by photo hash
    std::list<std::pair<std::string, photos::TileFile>> cut; // by hash, used last first
    std::unordered_set<std::string> being_cut, stopped;      // hashes
    struct Shown {
        std::string hash;
        Region region;
    };
    std::map<std::string, Shown> filtered; // what the texture of a slot shows
    FilteredParts parts;
    PixelFetch fetch; // last: its workers end before the rest goes

    Inside(const Notebook& notebook, const Settings& settings)
        : book(notebook),
          surface(settings.surface),
          wake(settings.wake),
          textures(settings.most_texture_bytes),
          parts(settings.wake),
          fetch({notebook.cache_folder(), settings.decode_program, settings.wake}) {}

    const Texture* find_or_ask(const Photo& photo, Errand errand) {
        if (const Texture* here = textures.find(errand.key)) return here;
        if (hopeless.contains(errand.key)) return nullptr;
        errand.hash = photo.hash;
        errand.file = photo_file(book, photo);
        fetch.ask(std::move(errand));
        return nullptr;
    }

    const photos::TileFile* cut_of(const std::string& hash) {
        for (auto at = cut.begin(); at != cut.end(); ++at)
            if (at->first == hash) {
                cut.splice(cut.begin(), cut, at);
                return &cut.front().second;
            }
        return nullptr;
    }

    void receive_cut(Fetched& come) {
        being_cut.erase(come.hash);
        if (come.tiles) {
            cut.emplace_front(come.hash, std::move(*come.tiles));
            if (cut.size() > kMostOpen) cut.pop_back();
        } else if (come.picture.failure().kind != FailureKind::cancelled) {
            hopeless.insert(come.key); // tile() serves, and says why if it cannot either
        }
    }

    bool receive(std::size_t most_bytes) {
        auto come = fetch.take(most_bytes);
        for (Fetched& one : come) {
            const auto& [key, hash, picture, tiles] = one;
            if (key == "cut " + hash) {
                receive_cut(one);
            } else if (picture) {
                textures.put(key,
                             Texture(surface, picture->width, picture->height, bytes_of(*picture)));
            } else {
                hopeless.insert(key);
                failures[hash] = picture.failure().sentence;
            }
        }
        return receive_filtered() || !come.empty();
    }

    bool receive_filtered() {
        const auto come = parts.take();
        for (const auto& [slot, hash, region, picture] : come) {
            textures.put("filtered " + slot,
                         Texture(surface, picture.width, picture.height, bytes_of(picture)));
            filtered[slot] = {hash, region};
        }
        return !come.empty();
    }
};

Pixels::Pixels(const Notebook& book, const Settings& settings)
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

const Texture* Pixels::tile(const Photo& photo, const TilePlace& place) {
    const int side = kTile << place.level;
    photos::Region region{place.column * side, place.row * side};
    region.width = std::min(side, photo.width - region.x);
    region.height = std::min(side, photo.height - region.y);
    region.scale = 1.0 / (1 << place.level);
    if (region.x < 0 || region.y < 0 || region.width <= 0 || region.height <= 0) return nullptr;
    return inside_->find_or_ask(
        photo,
        {.key = tile_key("tile ", photo, place), .kind = Errand::Kind::region, .region = region});
}

bool Pixels::wait_for_cut(const Photo& photo) {
    if (is_cut(photo) || inside_->hopeless.contains(cut_key(photo))) return true;
    if (inside_->stopped.contains(photo.hash)) return false;
    inside_->being_cut.insert(photo.hash);
    inside_->fetch.ask({.key = cut_key(photo),
                        .hash = photo.hash,
                        .file = photo_file(inside_->book, photo),
                        .kind = Errand::Kind::cut});
    return false;
}

bool Pixels::is_cut(const Photo& photo) const {
    return inside_->cut_of(photo.hash) != nullptr;
}

Pixels::Cutting Pixels::cutting(const Photo& photo) const {
    if (inside_->stopped.contains(photo.hash)) return Cutting::stopped;
    return inside_->being_cut.contains(photo.hash) ? Cutting::going_on : Cutting::no;
}

void Pixels::stop_cutting(const Photo& photo) {
    inside_->stopped.insert(photo.hash);
    inside_->fetch.stop(cut_key(photo));
}

void Pixels::go_on_cutting(const Photo& photo) {
    inside_->stopped.erase(photo.hash);
}

const Texture* Pixels::large_tile(const Photo& photo, const TilePlace& place) {
    const photos::TileFile* tiles = inside_->cut_of(photo.hash);
    if (!tiles || !tiles->layout().has(place)) return nullptr;
    return inside_->find_or_ask(photo, {.key = tile_key("large ", photo, place),
                                        .kind = Errand::Kind::tile,
                                        .tiles = *tiles,
                                        .place = place});
}

const Texture* Pixels::large_tile_here(const Photo& photo, const TilePlace& place) {
    return inside_->textures.find(tile_key("large ", photo, place));
}

std::size_t Pixels::texture_bytes() const {
    return inside_->textures.bytes();
}

std::optional<Pixels::Filtered> Pixels::filtered(const std::string& slot, const Photo& photo,
                                                 int level, const Region& region,
                                                 const photos::StampFilters& filters) {
    const photos::TileFile* tiles = inside_->cut_of(photo.hash);
    if (!tiles) return std::nullopt;
    const int deepest = tiles->layout().levels() - 1;
    const Texture* texture = inside_->textures.find("filtered " + slot);
    const auto shown = inside_->filtered.find(slot);
    if (!texture && shown != inside_->filtered.end()) {
        inside_->parts.forget(slot); // it has fallen out of the textures
        inside_->filtered.erase(shown);
        return std::nullopt;
    }
    inside_->parts.want(slot, {*tiles, photo.hash, std::clamp(level, 0, deepest), region, filters});
    if (!texture || shown->second.hash != photo.hash) return std::nullopt;
    return Filtered{texture, shown->second.region};
}

std::optional<Pixels::Filtered> Pixels::filtered_crop(const Photo& photo, const Region& region,
                                                      double zoom,
                                                      const photos::StampFilters& filters) {
    const int around = int(2 * filters.radius);
    Region seen{std::max(0, region.x - around), std::max(0, region.y - around)};
    seen.w = std::min(photo.width, region.x + region.w + around) - seen.x;
    seen.h = std::min(photo.height, region.y + region.h + around) - seen.y;
    if (seen.w <= 0 || seen.h <= 0) return std::nullopt;
    // Twice as fine as it is drawn, in halves, so that a window a little larger asks for no other.
    const double scale = std::min(1.0, std::exp2(std::ceil(std::log2(zoom))));
    const std::string key = "seen " + photo.hash + " " + std::to_string(seen.x) + " " +
                            std::to_string(seen.y) + " " + std::to_string(seen.w) + " " +
                            std::to_string(seen.h) + " " + std::to_string(scale) + to_json(filters);
    const Texture* texture =
        inside_->find_or_ask(photo, {.key = key,
                                     .kind = Errand::Kind::region,
                                     .region = {seen.x, seen.y, seen.w, seen.h, scale},
                                     .filters = filters});
    if (!texture) return std::nullopt;
    return Filtered{texture, seen};
}

std::string Pixels::failure(const Photo& photo) const {
    const auto found = inside_->failures.find(photo.hash);
    return found == inside_->failures.end() ? std::string() : found->second;
}

void Pixels::settle() {
    do {
        inside_->fetch.wait_idle();
        inside_->parts.settle();
    } while (inside_->receive(kMostUpload));
}

} // namespace fettle::ui
