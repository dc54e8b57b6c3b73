#include "desk/sidecars.h"

#include "base/whole_file.h"
#include "desk/places.h"
#include "notebook/entries.h"
#include "notebook/marks.h"
#include "notebook/parts.h"
#include "notebook/ties.h"
#include "photos/decoder.h"
#include "photos/file_bytes.h"
#include "photos/shelf.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using photos::NamedBox;
using photos::Sidecar;

// "H7 rear spring hanger, before"
std::string in_words(const Tie& tie) {
    return tie.name + ", " + std::string(word(tie.stage));
}

NamedBox box_of(const Mark& mark) {
    const auto& [x, y, w, h] = mark.region;
    std::string description(photos::kOwnBox);
    if (!mark.maker.empty()) description += mark.maker + "; ";
    description += word(mark.sure);
    return {double(x), double(y), double(w), double(h), mark.reading, description};
}

// The other way round; none when the box is no mark of ours.
std::optional<Mark> mark_of(PhotoId photo, const NamedBox& box) {
    if (!box.description.starts_with(photos::kOwnBox) || box.name.empty()) return {};
    auto rest = box.description.substr(photos::kOwnBox.size());
    const auto split = rest.rfind("; ");
    const auto sure =
        from_word<Sureness>(split == std::string::npos ? rest : rest.substr(split + 2));
    if (!sure) return {};
    const auto whole = [](double pixels) { return static_cast<int>(std::lround(pixels)); };
    return Mark{.id = {},
                .photo = photo,
                .region = {whole(box.x), whole(box.y), whole(box.w), whole(box.h)},
                .reading = box.name,
                .maker = split == std::string::npos ? std::string() : rest.substr(0, split),
                .sure = *sure};
}

bool is_same(const Mark& one, const Mark& other) {
    const auto near = [](int a, int b) { return std::abs(a - b) <= 2; };
    const auto& [x, y, w, h] = one.region;
    const auto& there = other.region;
    return one.reading == other.reading && near(x, there.x) && near(y, there.y) &&
           near(w, there.w) && near(h, there.h);
}

struct NamedTie {
    std::string tag;
    Stage stage = Stage::during;
};

// "fettlebook:H7 rear spring hanger, before"; a subject without a stage counts as during.
NamedTie tie_in(std::string_view subject) {
    subject.remove_prefix(photos::kOwnSubject.size());
    NamedTie tie{std::string(subject.substr(0, subject.find_first_of(" ,"))), Stage::during};
    const auto comma = subject.rfind(", ");
    if (comma != std::string_view::npos)
        if (auto stage = from_word<Stage>(subject.substr(comma + 2))) tie.stage = *stage;
    return tie;
}

photos::Lie lie_of(const Photo& photo) {
    return {{photo.width, photo.height}, photo.orientation};
}

