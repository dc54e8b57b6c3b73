#include "base/private_place.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <random>
#include <string>

namespace fettle {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostBefore = 200; // of the 255 bytes a name may have
constexpr int kLetters = 8, kTries = 100;

std::string letters_by_chance() {
    std::random_device chance; // the kernel's, by getrandom or the processor's own
    std::uniform_int_distribution<int> letter('a', 'z');
    std::string letters;
    for (int at = 0; at < kLetters; ++at)
        letters += static_cast<char>(letter(chance));
    return letters;
}

int reason_of(int change_of_mode) {
    return change_of_mode == 0 || errno == EPERM || errno == ENOTSUP ? 0 : errno;
}

} // namespace

std::string_view private_before(std::string_view before) {
    return before.substr(0, kMostBefore);
}

fs::path private_name(const fs::path& folder, std::string_view before, std::string_view after) {
    return folder / (std::string(private_before(before)) + std::to_string(getpid()) + '-' +
                     letters_by_chance() + std::string(after));
}

int make_private_file(const fs::path& folder, std::string_view before, std::string_view after,
                      fs::path& made) {
    for (int tries = 0; tries < kTries; ++tries) {
        made = private_name(folder, before, after);
        const int descriptor =
            open(made.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
        if (descriptor >= 0 || errno != EEXIST) return descriptor;
    }
    return -1;
}

int make_private_folder(const fs::path& folder, std::string_view before, std::string_view after,
                        fs::path& made) {
    for (int tries = 0; tries < kTries; ++tries) {
        made = private_name(folder, before, after);
        if (mkdir(made.c_str(), 0700) == 0) return 0;
        if (errno != EEXIST) break;
    }
    return errno;
}

// umask() alone can tell it, by changing it, which other threads would feel.
mode_t let_by_umask(mode_t most) {
    constexpr std::string_view kUmask = "Umask:";
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);)
        if (line.starts_with(kUmask))
            return most &
                   ~static_cast<mode_t>(std::strtoul(line.c_str() + kUmask.size(), nullptr, 8));
    return most & 0700;
}

mode_t mode_in_place_of(const fs::path& place, mode_t kind, mode_t most) {
    struct stat there {};
    if (lstat(place.c_str(), &there) == 0 && (there.st_mode & S_IFMT) == kind &&
        there.st_uid == geteuid())
        return there.st_mode & most;
    return let_by_umask(most);
}

int let_others(int descriptor, mode_t mode) {
    return reason_of(fchmod(descriptor, mode));
}

int let_others(const fs::path& made, mode_t mode) {
    return reason_of(chmod(made.c_str(), mode));
}

} // namespace fettle
