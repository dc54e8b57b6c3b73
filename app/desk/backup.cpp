#include "desk/backup.h"

#include "base/date.h"
#include "base/half_folder.h"
#include "base/private_place.h"
#include "base/text.h"
#include "base/whole_file.h"
#include "desk/backup_contents.h"
#include "desk/data_values.h"
#include "notebook/photos.h"
#include "notebook/record_faults.h"
#include "notebook/row_rules.h"
#include "notebook/schema/schema.h"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kLastBackup = "last-backup.json";

Failure stopped() {
    return {FailureKind::cancelled, "Stopped; no backup was made."};
}

// What is being made, beside the file it becomes; gone with this object.
class Staging {
  public:
    static Result<Staging> begin(const fs::path& file) {
        const auto hidden = "." + file.filename().native() + ".half-";
        sweep_left_halves(file.parent_path(), hidden, "");
        fs::path folder;
        if (const int reason = make_private_folder(file.parent_path(), hidden, "", folder);
            reason != 0)
            return Failure{FailureKind::io, "The folder " + safe_utf8(file.parent_path().native()) +
                                                " cannot be written to: " + std::strerror(reason) +
                                                "."};
        return Staging(folder);
    }
    Staging(Staging&& other) noexcept : folder_(std::exchange(other.folder_, {})) {}
    Staging& operator=(Staging&&) = delete;
    ~Staging() {
        std::error_code error;
        if (!folder_.empty()) fs::remove_all(folder_, error);
    }
    const fs::path& folder() const { return folder_; }
    fs::path zip() const { return folder_ / "backup.zip"; }

  private:
    explicit Staging(fs::path folder) : folder_(std::move(folder)) {}
    fs::path folder_;
};

// Not the user's, or made anew, or of the moment; and the database, which is copied otherwise.
bool is_left_out(const fs::path& within) {
    const auto first = within.begin()->native();
    const auto name = within.filename().native();
    return first == "cache" || first.starts_with("notebook.db") || first == "notebook.lock" ||
           first == kLastBackup || name.starts_with(".half-copy-") || name.ends_with(".half");
}

bool can_be_named(const std::string& name) {
    return safe_utf8(name) == name && name.find('\n') == std::string::npos &&
           name.find('\\') == std::string::npos;
}

class BackingUp {
  public:
    BackingUp(const fs::path& notebook, const Notebook& copy, ArchiveWriter& writer,
              const BackupWish& wish)
        : notebook_(notebook), copy_(copy), writer_(writer), wish_(wish) {}

    // `database`: the copy that is backed up.
    Done all(const fs::path& database) {
        if (auto listed = list_files(); !listed) return listed;
        if (auto put = put_one("notebook/notebook.db", database, true); !put) return put.failure();
        for (const auto& photo : photos_)
            if (auto put = put_photo(photo); !put) return put;
        for (const auto& within : others_)
            if (auto put = put_other(within); !put) return put;
        std::string list;
        for (const auto& entry : entries)
            list += entry.hash + "  " + entry.name + '\n';
        return writer_.put_text(std::string(kHashList), list);
    }

    std::vector<ArchiveEntry> entries;
    std::vector<std::string> left_out;
    std::size_t photos = 0;

  private:
    // Photos by their records, and whatever else the folder holds; links are not followed there.
    Done list_files() {
        auto held = list_photos(copy_);
        if (!held) return held.failure();
        photos_ = std::move(*held);
        std::set<fs::path> known;
        for (const auto& photo : photos_)
            if (!photo.in_place) known.insert(photo.file.lexically_normal());
        std::error_code error;
        for (fs::recursive_directory_iterator at(notebook_, error), end; !error && at != end;
             at.increment(error)) {
            const auto within = at->path().lexically_relative(notebook_);
            std::error_code ignored;
            const auto status = at->symlink_status(ignored);
            if (is_left_out(within)) {
                if (fs::is_directory(status)) at.disable_recursion_pending();
            } else if (fs::is_symlink(status) && !known.contains(within)) {
                left_out.push_back(safe_utf8(within.native()) +
                                   " is a link and is not taken along; photos behind it are.");
            } else if (fs::is_regular_file(status) && !known.contains(within)) {
                others_.push_back(within);
            }
        }
        std::ranges::sort(others_);
        if (!error) return done();
        return Failure{FailureKind::io, "The folder " + safe_utf8(notebook_.native()) +
                                            " cannot be read: " + error.message() + "."};
    }