std::string_view text_of(const std::vector<std::byte>& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

// What both ways of writing out share: the loop, its stop and its account.
template <class Write>
Result<OutReport> each_photo(const Notebook& notebook, const OutWish& wish, Write write) {
    auto list = list_photos(notebook, wish.photos);
    if (!list) return list.failure();
    if (!wish.only.empty()) {
        const std::set<PhotoId> only(wish.only.begin(), wish.only.end());
        std::erase_if(*list, [&](const Photo& photo) { return !only.contains(photo.id); });
    }
    OutReport report;
    std::size_t at = 0;
    for (const auto& photo : *list) {
        report.stopped = wish.stop.stop_requested();
        if (report.stopped) break;
        if (auto written = write(photo); !written)
            report.left_out.push_back({photo.id, written.failure().sentence});
        else if (*written)
            ++report.written;
        if (wish.progress) wish.progress(++at, list->size(), photo.original_name);
    }
    return report;
}

Done write_beside(photos::Decoder& decoder, const Notebook& notebook, const Photo& photo,
                  const fs::path& picture, bool with_place) {
    auto sidecar = sidecar_of(notebook, photo, with_place);
    if (!sidecar) return sidecar.failure();
    const auto file = photos::sidecar_to_write(picture);
    auto packet = decoder.packet(file, *sidecar, lie_of(photo));
    if (!packet) return packet.failure();
    return write_whole(file, text_of(*packet));
}

// Where a copy with these bytes is to stand, and whether it does already.
struct CopyPlace {
    fs::path file;
    bool is_there = false;
};

CopyPlace place_for(const fs::path& folder, const std::string& name, const std::string& hash) {
    const fs::path wanted(name);
    for (int number = 1;; ++number) {
        auto file = folder / (number == 1 ? wanted.native()
                                          : wanted.stem().native() + "-" + std::to_string(number) +
                                                wanted.extension().native());
        std::error_code error;
        if (!fs::exists(file, error)) return {file, false};
        auto there = photos::hash_of_file(file);
        if (there && *there == hash) return {file, true};
    }
}

Done tie_as_named(Notebook& notebook, PhotoId photo, const Sidecar& sidecar, ReadBack& read) {
    auto ties = ties_of_photo(notebook, photo);
    if (!ties) return ties.failure();
    for (const auto& subject : sidecar.subjects) {
        const auto named = tie_in(subject);
        auto part = part_tagged(notebook, named.tag);
        if (!part) {
            read.without_part.push_back(named.tag);
            continue;
        }
        const bool is_tied = std::ranges::any_of(
            *ties, [&](const Tie& tie) { return tie.to == TieTarget(part->id); });
        if (is_tied) continue;
        if (auto tied = tie_photos(notebook, {photo}, part->id, named.stage); !tied) return tied;
        ++read.tied;
    }
    return done();
}

Done keep_boxes(Notebook& notebook, PhotoId photo, const Sidecar& sidecar, ReadBack& read) {
    auto marks = list_marks(notebook, {.photo = photo});
    if (!marks) return marks.failure();
    for (const auto& box : sidecar.boxes) {
        const auto mark = mark_of(photo, box);
        if (!mark) continue;
        const bool is_held =
            std::ranges::any_of(*marks, [&](const Mark& there) { return is_same(*mark, there); });
        if (is_held) continue;
        if (keep_mark(notebook, *mark)) ++read.marks; // one outside the picture is left
    }
    return done();
}

// One copy in the folder, with its place or without; where it stands.
Result<fs::path> copied(photos::Decoder& decoder, const Notebook& notebook, const Photo& photo,
                        const fs::path& folder, bool with_place) {
    const auto original = photo_file(notebook, photo);
    if (with_place) {
        const auto place = place_for(folder, photo.original_name, photo.hash);
        std::error_code error;
        if (!place.is_there && !fs::copy_file(original, place.file, error))
            return Failure{FailureKind::io,
                           photo.original_name + " cannot be copied: " + error.message() + "."};
        return place.file;
    }
    auto bytes = decoder.without_place(original);
    if (!bytes) return bytes.failure();
    const auto place = place_for(folder, photo.original_name, photos::hash_of(*bytes));
    if (!place.is_there)
        if (auto whole = write_whole(place.file, text_of(*bytes)); !whole) return whole.failure();
    return place.file;
}

} // namespace

Result<Sidecar> sidecar_of(const Notebook& notebook, const Photo& photo, bool with_place) {
    Sidecar sidecar;
    auto ties = ties_of_photo(notebook, photo.id);
    if (!ties) return ties.failure();
    for (const auto& tie : *ties) {
        if (std::holds_alternative<PartId>(tie.to))
            sidecar.subjects.push_back(std::string(photos::kOwnSubject) + in_words(tie));
        sidecar.description += (sidecar.description.empty() ? "" : "; ") + in_words(tie);
    }
    auto marks = list_marks(notebook, {.photo = photo.id});
    if (!marks) return marks.failure();
    for (const auto& mark : *marks) {
        sidecar.boxes.push_back(box_of(mark));
        sidecar.description += (sidecar.description.empty() ? "" : "; ") + ("mark " + mark.reading);
    }
    if (with_place && photo.latitude && photo.longitude)
        sidecar.place = photos::Place{*photo.latitude, *photo.longitude, photo.altitude};
    return sidecar;
}

Result<OutReport> write_sidecars(const Notebook& notebook, const OutWish& wish) {
    photos::Decoder decoder(decode_program());
    return each_photo(notebook, wish, [&](const Photo& photo) -> Result<bool> {
        if (!photo.in_place) return false;
        std::error_code error;
        if (!fs::exists(photo.file, error))
            return Failure{FailureKind::not_found,
                           photo.file.string() + " is no longer where it was taken in."};
        auto written = write_beside(decoder, notebook, photo, photo.file, wish.with_place);
        if (!written) return written.failure();
        return true;
    });
}

Result<OutReport> export_photos(const Notebook& notebook, const fs::path& folder,
                                const OutWish& wish) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        return Failure{FailureKind::io, "The folder " + folder.string() +
                                            " cannot be made: " + error.message() + "."};
    photos::Decoder decoder(decode_program());
    return each_photo(notebook, wish, [&](const Photo& photo) -> Result<bool> {
        auto copy = copied(decoder, notebook, photo, folder, wish.with_place);
        if (!copy) return copy.failure();
        auto written = write_beside(decoder, notebook, photo, *copy, wish.with_place);
        if (!written) return written.failure();
        return true;
    });
}

Result<ReadBack> keep_sidecar(Notebook& notebook, PhotoId photo, const Sidecar& sidecar,
                              Step step) {
    return notebook.act(
        "read what stood beside a photo",
        [&](store::Database&) -> Result<ReadBack> {
            ReadBack read;
            if (auto tied = tie_as_named(notebook, photo, sidecar, read); !tied)
                return tied.failure();
            if (auto kept = keep_boxes(notebook, photo, sidecar, read); !kept)
                return kept.failure();
            return read;
        },
        step);
}

} // namespace fettle::desk
