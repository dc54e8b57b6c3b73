#include "desk/backup_contents.h"

#include "base/text.h"
#include "desk/data_values.h"
#include "notebook/schema/schema.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostOfList = 256 << 20;

Failure damaged(const fs::path& file, const std::string& how) {
    return {FailureKind::damaged,
            "The backup " + safe_utf8(file.native()) + " is not used: " + how + "."};
}

// Of parts that go down only.
bool stays_below(const std::string& name) {
    if (name.empty() || name.find('\0') != std::string::npos) return false;
    return std::ranges::all_of(split(name, '/'), [](std::string_view part) {
        return !part.empty() && part != "." && part != "..";
    });
}

// Where an entry goes; nothing for one that belongs nowhere.
std::optional<fs::path> place_of(const std::string& name) {
    if (!stays_below(name)) return {};
    if (name.starts_with(kNotebookPart)) return fs::path(name.substr(kNotebookPart.size()));
    if (name.starts_with(kOutsidePart))
        return fs::path("photos") / "outside" / name.substr(kOutsidePart.size());
    return {};
}

// A new file that nothing is written through: no link in its way, nothing there before.
class NewFile {
  public:
    explicit NewFile(const fs::path& path) : file_(std::fopen(path.c_str(), "wbx")) {}
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;
    ~NewFile() { close(); }
    bool is_open() const { return file_ != nullptr; }
    bool write(std::span<const std::byte> bytes) {
        return std::fwrite(bytes.data(), 1, bytes.size(), file_) == bytes.size();
    }
    bool close() { return !file_ || std::fclose(std::exchange(file_, nullptr)) == 0; }

  private:
    std::FILE* file_;
};

// One reading from end to end.
class ReadingThrough {
  public:
    ReadingThrough(const fs::path& file, const std::optional<fs::path>& into,
                   const BackupWish& wish)
        : file_(file), into_(into), wish_(wish) {}

    Result<BackupContents> all() {
        if (auto room = look_round(); !room) return room.failure();
        auto reader = ArchiveReader::open(file_);
        if (!reader) return reader.failure();
        for (std::size_t at = 0;;) {
            auto head = reader->next();
            if (!head) return head.failure();
            if (!*head) break;
            if (auto one = entry(*reader, **head); !one) return one.failure();
            if (wish_.progress) wish_.progress(std::min(++at, total_), total_, (*head)->name);
        }
        if (auto read = read_head(); !read) return read.failure();
        if (auto agreed = compare(); !agreed) return agreed.failure();
        return std::move(contents_);
    }

  private:
    // Counts, and sees that there is room, before anything is written.
    Done look_round() {
        auto reader = ArchiveReader::open(file_);
        if (!reader) return reader.failure();
        std::uint64_t bytes = 0;
        for (;;) {
            auto head = reader->next();
            if (!head) return head.failure();
            if (!*head) break;
            ++total_;
            bytes += (*head)->bytes;
        }
        if (!into_) return done();
        std::error_code error;
        const auto room = fs::space(*into_, error);
        if (error || room.available >= bytes) return done();
        return Failure{FailureKind::io, "There is no room for the backup: it needs " +
                                            std::to_string(bytes >> 20) + " MiB, and there are " +
                                            std::to_string(room.available >> 20) + "."};
    }

    Done entry(ArchiveReader& reader, const ArchiveReader::Head& head) {
        if (head.is_folder) return done();
        if (!head.is_plain)
            return damaged(file_, "its entry " + fettle::quoted(head.name) +
                                      " is a link or something else than a plain file");
        if (head.name == kHashList) return text(reader, list_);
        if (head.name == kBackupHead) return text(reader, head_);
        const auto place = place_of(head.name);
        if (!place)
            return damaged(file_, "its entry " + fettle::quoted(head.name) +
                                      " does not lie in notebook/ or outside/");
        if (!places_.insert(place->native()).second)
            return damaged(file_, "its entry " + fettle::quoted(head.name) + " is there twice");
        if (is_folder_as_well(place->native()))
            return damaged(file_, "its entry " + fettle::quoted(head.name) +
                                      " is a file and a folder at once");
        auto hash = into_ ? extracted(reader, *into_ / *place)
                          : reader.read([](auto) { return done(); }, wish_.stop);
        if (!hash) return hash.failure();
        contents_.entries[head.name] = {head.name, *hash, head.bytes};
        return done();
    }

