#include "photos/decoder.h"

#include "photos/file_bytes.h"
#include "photos/sidecar_wire.h"
#include "photos/wire.h"

#include <fcntl.h>

#include <cerrno>
#include <cstring>
#include <utility>

namespace fettle::photos {
namespace {

// A progressive picture of kMostPixels takes about 4 GiB: its coefficients, its pixels, and those
// once more when they are turned.
constexpr WorkerLimits kLimits{.address_space_bytes = 6ull << 30, .cpu_seconds = 3600};

// Libraries may leak and the processor limit counts a worker's whole life, so none gets old.
constexpr int kAnswersOfOneWorker = 500;

Failure about(const std::filesystem::path& file, Failure failure) {
    if (failure.kind == FailureKind::plugin)
        failure.sentence = spoken_name(file) +
                           " could not be decoded by the worker process: " + failure.sentence + ".";
    return failure;
}

} // namespace

Decoder::Decoder(std::filesystem::path program, std::chrono::milliseconds patience)
    : program_(std::move(program)), patience_(patience) {}

Result<Frame> Decoder::ask(std::string_view question, const Asked& asked) {
    if (answers_ >= kAnswersOfOneWorker) worker_.reset();
    if (!worker_ || !worker_->running()) {
        worker_.reset();
        auto started = WorkerProcess::start(program_, {}, kLimits);
        if (!started) return started.failure();
        worker_ = std::move(*started);
        answers_ = 0;
    }
    ++answers_;
    return worker_->ask(question, std::as_bytes(std::span(asked.file.native())), patience_,
                        asked.stop, asked.hand_over);
}

template <class T>
Result<T> Decoder::answer(const Question& question, const Asked& asked, Result<T> (*read)(Frame)) {
    const auto& file = asked.file;
    auto frame = ask(to_text(question), asked);
    if (!frame) return about(file, frame.failure());
    auto answer = read(std::move(*frame));
    if (!answer) {
        if (answer.failure().kind == FailureKind::plugin)
            worker_.reset(); // not to be trusted again
        return about(file, answer.failure());
    }
    return answer;
}

Result<std::string> Decoder::hash(const std::filesystem::path& file) {
    return answer({Question::Kind::hash, 0, {}, {}}, {file}, hash_from);
}

Result<Look> Decoder::look(const std::filesystem::path& file) {
    return answer({Question::Kind::look, 0, {}, {}}, {file}, look_from);
}

Result<Picture> Decoder::picture(const std::filesystem::path& file, int longest_side) {
    return answer({Question::Kind::picture, longest_side, {}, {}}, {file}, picture_from);
}

Result<Picture> Decoder::region(const std::filesystem::path& file, const Region& region) {
    return answer({Question::Kind::region, 0, region, {}}, {file}, picture_from);
}

Result<JpegCopy> Decoder::copy(const std::filesystem::path& file, int longest_side) {
    return answer({Question::Kind::copy, longest_side, {}, {}}, {file}, copy_from);
}

Result<Sidecar> Decoder::sidecar(const std::filesystem::path& file, const Lie& lie) {
    return answer({Question::Kind::sidecar, 0, {}, to_text(SidecarWish{lie, {}})}, {file},
                  sidecar_from);
}

Result<std::vector<std::byte>> Decoder::packet(const std::filesystem::path& file,
                                               const Sidecar& sidecar, const Lie& lie) {
    return answer({Question::Kind::packet, 0, {}, to_text(SidecarWish{lie, sidecar})}, {file},
                  bytes_from);
}

Result<std::vector<std::byte>> Decoder::without_place(const std::filesystem::path& file) {
    return answer({Question::Kind::without_place, 0, {}, {}}, {file}, bytes_from);
}

Result<Size> Decoder::cut(const std::filesystem::path& file, const std::filesystem::path& into,
                          const std::atomic<bool>* stop) {
    const HandedFile tiles(
        ::open(into.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600));
    if (tiles.descriptor() < 0)
        return Failure{FailureKind::io,
                       "The tiles of the picture could not be kept in " +
                           into.parent_path().string() + ": see that the disk has room.",
                       std::strerror(errno)};
    auto cut =
        answer({Question::Kind::cut, 0, {}, {}}, {file, stop, tiles.descriptor()}, size_from);
    std::error_code gone;
    if (!cut) std::filesystem::remove(into, gone);
    return cut;
}

} // namespace fettle::photos
