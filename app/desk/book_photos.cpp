#include "desk/book_photos.h"

#include "base/text.h"
#include "base/whole_file.h"
#include "desk/photo_copies.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

void take_away_others(const fs::path& folder, const std::map<std::string, photos::Size>& kept) {
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error)) {
        const auto name = entry.path().filename().native();
        if (name.starts_with("photo-") && name.ends_with(".jpg") && !kept.contains(name))
            fs::remove(entry.path(), error);
    }
}

} // namespace

std::string file_name_of(const Shot& shot) {
    std::string name = "photo-" + std::to_string(shot.photo.value);
    if (shot.part)
        for (const int side : {shot.part->x, shot.part->y, shot.part->w, shot.part->h})
            name += "-" + std::to_string(side);
    return name + ".jpg";
}

std::vector<Shot> shots_in(const BookContent& content) {
    std::vector<Shot> all;
    std::set<std::string> known;
    const auto add = [&](const Shot& shot) {
        if (known.insert(file_name_of(shot)).second) all.push_back(shot);
    };
    if (content.cover) add(*content.cover);
    for (const auto& chapter : content.chapters)
        for (const auto& block : chapter.blocks) {
            if (const auto* shots = std::get_if<Shots>(&block))
                std::ranges::for_each(shots->shots, add);
            if (const auto* pair = std::get_if<BeforeAfter>(&block)) {
                add(pair->before);
                add(pair->after);
            }
        }
    return all;
}

Result<std::map<std::string, photos::Size>> copy_shots(const BookContent& content,
                                                       const fs::path& folder,
                                                       const BookFileWish& wish,
                                                       BookFileReport& report) {
    const auto shots = shots_in(content);
    std::vector<CopyWish> wishes;
    for (const auto& shot : shots) {
        const auto photo = content.photos.find(shot.photo);
        wishes.push_back({photo == content.photos.end() ? fs::path() : photo->second.file,
                          wish.photo_size, shot.part});
    }
    std::error_code error;
    if (!shots.empty()) fs::create_directories(folder, error);
    std::map<std::string, photos::Size> sizes;
    PhotoCopies copies(std::move(wishes));
    for (std::size_t at = 0; at < shots.size(); ++at) {
        if (wish.progress) wish.progress(at, shots.size(), "photos");
        if (wish.stop.stop_requested())
            return Failure{FailureKind::cancelled, "It was stopped; its page was not written."};
        auto copy = copies.next();
        if (!copy) {
            report.unreadable.push_back(copy.failure().sentence);
            continue;
        }
        const auto name = file_name_of(shots[at]);
        const std::string_view bytes(reinterpret_cast<const char*>(copy->jpeg.data()),
                                     copy->jpeg.size());
        if (auto written = write_whole(folder / name, bytes); !written) return written.failure();
        sizes[name] = copy->size;
        ++report.photos;
    }
    if (wish.progress) wish.progress(shots.size(), shots.size(), "photos");
    take_away_others(folder, sizes);
    return sizes;
}

Done claim_folder(const fs::path& folder, const std::string& mark) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error || !fs::is_directory(folder, error))
        return Failure{FailureKind::io,
                       "The folder " + safe_utf8(folder.native()) + " cannot be made."};
    if (fs::is_empty(folder, error)) return done();
    std::ifstream file(folder / mark, std::ios::binary);
    std::string head(4096, '\0');
    file.read(head.data(), std::ssize(head));
    head.resize(static_cast<std::size_t>(file.gcount()));
    if (head.find("Fettlebook") != std::string::npos) return done();
    return Failure{FailureKind::refused,
                   "The folder " + safe_utf8(folder.native()) +
                       " holds something else: name one that is empty or not there yet."};
}

} // namespace fettle::desk
