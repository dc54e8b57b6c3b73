#include "desk/archive.h"

#include "base/text.h"
#include "photos/file_bytes.h"
#include "photos/hashing.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>
#include <unzip.h>
#include <zip.h>

#include <cerrno>
#include <cstring>
#include <ctime>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kChunk = 1 << 20;
constexpr unsigned long kMadeOnUnix = 3 << 8, kVersion = 45; // 4.5: zip64
constexpr unsigned long kNamesInUtf8 = 1 << 11;
constexpr unsigned kKind = S_IFMT, kPlain = S_IFREG, kFolder = S_IFDIR;

int sync_file(const fs::path& file) {
    const int descriptor = open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return errno;
    const int error = fsync(descriptor) == 0 ? 0 : errno;
    close(descriptor);
    return error;
}

Failure cannot_be_written(const fs::path& file, int reason) {
    return {FailureKind::io, "The file " + safe_utf8(file.native()) + " cannot be written: " +
                                 (reason > 0 ? std::strerror(reason) : "the disk refused it") +
                                 "."};
}

Failure stopped() {
    return {FailureKind::cancelled, "Stopped."};
}

zip_fileinfo info_of(std::time_t changed) {
    zip_fileinfo info{};
    std::tm local{};
    localtime_r(&changed, &local);
    const auto part = [](int number) { return static_cast<uInt>(number); };
    info.tmz_date = {part(local.tm_sec),  part(local.tm_min), part(local.tm_hour),
                     part(local.tm_mday), part(local.tm_mon), part(local.tm_year + 1900)};
    info.external_fa = static_cast<uLong>(S_IFREG | 0644) << 16;
    return info;
}

} // namespace

void ArchiveWriter::Close::operator()(void* zip) const {
    zipClose(zip, nullptr);
}

ArchiveWriter::ArchiveWriter(fs::path file, void* zip) : file_(std::move(file)), zip_(zip) {}

Failure ArchiveWriter::failure() const {
    return cannot_be_written(file_, errno);
}

Result<ArchiveWriter> ArchiveWriter::create(const fs::path& file) {
    errno = 0;
    ArchiveWriter writer(file, zipOpen64(file.c_str(), APPEND_STATUS_CREATE));
    if (!writer.zip_) return writer.failure();
    return writer;
}

Done ArchiveWriter::begin(const std::string& name, std::int64_t changed, bool packed) {
    const auto info = info_of(static_cast<std::time_t>(changed));
    errno = 0;
    const int code = zipOpenNewFileInZip4_64(
        zip_.get(), name.c_str(), &info, nullptr, 0, nullptr, 0, nullptr, packed ? Z_DEFLATED : 0,
        packed ? Z_DEFAULT_COMPRESSION : 0, 0, -MAX_WBITS, DEF_MEM_LEVEL, Z_DEFAULT_STRATEGY,
        nullptr, 0, kMadeOnUnix | kVersion, kNamesInUtf8, 1);
    return code == ZIP_OK ? done() : Done(failure());
}

Done ArchiveWriter::data(std::span<const std::byte> bytes) {
    errno = 0;
    return zipWriteInFileInZip(zip_.get(), bytes.data(), static_cast<unsigned>(bytes.size())) ==
                   ZIP_OK
               ? done()
               : Done(failure());
}

