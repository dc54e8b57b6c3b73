#include "base/half_folder.h"

#include "base/text.h"

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <charconv>
#include <cstring>
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

// "12345" of a process that runs no longer. One of another user that runs is not to be signalled,
// which is not the same.
bool is_ended_process(std::string_view digits) {
    pid_t number = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    return error == std::errc() && end == digits.data() + digits.size() && number > 0 &&
           kill(number, 0) != 0 && errno == ESRCH;
}

std::string_view last_digits(std::string_view text) {
    std::size_t digits = 0;
    while (digits < text.size() &&
           std::isdigit(static_cast<unsigned char>(text[text.size() - 1 - digits])))
        ++digits;
    return text.substr(text.size() - digits);
}

} // namespace

std::vector<fs::path> left_halves(const fs::path& folder, std::string_view before,
                                  std::string_view after) {
    std::vector<fs::path> left;
    std::error_code error;
    for (fs::directory_iterator at(folder.empty() ? "." : folder, error), end; !error && at != end;
         at.increment(error)) {
        const std::string whole = at->path().filename().native();
        std::string_view name = whole;
        if (!name.starts_with(before) || !name.ends_with(after) ||
            name.size() <= before.size() + after.size())
            continue;
        name = name.substr(before.size(), name.size() - before.size() - after.size());
        if (is_ended_process(before.empty() ? last_digits(name) : name)) left.push_back(*at);
    }
    std::ranges::sort(left);
    return left;
}

void sweep_left_halves(const fs::path& folder, std::string_view before, std::string_view after) {
    std::error_code error;
    for (const auto& left : left_halves(folder, before, after))
        fs::remove_all(left, error);
}

Result<HalfFolder> HalfFolder::start(const fs::path& wanted) {
    auto place = fs::absolute(wanted).lexically_normal();
    if (!place.has_filename()) place = place.parent_path(); // "out/"
    std::error_code error;
    const auto status = fs::status(place, error);
    if (fs::exists(status) && !fs::is_directory(status))
        return Failure{FailureKind::refused, "\"" + safe_utf8(wanted.native()) +
                                                 "\" is a file: name a new or empty folder."};
    if (fs::exists(status) && !fs::is_empty(place, error))
        return Failure{FailureKind::refused, "The folder " + safe_utf8(wanted.native()) +
                                                 " is not empty, and was left as it is: name a new "
                                                 "or empty one."};
    fs::create_directories(place.parent_path(), error);
    if (error) return cannot(place.parent_path(), "made", error.message());
    const auto hidden = "." + place.filename().native() + ".half-";
    sweep_left_halves(place.parent_path(), hidden, "");
    const auto half = place.parent_path() / (hidden + std::to_string(getpid()));
    fs::remove_all(half, error); // of a run that was killed and had this number
    if (!fs::create_directory(half, error)) return cannot(wanted, "made", error.message());
    return HalfFolder(place, half);
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
    // An empty folder of that name gives way; anything else stops it.
    if (rename(half_.c_str(), wanted_.c_str()) != 0)
        return cannot(wanted_, "given its name", std::strerror(errno));
    half_.clear();
    sync_all(wanted_.parent_path());
    return done();
}

} // namespace fettle
