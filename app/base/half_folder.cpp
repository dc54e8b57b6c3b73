#include "base/half_folder.h"

#include "base/private_place.h"
#include "base/text.h"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <memory>
#include <string>
#include <utility>

namespace fettle {
namespace {

namespace fs = std::filesystem;

Failure cannot(const fs::path& folder, const std::string& what, const std::string& why) {
    return {FailureKind::io,
            "The folder " + safe_utf8(folder.native()) + " cannot be " + what + ": " + why + "."};
}

// All that was written below it, in one go.
int sync_all(const fs::path& folder) {
    const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return errno;
    const int error = syncfs(descriptor) == 0 ? 0 : errno;
    close(descriptor);
    return error;
}

std::string_view last_digits(std::string_view text) {
    std::size_t digits = 0;
    while (digits < text.size() &&
           std::isdigit(static_cast<unsigned char>(text[text.size() - 1 - digits])))
        ++digits;
    return text.substr(text.size() - digits);
}

// "1234" of "1234-qwertyui", as private_name makes it; of earlier versions "1234" alone.
std::string_view without_letters(std::string_view name) {
    const auto dash = name.rfind('-');
    if (dash == std::string_view::npos || dash + 1 == name.size()) return name;
    const bool letters = std::ranges::all_of(name.substr(dash + 1),
                                             [](char sign) { return sign >= 'a' && sign <= 'z'; });
    return letters ? name.substr(0, dash) : name;
}

bool is_mount_root(const fs::path& folder) {
    struct statx found {};
    return statx(AT_FDCWD, folder.c_str(), AT_SYMLINK_NOFOLLOW, 0, &found) == 0 &&
           (found.stx_attributes & STATX_ATTR_MOUNT_ROOT) != 0;
}

// Where the folder is to stand, links to one that is there resolved.
Result<fs::path> place_for(const fs::path& wanted) {
    auto place = fs::absolute(wanted).lexically_normal();
    if (!place.has_filename()) place = place.parent_path(); // "out/"
    std::error_code error;
    const auto status = fs::status(place, error);
    const auto refused = [&](const std::string& why) {
        return Failure{FailureKind::refused, safe_utf8(wanted.native()) + why};
    };
    if (!fs::exists(status)) {
        if (fs::is_symlink(fs::symlink_status(place, error)))
            return refused(" is a link that leads nowhere: name a new or empty folder.");
        return place;
    }
    if (!fs::is_directory(status))
        return Failure{FailureKind::refused, "\"" + safe_utf8(wanted.native()) +
                                                 "\" is a file: name a new or empty folder."};
    place = fs::canonical(place, error);
    if (error) return cannot(wanted, "found", error.message());
    if (!fs::is_empty(place, error))
        return Failure{FailureKind::refused, "The folder " + safe_utf8(wanted.native()) +
                                                 " is not empty, and was left as it is: name a new "
                                                 "or empty one."};
    if (is_mount_root(place))
        return refused(" is where a disk is mounted, which cannot be replaced: name a new folder "
                       "on it, such as " +
                       safe_utf8((place / "notebook").native()) + ".");
    return place;
}

struct CloseListing {
    void operator()(DIR* listing) const { closedir(listing); }
};

bool is_left_half(std::string_view name, std::string_view before, std::string_view after) {
    before = private_before(before);
    if (!name.starts_with(before) || !name.ends_with(after) ||
        name.size() <= before.size() + after.size())
        return false;
    name = without_letters(name.substr(before.size(), name.size() - before.size() - after.size()));
    return is_ended_process(before.empty() ? last_digits(name) : name);
}

} // namespace

bool is_ended_process(std::string_view digits) {
    pid_t number = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    return error == std::errc() && end == digits.data() + digits.size() && number > 0 &&
           kill(number, 0) != 0 && errno == ESRCH;
}

std::vector<fs::path> left_halves(const fs::path& folder, std::string_view before,
                                  std::string_view after) {
    std::vector<fs::path> left;
    const fs::path place = folder.empty() ? "." : folder;
    // Not directory_iterator, which makes a path of each name: this runs for each file written.
    const std::unique_ptr<DIR, CloseListing> listing(opendir(place.c_str()));
    while (const auto* at = listing ? readdir(listing.get()) : nullptr)
        if (is_left_half(at->d_name, before, after)) left.push_back(place / at->d_name);
    std::ranges::sort(left);
    return left;
}

void sweep_left_halves(const fs::path& folder, std::string_view before, std::string_view after) {
    std::error_code error;
    for (const auto& left : left_halves(folder, before, after))
        fs::remove_all(left, error);
}

Result<HalfFolder> HalfFolder::start(const fs::path& wanted) {
    auto place = place_for(wanted);
    if (!place) return place.failure();
    std::error_code error;
    fs::create_directories(place->parent_path(), error);
    if (error) return cannot(place->parent_path(), "made", error.message());
    const auto hidden = "." + place->filename().native() + ".half-";
    sweep_left_halves(place->parent_path(), hidden, "");
    fs::path half;
    if (const int reason = make_private_folder(place->parent_path(), hidden, "", half); reason != 0)
        return cannot(wanted, "made", std::strerror(reason));
    return HalfFolder(std::move(*place), std::move(half));
}

HalfFolder::HalfFolder(HalfFolder&& other) noexcept
    : wanted_(std::move(other.wanted_)), half_(std::exchange(other.half_, {})) {}

HalfFolder::~HalfFolder() {
    std::error_code error;
    if (!half_.empty()) fs::remove_all(half_, error);
}

Done HalfFolder::settle() {
    if (const int reason = sync_all(half_); reason != 0)
        return cannot(wanted_, "written", std::strerror(reason));
    if (const int reason = let_others(half_, mode_in_place_of(wanted_, S_IFDIR, 0777)); reason != 0)
        return cannot(wanted_, "opened to its users", std::strerror(reason));
    // An empty folder of that name gives way; anything else stops it.
    if (rename(half_.c_str(), wanted_.c_str()) != 0)
        return cannot(wanted_, "given its name", std::strerror(errno));
    half_.clear();
    sync_all(wanted_.parent_path());
    return done();
}

} // namespace fettle