    Result<ArchiveEntry> put_one(const std::string& name, const fs::path& from, bool packed) {
        if (wish_.progress)
            wish_.progress(entries.size(), photos_.size() + others_.size() + 1, name);
        if (wish_.stop.stop_requested()) return stopped();
        auto entry = writer_.put_file(name, from, packed, wish_.stop);
        if (!entry && entry.failure().kind == FailureKind::cancelled) return stopped();
        if (entry) entries.push_back(*entry);
        return entry;
    }

    Done put_photo(const Photo& photo) {
        const auto from = photo.in_place ? photo.file : notebook_ / photo.file;
        const std::string name = photo.in_place
                                     ? std::string(kOutsidePart) + photo.hash +
                                           fs::path(photo.original_name).extension().native()
                                     : std::string(kNotebookPart) + photo.file.native();
        const std::string number = "Photo " + std::to_string(photo.id.value) + ", ";
        if (!photo.in_place && !stays_within(photo.file.native())) {
            left_out.push_back(number + safe_utf8(photo.file.native()) +
                               ", is left out: its file does not lie within the notebook.");
            return done();
        }
        std::error_code error;
        if (!fs::is_regular_file(from, error)) {
            left_out.push_back(number + safe_utf8(from.native()) +
                               ", is not there and is left out; `fettlebook check` tells more.");
            return done();
        }
        if (!can_be_named(name)) {
            left_out.push_back(number + safe_utf8(name) +
                               ", is left out: its name holds signs that a backup cannot take.");
            return done();
        }
        auto entry = put_one(name, from, false);
        if (!entry) return entry.failure();
        ++photos;
        if (entry->hash != photo.hash)
            left_out.push_back(number + safe_utf8(from.native()) +
                               ", is no longer the file that was taken in; it is in the backup as "
                               "it is now.");
        return done();
    }

    Done put_other(const fs::path& within) {
        const auto name = std::string(kNotebookPart) + within.native();
        std::error_code error;
        if (!fs::exists(notebook_ / within, error)) return done(); // gone meanwhile
        if (!can_be_named(name)) {
            left_out.push_back(safe_utf8(within.native()) +
                               " is left out: its name holds signs that a backup cannot take.");
            return done();
        }
        auto entry = put_one(name, notebook_ / within, true);
        return entry ? done() : Done(entry.failure());
    }

    const fs::path& notebook_;
    const Notebook& copy_;
    ArchiveWriter& writer_;
    const BackupWish& wish_;
    std::vector<Photo> photos_;
    std::vector<fs::path> others_;
};

Done may_stand_there(const fs::path& notebook, const fs::path& file) {
    const std::string name = safe_utf8(file.native());
    std::error_code error;
    if (fs::is_directory(file, error))
        return Failure{FailureKind::refused,
                       name + " is a folder: name a file in it, such as " +
                           safe_utf8((file / proposed_backup(notebook).filename()).native()) + "."};
    const auto within =
        fs::weakly_canonical(file, error).lexically_relative(fs::weakly_canonical(notebook, error));
    if (!within.empty() && *within.begin() != "..")
        return Failure{FailureKind::refused,
                       name + " lies within the notebook, which would be lost with it: name a file "
                              "elsewhere, best on another disk."};
    if (fs::exists(file, error) && !is_backup(file))
        return Failure{FailureKind::refused, name + " is there already and is no backup of "
                                                    "Fettlebook: name another file."};
    return done();
}

