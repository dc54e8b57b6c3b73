#include "base/whole_file.h"

#include "base/text.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <system_error>

namespace fettle {
namespace {

namespace fs = std::filesystem;

// 0, or the errno of what went wrong.
int write_synced(const fs::path& file, std::string_view bytes) {
    const int descriptor = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (descriptor < 0) return errno;
    int error = 0;
    while (error == 0 && !bytes.empty()) {
        const auto written = ::write(descriptor, bytes.data(), bytes.size());
        if (written > 0)
            bytes.remove_prefix(static_cast<std::size_t>(written));
        else if (errno != EINTR)
            error = errno;
    }
    if (error == 0 && fsync(descriptor) != 0 && errno != EINVAL) error = errno; // a pipe cannot
    if (close(descriptor) != 0 && error == 0) error = errno;
    return error;
}

} // namespace

Done write_whole(const fs::path& file, std::string_view bytes) {
    const fs::path half = file.native() + ".half";
    int reason = write_synced(half, bytes);
    std::error_code error;
    if (reason == 0) fs::rename(half, file, error);
    if (error) reason = error.value();
    if (reason == 0) return done();
    fs::remove(half, error);
    return Failure{FailureKind::io, "The file " + safe_utf8(file.native()) +
                                        " cannot be written: " + std::strerror(reason) + "."};
}

} // namespace fettle
