#include "desk/two_machines.h"

#include "base/half_folder.h"
#include "base/private_place.h"
#include "base/text.h"
#include "notebook/photos.h"
#include "photos/hashing.h"
#include "photos/parcel.h"
#include "photos/shelf.h"

#include <nlohmann/json.hpp>

#include <cstring>
#include <unordered_set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr std::size_t kLongestName = 200;

std::string text_of(const SetTold& told) {
    json sides = json::array();
    for (const auto& side : told.sides)
        sides.push_back({{"number", side.number},
                         {"copy", side.copy},
                         {"name", safe_utf8(side.name)},
                         {"seen", side.seen}});
    return json{{"notebook", told.notebook}, {"side", told.side},
                {"from", told.from},         {"to", told.to},
                {"carried", told.carried},   {"schema", told.schema},
                {"offered", told.offered},   {"sides", sides}}
        .dump();
}

bool is_side(int number) {
    return number >= 1 && number <= kMostSides;
}

// False for what no notebook has written.
bool makes_sense(const SetTold& told) {
    if (!is_name(told.notebook) || !is_name(told.to) || !is_side(told.side)) return false;
    if (!told.from.empty() && !is_name(told.from)) return false;
    if (told.carried <= 0 || (told.offered != 0 && !is_side(told.offered))) return false;
    bool own = false;
    for (const auto& side : told.sides) {
        if (!is_side(side.number) || side.seen < 0 || side.name.size() > kLongestName) return false;
        if (!side.copy.empty() && !is_name(side.copy)) return false;
        own = own || (side.number == told.side && !side.copy.empty());
    }
    return own;
}

Result<SetTold> told_from(const std::string& text) {
    const Failure strange{FailureKind::damaged,
                          "What the set says of itself cannot be read: carry it again."};
    try {
        const auto read = json::parse(text);
        SetTold told;
        told.notebook = read.at("notebook").get<std::string>();
        told.side = read.at("side").get<int>();
        told.from = read.at("from").get<std::string>();
        told.to = read.at("to").get<std::string>();
        told.carried = read.at("carried").get<std::int64_t>();
        told.schema = read.at("schema").get<int>();
        told.offered = read.at("offered").get<int>();
        for (const auto& side : read.at("sides"))
            told.sides.push_back({side.at("number").get<int>(), side.at("copy").get<std::string>(),
                                  side.at("name").get<std::string>(),
                                  side.at("seen").get<std::int64_t>(), 0});
        if (!makes_sense(told)) return strange;
        return told;
    } catch (const json::exception& error) {
        return Failure{strange.kind, strange.sentence, error.what()};
    }
}

// The files that come with a set, put on the shelf; those put there go again unless they are kept.
class Shelving {
  public:
    explicit Shelving(const Notebook& notebook) : notebook_(notebook) {}
    ~Shelving() {
        std::error_code error;
        if (!unpacking_.empty()) fs::remove_all(unpacking_, error);
        if (kept_) return;
        for (const auto& [hash, file] : shelved_)
            if (fresh_.contains(hash)) fs::remove(notebook_.folder() / file, error);
    }
    Shelving(const Shelving&) = delete;
    Shelving& operator=(const Shelving&) = delete;

    // A photo the set's state does not speak of is left aside.
    Done take(photos::Parcel& parcel, const Unpacked& arrival, const std::string& hash,
              const std::stop_token& stop) {
        if (!photos::is_hash(hash)) return done();
        auto photo = arrival.photo(hash);
        if (!photo) return photo.failure();
        if (!*photo || lies_here(hash)) return done();
        std::error_code error;
        if (unpacking_.empty())
            if (const int reason =
                    make_private_folder(notebook_.folder() / "met", "unpacking-", "", unpacking_);
                reason != 0) {
                unpacking_.clear();
                return Failure{FailureKind::io,
                               "The folder " + safe_utf8((notebook_.folder() / "met").native()) +
                                   " cannot be written to: " + std::strerror(reason) + '.'};
            }
        // Its name is the camera's, made fit for any file system: it cannot lead elsewhere.
        const auto unpacked = unpacking_ / photos::shelf_name((*photo)->name);
        if (auto out = parcel.unpack_photo(hash, unpacked, stop); !out) return out;
        auto file = photos::put_on_shelf(notebook_.folder(), unpacked, hash, (*photo)->day, stop);
        fs::remove(unpacked, error);
        if (!file) return file.failure();
        shelved_[hash] = *file;
        fresh_.insert(hash);
        return done();
    }

    void keep() { kept_ = true; }
    const std::map<std::string, fs::path>& shelved() const { return shelved_; }

  private:
    bool lies_here(const std::string& hash) const {
        const auto id = photo_with_hash(notebook_, hash);
        if (!id || !*id) return false;
        const auto photo = photo_by_id(notebook_, **id);
        std::error_code error;
        return photo && fs::is_regular_file(photo_file(notebook_, *photo), error);
    }

    const Notebook& notebook_;
    fs::path unpacking_;
    std::map<std::string, fs::path> shelved_;
    std::unordered_set<std::string> fresh_;
    bool kept_ = false;
};

