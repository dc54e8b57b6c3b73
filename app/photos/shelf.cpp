#include "photos/shelf.h"

#include "base/private_place.h"
#include "base/whole_file.h"
#include "photos/file_bytes.h"
#include "photos/hashing.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <vector>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kChunk = 1 << 20;
constexpr std::string_view kHalfCopy = ".half-copy-";

Failure stopped() {
    return {FailureKind::cancelled, "The copying was stopped."};
}

// A copy in the making, under a hidden name. Gone with this object unless it was given its own
// name.
class HalfCopy {
  public:
    static Result<HalfCopy> start(const fs::path& folder) {
        fs::path path;
        const int descriptor = make_private_file(folder, kHalfCopy, "", path);
        if (descriptor < 0) return file_failure(folder, "cannot be written to", errno);
        return HalfCopy(std::move(path), descriptor);
    }
    HalfCopy(HalfCopy&& other) noexcept
        : path_(std::exchange(other.path_, {})),
          descriptor_(std::exchange(other.descriptor_, -1)) {}
    HalfCopy& operator=(HalfCopy&&) = delete;
    ~HalfCopy() {
        if (descriptor_ >= 0) close(descriptor_);
        if (!path_.empty()) unlink(path_.c_str());
    }

    Done write(std::span<const std::byte> bytes) {
        while (!bytes.empty()) {
            const ssize_t wrote = ::write(descriptor_, bytes.data(), bytes.size());
            if (wrote < 0 && errno == EINTR) continue;
            if (wrote < 0) return failure("cannot be written to");
            bytes = bytes.subspan(static_cast<std::size_t>(wrote));
        }
        return done();
    }

    // On disk, with the given times and as open to others as the umask says.
    Done settle(const struct stat& original) {
        const timespec times[2] = {original.st_atim, original.st_mtim};
        errno = let_others(descriptor_, let_by_umask(0666));
        if (errno != 0 || futimens(descriptor_, times) != 0 || fsync(descriptor_) != 0)
            return failure("cannot be written to");
        return done();
    }

    // Takes the name unless something has it already: then false.
    Result<bool> rename_to(const fs::path& name) {
        int rc = renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, name.c_str(), RENAME_NOREPLACE);
        if (rc != 0 && (errno == EINVAL || errno == ENOSYS)) { // a file system that cannot do that
            if (faccessat(AT_FDCWD, name.c_str(), F_OK, AT_SYMLINK_NOFOLLOW) == 0) return false;
            rc = rename(path_.c_str(), name.c_str());
        }
        if (rc != 0 && errno == EEXIST) return false;
        if (rc != 0) return failure("cannot be written to");
        path_.clear();
        return true;
    }

    const fs::path& path() const { return path_; }

  private:
    HalfCopy(fs::path path, int descriptor) : path_(std::move(path)), descriptor_(descriptor) {}
    Failure failure(const char* what) const {
        return file_failure(path_.parent_path(), what, errno);
    }

    fs::path path_;
    int descriptor_;
};

fs::path folder_of(std::optional<Day> day) {
    if (!day) return fs::path("photos") / "undated";
    std::array<char, 48> text{};
    const int year = int(day->year());
    std::snprintf(text.data(), text.size(), "%04d/%04d-%02u-%02u", year, year,
                  unsigned(day->month()), unsigned(day->day()));
    return fs::path("photos") / text.data();
}

Done copy_bytes(OpenFile& original, HalfCopy& copy, const std::stop_token& stop) {
    std::vector<std::byte> chunk(kChunk);
    for (;;) {
        if (stop.stop_requested()) return stopped();
        auto got = original.read(chunk);
        if (!got) return got.failure();
        if (*got == 0) return done();
        if (auto wrote = copy.write(std::span(chunk).first(*got)); !wrote) return wrote;
    }
}

// A complete copy of the original with the hash of the look, still under its hidden name.
Result<HalfCopy> copied(const fs::path& original, const fs::path& folder, const std::string& hash,
                        const std::stop_token& stop) {
    auto from = OpenFile::open(original);
    if (!from) return from.failure();
    struct stat status {};
    if (fstat(from->descriptor(), &status) != 0)
        return file_failure(original, "cannot be read", errno);
    auto copy = HalfCopy::start(folder);
    if (!copy) return copy.failure();
    if (auto written = copy_bytes(*from, *copy, stop); !written) return written.failure();
    if (auto settled = copy->settle(status); !settled) return settled.failure();
    auto copy_hash = hash_of_file(copy->path(), stop);
    if (!copy_hash) return copy_hash.failure();
    if (*copy_hash != hash)
        return Failure{
            FailureKind::refused,
            spoken_name(original) +
                " is no longer the file that was looked at: it changed meanwhile, or the "
                "copy went wrong. Take it in again.",
            "wanted " + hash + ", copied " + *copy_hash};
    return copy;
}

fs::path numbered(const fs::path& name, int number) {
    if (number == 1) return name;
    return name.stem().native() + "-" + std::to_string(number) + name.extension().native();
}

} // namespace

Result<fs::path> put_on_shelf(const fs::path& notebook, const fs::path& original,
                              const std::string& hash, std::optional<Day> day,
                              const std::stop_token& stop) {
    const auto folder = folder_of(day);
    std::error_code error;
    fs::create_directories(notebook / folder, error);
    if (error) return file_failure(notebook / folder, "cannot be made", error.value());

    auto copy = copied(original, notebook / folder, hash, stop);
    if (!copy) return copy.failure();
    const fs::path name = shelf_name(original);
    for (int number = 1;; ++number) {
        const auto place = folder / numbered(name, number);
        auto renamed = copy->rename_to(notebook / place);
        if (!renamed) return renamed.failure();
        if (*renamed) {
            sync_folder(notebook / folder);
            return place;
        }
        // Left by a run that ended before its record was written: the same picture, kept already.
        if (auto there = hash_of_file(notebook / place, stop); there && *there == hash)
            return place;
    }
}

Result<std::string> hash_of_file(const fs::path& file, const std::stop_token& stop) {
    auto open = OpenFile::open(file);
    if (!open) return open.failure();
    Hashing hashing;
    std::vector<std::byte> chunk(kChunk);
    for (;;) {
        if (stop.stop_requested()) return stopped();
        auto got = open->read(chunk);
        if (!got) return got.failure();
        if (*got == 0) return hashing.digits();
        hashing.add(std::span(chunk).first(*got));
    }
}

std::size_t sweep_half_copies(const fs::path& notebook) {
    std::size_t swept = 0;
    std::error_code error;
    for (fs::recursive_directory_iterator at(notebook / "photos", error), end; !error && at != end;
         at.increment(error)) {
        std::error_code ignored;
        if (at->path().filename().native().starts_with(kHalfCopy) &&
            fs::remove(at->path(), ignored))
            ++swept;
    }
    return swept;
}

} // namespace fettle::photos