// The copy of the database, sound; opened for reading.
Result<Notebook> copied_database(const fs::path& notebook, const Staging& staging,
                                 const BackupWish& wish) {
    auto book = Notebook::open(notebook, store::Access::read);
    if (!book) return book.failure();
    const auto copy = staging.folder() / "notebook.db";
    if (auto copied = copy_database_to(*book, copy, wish.stop); !copied)
        return copied.failure().kind == FailureKind::cancelled ? stopped() : copied.failure();
    if (auto sound = look_at_database(copy); !sound)
        return Failure{sound.failure().kind,
                       "The notebook's database is damaged, and no backup was made of it: an older "
                       "one is worth more. `fettlebook check` tells what is wrong.",
                       sound.failure().detail};
    return Notebook::open(staging.folder(), store::Access::read);
}

void remember(const fs::path& notebook, const BackupReport& report) {
    const DataJson json{
        {"file", safe_utf8(report.file.native())}, {"made", report.made}, {"files", report.files}};
    // A notebook that cannot be written to goes without.
    (void)write_whole(notebook / kLastBackup, json.dump(2) + '\n');
}

} // namespace

Result<BackupReport> back_up(const fs::path& notebook, const fs::path& wanted,
                             const BackupWish& wish) {
    const auto file = fs::absolute(wanted).lexically_normal();
    const auto folder = fs::absolute(notebook).lexically_normal();
    if (auto may = may_stand_there(folder, file); !may) return may.failure();
    auto staging = Staging::begin(file);
    if (!staging) return staging.failure();
    auto copy = copied_database(folder, *staging, wish);
    if (!copy) return copy.failure();
    auto writer = ArchiveWriter::create(staging->zip());
    if (!writer) return writer.failure();

    BackupReport report{.file = file, .made = to_iso(now())};
    BackingUp backing(folder, *copy, *writer, wish);
    if (auto all = backing.all(staging->folder() / "notebook.db"); !all) return all.failure();
    for (const auto& entry : backing.entries)
        report.bytes += entry.bytes;
    report.files = backing.entries.size();
    report.photos = backing.photos;
    report.left_out = std::move(backing.left_out);
    const DataJson head{{"fettlebook_backup", kBackupForm},
                        {"schema", kNewestSchema},
                        {"made", report.made},
                        {"files", report.files},
                        {"bytes", report.bytes},
                        {"left_out", report.left_out}};
    if (auto put = writer->put_text(std::string(kBackupHead), head.dump(2) + '\n'); !put)
        return put.failure();
    if (auto finished = writer->finish(); !finished) return finished.failure();

    auto read = read_through(staging->zip(), {}, wish);
    if (!read) {
        if (read.failure().kind == FailureKind::cancelled) return stopped();
        return Failure{FailureKind::io,
                       "The backup did not read back as it was written, and was not kept: try "
                       "another disk.",
                       read.failure().sentence};
    }
    if (auto kept = keep_whole(staging->zip(), file); !kept) return kept.failure();
    remember(folder, report);
    return report;
}

std::optional<LastBackup> last_backup(const fs::path& notebook) {
    std::ifstream in(notebook / kLastBackup, std::ios::binary);
    const auto json = DataJson::parse(in, nullptr, false);
    if (!json.is_object() || !json.contains("file") || !json["file"].is_string() ||
        !json.contains("made") || !json["made"].is_string() ||
        !parse_moment(json["made"].get<std::string>()))
        return {};
    return LastBackup{json["file"].get<std::string>(), json["made"].get<std::string>(),
                      json.value("files", std::size_t{0})};
}

fs::path proposed_backup(const fs::path& notebook) {
    auto place = fs::absolute(notebook).lexically_normal();
    if (!place.has_filename()) place = place.parent_path();
    const char* home = std::getenv("HOME");
    const auto last = last_backup(place);
    const auto folder = last                   ? last->file.parent_path()
                        : home && *home == '/' ? fs::path(home)
                                               : place.parent_path();
    return folder / (place.filename().native() + "-" + to_iso(today()) + ".zip");
}

} // namespace fettle::desk