Result<ArchiveEntry> ArchiveWriter::put_file(const std::string& name, const fs::path& from,
                                             bool packed, const std::stop_token& stop) {
    auto file = photos::OpenFile::open(from);
    if (!file) return file.failure();
    ArchiveEntry entry{name, {}, 0};
    if (auto begun = begin(name, file->stamp().changed_ns / 1'000'000'000, packed); !begun)
        return begun.failure();
    photos::Hashing hashing;
    std::vector<std::byte> chunk(kChunk);
    for (;;) {
        if (stop.stop_requested()) return stopped();
        auto got = file->read(chunk);
        if (!got) return got.failure();
        if (*got == 0) break;
        const auto piece = std::span(chunk).first(*got);
        hashing.add(piece);
        entry.bytes += *got;
        if (auto written = data(piece); !written) return written.failure();
    }
    entry.hash = hashing.digits();
    if (zipCloseFileInZip(zip_.get()) != ZIP_OK) return failure();
    return entry;
}

Done ArchiveWriter::put_text(const std::string& name, const std::string& text) {
    if (auto begun = begin(name, std::time(nullptr), true); !begun) return begun;
    if (auto written = data(std::as_bytes(std::span(text))); !written) return written;
    return zipCloseFileInZip(zip_.get()) == ZIP_OK ? done() : Done(failure());
}

Done ArchiveWriter::finish() {
    errno = 0;
    if (zipClose(zip_.release(), nullptr) != ZIP_OK) return failure();
    const int reason = sync_file(file_);
    return reason == 0 ? done() : Done(cannot_be_written(file_, reason));
}

void ArchiveReader::Close::operator()(void* zip) const {
    unzClose(zip);
}

ArchiveReader::ArchiveReader(fs::path file, void* zip) : file_(std::move(file)), zip_(zip) {}

Failure ArchiveReader::damaged() const {
    return {FailureKind::damaged,
            safe_utf8(file_.native()) + " is damaged, cut short, or no backup."};
}

Result<ArchiveReader> ArchiveReader::open(const fs::path& file) {
    auto plain = photos::OpenFile::open(file); // for its sentence when it is not there
    if (!plain) return plain.failure();
    ArchiveReader reader(file, unzOpen64(file.c_str()));
    if (!reader.zip_) return reader.damaged();
    return reader;
}

Result<std::optional<ArchiveReader::Head>> ArchiveReader::next() {
    const int code = begun_ ? unzGoToNextFile(zip_.get()) : unzGoToFirstFile(zip_.get());
    if (begun_ && code == UNZ_END_OF_LIST_OF_FILE) return std::optional<Head>();
    begun_ = true;
    unz_file_info64 info{};
    std::string name(1 << 16, '\0'); // its length is a number of 16 bits
    if (code != UNZ_OK || unzGetCurrentFileInfo64(zip_.get(), &info, name.data(), name.size(),
                                                  nullptr, 0, nullptr, 0) != UNZ_OK)
        return damaged();
    name.resize(info.size_filename);
    const auto kind = static_cast<unsigned>(info.external_fa >> 16) & kKind;
    const bool is_folder = name.ends_with('/');
    const bool is_packed_as_known =
        info.compression_method == 0 || info.compression_method == Z_DEFLATED;
    if (!is_packed_as_known) return damaged();
    // Archives made elsewhere may say nothing of the kind.
    return std::optional(Head{name, info.uncompressed_size,
                              is_folder && (kind == 0 || kind == kFolder),
                              !is_folder && (kind == 0 || kind == kPlain)});
}

Result<std::string> ArchiveReader::read(const std::function<Done(std::span<const std::byte>)>& take,
                                        const std::stop_token& stop) {
    if (unzOpenCurrentFile(zip_.get()) != UNZ_OK) return damaged();
    photos::Hashing hashing;
    std::vector<std::byte> chunk(kChunk);
    for (;;) {
        if (stop.stop_requested()) return stopped();
        const int got =
            unzReadCurrentFile(zip_.get(), chunk.data(), static_cast<unsigned>(chunk.size()));
        if (got < 0) return damaged();
        if (got == 0) break;
        const auto piece = std::span(chunk).first(static_cast<std::size_t>(got));
        hashing.add(piece);
        if (auto taken = take(piece); !taken) return taken.failure();
    }
    if (unzCloseCurrentFile(zip_.get()) != UNZ_OK) return damaged(); // its CRC-32 is wrong
    return hashing.digits();
}

} // namespace fettle::desk
