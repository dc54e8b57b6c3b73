#include "base/whole_file.h"

#include "base/text.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <system_error>

namespace fettle {

namespace fs = std::filesystem;

WholeFile::WholeFile(fs::path file) : file_(std::move(file)), half_(file_.native() + ".half") {
    descriptor_ = open(half_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (descriptor_ < 0) error_ = errno;
}

WholeFile::~WholeFile() {
    if (descriptor_ < 0) return;
    close(descriptor_);
    std::error_code ignored;
    fs::remove(half_, ignored);
}

bool WholeFile::write(std::string_view bytes) {
    while (error_ == 0 && !bytes.empty()) {
        const auto written = ::write(descriptor_, bytes.data(), bytes.size());
        if (written > 0)
            bytes.remove_prefix(static_cast<std::size_t>(written));
        else if (errno != EINTR)
            error_ = errno;
    }
    return error_ == 0;
}

Done WholeFile::keep() {
    std::error_code error;
    if (descriptor_ >= 0) {
        if (error_ == 0 && fsync(descriptor_) != 0 && errno != EINVAL) // a pipe cannot
            error_ = errno;
        if (close(descriptor_) != 0 && error_ == 0) error_ = errno;
        descriptor_ = -1;
        if (error_ == 0) fs::rename(half_, file_, error);
        if (error) error_ = error.value();
        if (error_ != 0) fs::remove(half_, error);
    }
    if (error_ == 0) return done();
    return Failure{FailureKind::io, "The file " + safe_utf8(file_.native()) +
                                        " cannot be written: " + std::strerror(error_) + "."};
}

Done write_whole(const fs::path& file, std::string_view bytes) {
    WholeFile whole(file);
    whole.write(bytes);
    return whole.keep();
}

} // namespace fettle
