#include "store/write_ahead_log.h"

#include "base/text.h"
#include "store/big_endian.h"

#include <algorithm>
#include <bit>
#include <fstream>

namespace fettle::store {
namespace {

namespace fs = std::filesystem;

constexpr std::uint32_t kMagic = 0x377f0682; // one more when the sums are of big-endian numbers
constexpr std::size_t kHead = 32, kFrameHead = 24;

// The running sum of a log, over pairs of 32-bit numbers.
struct Sum {
    std::uint32_t first = 0, second = 0;
    bool operator==(const Sum&) const = default;

    void add(const unsigned char* at, std::size_t bytes, bool is_big_endian) {
        const auto next = [&] {
            const auto number = number_at(at);
            at += 4;
            return is_big_endian ? number : __builtin_bswap32(number);
        };
        for (std::size_t done = 0; done < bytes; done += 8) {
            first += next() + second;
            second += next() + first;
        }
    }
};

Sum sum_at(const unsigned char* at) {
    return {number_at(at), number_at(at + 4)};
}

} // namespace

fs::path log_of(const fs::path& database) {
    return database.native() + "-wal";
}

Result<WriteAheadLog> WriteAheadLog::read(const fs::path& database) {
    const auto file = log_of(database);
    std::error_code error;
    if (!fs::exists(file, error)) return WriteAheadLog({});
    std::vector<unsigned char> bytes(fs::file_size(file, error));
    std::ifstream stream(file, std::ios::binary);
    stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    if (error || !stream)
        return Failure{FailureKind::io, "The log " + safe_utf8(file.native()) + " cannot be read."};
    return WriteAheadLog(std::move(bytes));
}

WriteAheadLog::WriteAheadLog(std::vector<unsigned char> bytes) : bytes_(std::move(bytes)) {
    if (bytes_.size() < kHead) {
        bytes_.clear();
        return;
    }
    read_head();
    read_frames();
}

void WriteAheadLog::read_head() {
    const auto magic = number_at(bytes_.data());
    Sum sum;
    sum.add(bytes_.data(), kHead - 8, magic == kMagic + 1);
    has_sound_head_ = (magic == kMagic || magic == kMagic + 1) && sum == sum_at(&bytes_[24]);
    is_big_endian_ =
        has_sound_head_ ? magic == kMagic + 1 : std::endian::native == std::endian::big;
    const std::size_t size = number_at(&bytes_[8]);
    if (has_sound_head_ && size >= 512 && size <= 65536 && std::has_single_bit(size))
        page_size_ = size;
    // Without a head its first frame knows, too.
    const std::size_t salt = has_sound_head_ ? 16 : kHead + 8;
    if (salt + 8 <= bytes_.size()) salt_ = big_endian(&bytes_[salt], 8);
}

void WriteAheadLog::read_frames() {
    Sum before = sum_at(&bytes_[24]);
    const std::size_t size = kFrameHead + page_size_;
    for (std::size_t at = kHead; at + size <= bytes_.size(); at += size) {
        const unsigned char* head = &bytes_[at];
        Sum sum = before;
        sum.add(head, 8, is_big_endian_);
        sum.add(head + kFrameHead, page_size_, is_big_endian_);
        before = sum_at(head + 16);
        frames_.push_back({at + kFrameHead, number_at(head), number_at(head + 4) != 0,
                           big_endian(head + 8, 8) == salt_ && sum == before});
    }
}

std::size_t WriteAheadLog::last_end(bool past_damage) const {
    std::size_t end = 0;
    for (std::size_t frame = 0; frame < frames_.size(); ++frame) {
        if (!frames_[frame].sound && !past_damage) break;
        if (frames_[frame].sound && frames_[frame].ends_act) end = frame + 1;
    }
    return end;
}

std::size_t WriteAheadLog::readable() const {
    return has_sound_head_ ? last_end(false) : 0;
}

std::size_t WriteAheadLog::damaged() const {
    return static_cast<std::size_t>(std::ranges::count(
        frames_.begin(), frames_.begin() + std::ptrdiff_t(last_end(true)), false, &Frame::sound));
}

std::vector<unsigned char> WriteAheadLog::first_page() const {
    for (std::size_t frame = readable(); frame-- > 0;)
        if (frames_[frame].page == 1) {
            const auto begin = bytes_.begin() + static_cast<std::ptrdiff_t>(frames_[frame].at);
            return {begin, begin + static_cast<std::ptrdiff_t>(page_size_)};
        }
    return {};
}

Done WriteAheadLog::lay_over(const fs::path& database) const {
    std::fstream file(database, std::ios::binary | std::ios::in | std::ios::out);
    const std::size_t end = last_end(true);
    for (std::size_t frame = 0; frame < end; ++frame) {
        if (!frames_[frame].sound || frames_[frame].page == 0) continue;
        file.seekp(
            static_cast<std::streamoff>((frames_[frame].page - std::size_t{1}) * page_size_));
        file.write(reinterpret_cast<const char*>(&bytes_[frames_[frame].at]),
                   static_cast<std::streamsize>(page_size_));
    }
    if (!file.flush())
        return Failure{FailureKind::io,
                       "The file " + safe_utf8(database.native()) + " cannot be written."};
    return done();
}

} // namespace fettle::store
