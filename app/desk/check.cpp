#include "desk/check.h"

#include "base/half_folder.h"
#include "base/text.h"
#include "desk/leftovers.h"
#include "desk/outside_photos.h"
#include "notebook/lost_log.h"
#include "notebook/record_faults.h"
#include "photos/shelf.h"
#include "photos/thumbs.h"
#include "photos/tile_file.h"

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostLeftovers = 50;

std::string named(const Photo& photo) {
    return "Photo " + std::to_string(photo.id.value) + ", " + safe_utf8(photo.file.native());
}

// ".half-copy-PID-LETTERS" of a program that runs no longer; of earlier versions with a number.
bool is_abandoned(std::string_view name) {
    constexpr std::string_view kHalf = ".half-copy-";
    if (!name.starts_with(kHalf)) return false;
    name.remove_prefix(kHalf.size());
    return is_ended_process(name.substr(0, name.find('-')));
}

class Checking {
  public:
    // `mending`: the same notebook open for writing, or null.
    Checking(const Notebook& notebook, Notebook* mending, const CheckWish& wish)
        : notebook_(notebook), mending_(mending), wish_(wish) {}

    Result<CheckReport> all() {
        if (auto looked = look_at_record(); !looked) return looked.failure();
        const bool damaged = std::ranges::any_of(report_.findings, [](const auto& finding) {
            return finding.kind == FindingKind::database;
        });
        if (auto looked = look_at_photos(); looked)
            look_for_leftovers();
        else if (!damaged || looked.failure().kind == FailureKind::cancelled)
            return looked.failure();
        look_for_cut_short();
        look_who_is_let_in();
        look_for_as_found();
        look_at_cache();
        return std::move(report_);
    }

  private:
    void found(FindingKind kind, std::string sentence, std::string advice, bool mended = false) {
        report_.findings.push_back({kind, std::move(sentence), std::move(advice), mended});
    }

    Done look_at_record() {
        auto faults = record_faults(notebook_);
        if (!faults) {
            found(FindingKind::database, faults.failure().sentence, std::string(kHowToSave));
            return done();
        }
        for (const auto& fault : *faults) {
            const bool mended =
                fault.is_mended_by_words && mending_ && remake_words(*mending_).ok();
            found(fault.is_mended_by_words ? FindingKind::words : FindingKind::database,
                  fault.sentence, mended ? "It was made anew." : fault.advice, mended);
        }
        return done();
    }

    Done look_at_photos() {
        const auto all = count_photos(notebook_);
        if (!all) return all.failure();
        std::vector<Photo> gone;
        auto looked = each_photo(notebook_, [&](const Photo& photo) -> Done {
            if (wish_.stop.stop_requested())
                return Failure{FailureKind::cancelled, "Stopped before the end."};
            if (!look_at(photo)) gone.push_back(photo);
            if (!photo.in_place) known_.push_back(photo.file.lexically_normal().native());
            ++report_.photos;
            if (wish_.progress)
                wish_.progress(report_.photos, std::max(report_.photos, std::size_t(*all)),
                               photo.original_name);
            return done();
        });
        if (!looked || gone.empty()) return looked;
        return look_elsewhere(gone);
    }

    // False when its file is not there.
    bool look_at(const Photo& photo) {
        const auto file = photo_file(notebook_, photo);
        std::error_code error;
        if (!fs::is_regular_file(file, error)) return false;
        if (auto hash = photos::hash_of_file(file, wish_.stop); !hash)
            found(FindingKind::photo_altered, named(photo) + ", cannot be read.",
                  hash.failure().sentence);
        else if (*hash != photo.hash)
            found(FindingKind::photo_altered,
                  named(photo) + ", is not the file that was taken in: it was changed since.",
                  "Put the original back, from a backup or the camera, or take a copy in again, "
                  "whatever its name; until then the record speaks of another picture.");
        return true;
    }

    Done look_elsewhere(const std::vector<Photo>& gone) {
        std::set<std::int64_t> sizes;
        for (const auto& photo : gone)
            sizes.insert(photo.bytes);
        auto there = files_by_hash(notebook_.photos_folder(), sizes, wish_.stop);
        if (!there) return there.failure();
        Step step;
        if (mending_)
            if (auto fresh = mending_->new_step()) step = *fresh;
        for (const auto& photo : gone) {
            const auto file = there->find(photo.hash);
            if (file == there->end()) {
                found(FindingKind::photo_gone, named(photo) + ", is not there.",
                      photo.in_place
                          ? "It was left in place elsewhere: put it back or connect the "
                            "disk, or restore a backup into a new folder."
                          : "Put it back, from a backup or the camera, or take a copy in "
                            "again, whatever its name.");
                continue;
            }
            const auto place = file->second.lexically_relative(notebook_.folder());
            const bool mended =
                mending_ && put_photo_file(*mending_, photo.id, place, false, step).ok();
            found(FindingKind::photo_moved,
                  named(photo) + ", was moved to " + safe_utf8(place.native()) + ".",
                  mended ? std::string("Its record leads there now.")
                         : "Mend (" + std::string(kHowToMend) +
                               ") notes its new place; or move it back.",
                  mended);
            known_.push_back(place.native());
        }
        return done();
    }