    // Whether another entry lies below this one, or this one below another.
    bool is_folder_as_well(const std::string& place) const {
        const auto below = places_.lower_bound(place + '/');
        if (below != places_.end() && below->starts_with(place + '/')) return true;
        for (auto at = place.find('/'); at != std::string::npos; at = place.find('/', at + 1))
            if (places_.contains(place.substr(0, at))) return true;
        return false;
    }

    Result<std::string> extracted(ArchiveReader& reader, const fs::path& place) {
        std::error_code error;
        fs::create_directories(place.parent_path(), error);
        errno = 0;
        NewFile file(place);
        const std::string cannot_be =
            "The file " + fettle::quoted(place.filename().native()) + " of the backup cannot be ";
        if (!file.is_open())
            return Failure{FailureKind::io, cannot_be + "made: " + std::strerror(errno) + '.'};
        const Failure cannot{FailureKind::io, cannot_be + "written: is there room on the disk?"};
        auto hash = reader.read(
            [&](std::span<const std::byte> piece) {
                return file.write(piece) ? done() : Done(cannot);
            },
            wish_.stop);
        if (hash && !file.close()) return cannot;
        return hash;
    }

    Done text(ArchiveReader& reader, std::string& into) {
        auto read = reader.read(
            [&](std::span<const std::byte> piece) -> Done {
                into.append(reinterpret_cast<const char*>(piece.data()), piece.size());
                if (into.size() <= kMostOfList) return done();
                return damaged(file_, "its list of entries is too long");
            },
            wish_.stop);
        return read ? done() : Done(read.failure());
    }

    Done read_head() {
        const auto json = DataJson::parse(head_, nullptr, false);
        const auto number = [&](const char* key) {
            return json.is_object() && json.contains(key) && json[key].is_number_integer()
                       ? json[key].get<std::int64_t>()
                       : 0;
        };
        if (number("fettlebook_backup") < 1 || number("schema") < 1)
            return damaged(file_, "it is no backup that `fettlebook backup` has written");
        if (number("fettlebook_backup") > kBackupForm || number("schema") > kNewestSchema)
            return Failure{FailureKind::newer,
                           "The backup " + safe_utf8(file_.native()) +
                               " was written by a later version of Fettlebook: restore it with "
                               "that version."};
        contents_.schema = static_cast<int>(number("schema"));
        if (json.contains("made") && json["made"].is_string())
            contents_.made = json["made"].get<std::string>();
        return done();
    }

    // Line by line, `HASH  NAME`.
    Done compare() {
        std::size_t listed = 0;
        for (const auto line : split(list_, '\n')) {
            if (line.empty()) continue;
            const auto blanks = line.find("  ");
            const std::string name(blanks == std::string_view::npos ? line
                                                                    : line.substr(blanks + 2));
            const auto entry = contents_.entries.find(name);
            if (entry == contents_.entries.end())
                return damaged(file_, "its entry " + fettle::quoted(name) + " is missing");
            if (entry->second.hash != line.substr(0, blanks))
                return damaged(file_, "its entry " + fettle::quoted(name) + " is damaged");
            ++listed;
        }
        if (listed != contents_.entries.size())
            return damaged(file_, "it has entries that its list does not name");
        return done();
    }

    const fs::path& file_;
    const std::optional<fs::path>& into_;
    const BackupWish& wish_;
    std::size_t total_ = 0;
    std::string list_, head_;
    std::set<std::string> places_;
    BackupContents contents_;
};

} // namespace

Result<BackupContents> read_through(const fs::path& file, const std::optional<fs::path>& into,
                                    const BackupWish& wish) {
    return ReadingThrough(file, into, wish).all();
}

bool is_backup(const fs::path& file) {
    auto reader = ArchiveReader::open(file);
    if (!reader) return false;
    for (;;) {
        auto head = reader->next();
        if (!head || !*head) return false;
        if ((*head)->name == kBackupHead) return true;
    }
}

} // namespace fettle::desk