Result<MeetReport> bring(Notebook& notebook, photos::Parcel& parcel, const SetTold& told,
                         const MeetWish& wish) {
    auto arrival = Unpacked::unpack(notebook, told, parcel.changes());
    if (!arrival) return arrival.failure();
    Shelving shelving(notebook);
    std::size_t count = 0;
    for (const auto& hash : parcel.photos()) {
        if (wish.stop.stop_requested())
            return Failure{FailureKind::cancelled, "The meeting was stopped; nothing has changed."};
        if (wish.progress) wish.progress(count, parcel.photos().size(), "photos");
        if (auto taken = shelving.take(parcel, *arrival, hash, wish.stop); !taken)
            return taken.failure();
        ++count;
    }
    auto met = bring_in(notebook, *arrival, shelving.shelved());
    if (!met) return met.failure();
    shelving.keep();
    MeetReport report;
    report.met = *met;
    report.photos = static_cast<int>(shelving.shelved().size());
    return report;
}

} // namespace

Result<CarryReport> carry(Notebook& notebook, const CarryWish& wish) {
    auto parcel = photos::ParcelWriter::begin(wish.file);
    if (!parcel) return parcel.failure();
    auto set = prepare_to_carry(notebook, {wish.everything, wish.name});
    if (!set) return set.failure();
    CarryReport report;
    report.everything = set->told.from.empty();
    report.nothing_new = set->nothing_new;
    std::size_t count = 0;
    for (const auto& photo : set->photos) {
        if (wish.progress) wish.progress(count++, set->photos.size(), photo.name);
        auto added = parcel->add_photo(photo.hash, photo.file, wish.stop);
        if (added)
            ++report.photos;
        else if (wish.stop.stop_requested())
            return added.failure();
        else
            report.left_out.push_back({safe_utf8(photo.name), added.failure().sentence});
    }
    if (auto noted = note_carried(notebook, set->told); !noted) return noted.failure();
    if (auto sealed = parcel->seal(text_of(set->told), set->changes); !sealed) {
        (void)forget_carried(notebook, set->told);
        return sealed.failure();
    }
    return report;
}

Result<MeetReport> meet(Notebook& notebook, const MeetWish& wish) {
    auto parcel = photos::Parcel::open(wish.file);
    if (!parcel) return parcel.failure();
    auto told = told_from(parcel->told());
    if (!told) return told.failure();
    if (auto fine = check_set(notebook, *told); !fine) {
        if (fine.failure().kind != FailureKind::cancelled) return fine.failure();
        MeetReport report;
        report.nothing_done = fine.failure().sentence;
        return report;
    }
    return bring(notebook, *parcel, *told, wish);
}

Result<MeetReport> meet_in(const fs::path& folder, const MeetWish& wish) {
    std::error_code error;
    if (fs::exists(folder / "notebook.db", error)) {
        auto notebook = Notebook::open(folder, store::Access::write);
        if (!notebook) return notebook.failure();
        return meet(*notebook, wish);
    }
    if (fs::exists(folder, error) &&
        (!fs::is_directory(folder, error) || !fs::is_empty(folder, error)))
        return Failure{FailureKind::refused,
                       "There is no notebook in " + safe_utf8(folder.native()) +
                           ", and it is not an empty folder: name the notebook's folder, or a new "
                           "one for it to begin in."};
    auto parcel = photos::Parcel::open(wish.file);
    if (!parcel) return parcel.failure();
    auto told = told_from(parcel->told());
    if (!told) return told.failure();
    if (auto fine = check_beginning(*told); !fine) return fine.failure();
    auto half = HalfFolder::start(folder);
    if (!half) return half.failure();
    auto begun = [&]() -> Result<MeetReport> { // closed again before the folder gets its name
        auto notebook = Notebook::create_blank(half->path());
        if (!notebook) return notebook.failure();
        return bring(*notebook, *parcel, *told, wish);
    }();
    if (!begun) return begun;
    if (auto settled = half->settle(); !settled) return settled.failure();
    return begun;
}

std::string in_words(const CarryReport& report) {
    const auto photos = std::to_string(report.photos) + (report.photos == 1 ? " photo" : " photos");
    if (report.everything) return "carried everything, with " + photos;
    if (report.nothing_new) return "carried word that all has come; nothing has changed here since";
    return "carried what has changed since the other machine was met, with " + photos;
}

std::string in_words(const MeetReport& report) {
    if (!report.nothing_done.empty()) return report.nothing_done;
    const auto& met = report.met;
    if (met.whole) return "begun here with all that " + met.with + " had";
    std::string words = "met " + met.with + ": " + std::to_string(met.made) + " new, " +
                        std::to_string(met.changed) + " changed, " + std::to_string(met.removed) +
                        " removed, " + std::to_string(report.photos) +
                        (report.photos == 1 ? " photo" : " photos");
    if (met.without_file > 0)
        words += ", " + std::to_string(met.without_file) + " of them without a file";
    if (met.differences > 0)
        words += "; " + std::to_string(met.differences) +
                 (met.differences == 1 ? " difference" : " differences") + " to settle";
    return words;
}

} // namespace fettle::desk