    void look_for_leftovers() {
        std::ranges::sort(known_);
        std::size_t more = 0;
        std::error_code error;
        for (fs::recursive_directory_iterator at(notebook_.photos_folder(), error), end;
             !error && at != end; at.increment(error)) {
            std::error_code ignored;
            const auto within = at->path().lexically_relative(notebook_.folder());
            if (!fs::is_regular_file(at->symlink_status(ignored)) ||
                std::ranges::binary_search(known_, within.native()))
                continue;
            const std::string name = at->path().filename().native();
            if (is_abandoned(name)) {
                const bool mended = mending_ && fs::remove(at->path(), ignored);
                found(FindingKind::leftover,
                      safe_utf8(within.native()) + " was left by a take-in that was cut short.",
                      mended ? std::string("It was deleted.")
                             : "Mend (" + std::string(kHowToMend) + ") deletes it.",
                      mended);
            } else if (!name.starts_with('.') && at->path().extension() != ".xmp" &&
                       ++more <= kMostLeftovers) {
                found(FindingKind::leftover,
                      safe_utf8(within.native()) + " is the file of no photo in the notebook.",
                      "A take-in that was undone leaves its copies. Take it in, or delete it.");
            }
        }
        if (more > kMostLeftovers)
            found(FindingKind::leftover,
                  std::to_string(more - kMostLeftovers) + " more files belong to no photo.",
                  "Those above come first.");
    }

    void look_for_cut_short() {
        for (const auto& left : cut_short(notebook_.folder())) {
            std::error_code error;
            const bool mended = mending_ && fs::remove_all(left, error) > 0 && !error;
            found(FindingKind::leftover,
                  safe_utf8(left.native()) + " was left by work that was cut short.",
                  mended
                      ? std::string("It was deleted.")
                      : "It is in nobody's way. Mend (" + std::string(kHowToMend) + ") deletes it.",
                  mended);
        }
    }

    // Told and not refused: a folder may be shared on purpose.
    void look_who_is_let_in() {
        struct stat folder {};
        if (stat(notebook_.folder().c_str(), &folder) != 0) return;
        if (folder.st_uid != geteuid())
            found(FindingKind::let_in,
                  "The notebook's folder belongs to another user, who can change all that is in "
                  "it.",
                  "Copy it to a folder of yours if that is not wanted: back it up and restore it "
                  "there.");
        if ((folder.st_mode & (S_IWGRP | S_IWOTH)) != 0)
            found(FindingKind::let_in,
                  "The notebook's folder may be written by others, who can put other files in "
                  "place of yours.",
                  "If that is not wanted, take the right away: chmod go-w \"" +
                      safe_utf8(notebook_.folder().native()) + "\"");
    }

    // What an earlier opening kept of a damaged log.
    void look_for_as_found() {
        std::error_code error;
        for (fs::directory_iterator at(notebook_.folder(), error), end; !error && at != end;
             at.increment(error)) {
            const std::string name = at->path().filename().native();
            if (name.starts_with(kAsFound))
                found(FindingKind::leftover,
                      safe_utf8(name) + " holds a database and its damaged log as they were found.",
                      "fettlebook salvage \"" + safe_utf8(at->path().native()) +
                          "\" OUT saves what can be read of them. Delete it when nothing is "
                          "missing.");
        }
    }

    void look_at_cache() {
        const auto cache = notebook_.cache_folder();
        const auto tell = [&](const std::string& name, bool mended) {
            found(FindingKind::cache, "cache/" + name + " is damaged.",
                  mended ? std::string("It was deleted and is made anew when it is wanted.")
                         : "Mend (" + std::string(kHowToMend) + ") deletes it; it is made anew.",
                  mended);
        };
        if (!photos::thumbnails_are_sound(cache)) {
            if (mending_) photos::drop_thumbnails(cache);
            tell("thumbs.db", mending_ != nullptr);
        }
        std::error_code error;
        for (const auto& entry : fs::directory_iterator(cache / "tiles", error)) {
            if (entry.path().extension() != ".tiles" || photos::TileFile::open(entry.path()))
                continue;
            std::error_code ignored;
            tell("tiles/" + safe_utf8(entry.path().filename().native()),
                 mending_ && fs::remove(entry.path(), ignored));
        }
    }

    const Notebook& notebook_;
    Notebook* mending_;
    const CheckWish& wish_;
    CheckReport report_;
    std::vector<std::string> known_; // files of photos, within the notebook
};

} // namespace

std::string_view word(FindingKind kind) {
    constexpr std::array<std::string_view, 8> kWords = {
        "database",      "words", "photo gone", "photo moved",
        "photo altered", "cache", "leftover",   "others let in"};
    return kWords.at(static_cast<std::size_t>(kind));
}

std::size_t CheckReport::wrong() const {
    return static_cast<std::size_t>(
        std::ranges::count_if(findings, [](const auto& finding) { return finding.is_wrong(); }));
}

Result<CheckReport> check(const fs::path& folder, const CheckWish& wish) {
    auto notebook = Notebook::open(folder, store::Access::read);
    if (notebook) return Checking(*notebook, nullptr, wish).all();
    if (notebook.failure().kind != FailureKind::damaged) return notebook.failure();
    return CheckReport{
        {{FindingKind::database, notebook.failure().sentence, std::string(kHowToSave)}}};
}

Result<CheckReport> check_and_mend(Notebook& notebook, const CheckWish& wish) {
    // Looked at through a connection of its own: the notebook is held only while it is mended.
    auto look = Notebook::open(notebook.folder(), store::Access::read);
    if (!look) return look.failure();
    return Checking(*look, &notebook, wish).all();
}

} // namespace fettle::desk
