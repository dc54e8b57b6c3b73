// The write-ahead log that SQLite keeps beside a database, read by its published format
// (sqlite.org/fileformat2.html#walformat): a head, then frames, each a page as an act left it, held
// together by sums that go on from frame to frame. SQLite reads up to the first frame that does not
// agree and takes the rest for never written; here each frame is judged by the sum noted in the one
// before it, so that what lies behind a damaged frame can be told, and saved.
//
// Takes whatever bytes there are; nothing in them is believed before it was checked.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <vector>

namespace fettle::store {

std::filesystem::path log_of(const std::filesystem::path& database); // "notebook.db-wal"

class WriteAheadLog {
  public:
    // Of a database's file; one without a log has an empty one. Fails with io.
    static Result<WriteAheadLog> read(const std::filesystem::path& database);

    bool empty() const { return bytes_.empty(); }
    bool has_sound_head() const { return has_sound_head_; }
    // Changes whenever the log is begun anew; the upper half then grows by one.
    std::uint64_t salt() const { return salt_; }
    // Frames that SQLite reads: up to the end of the last act before anything damaged.
    std::size_t readable() const;
    // Frames of this log that do not agree, before its last sound one.
    std::size_t damaged() const;

    // The first page as the last act that SQLite reads left it; empty when no act wrote it.
    std::vector<unsigned char> first_page() const;
    // Writes every sound frame to its place in a database file, up to the last end of an act,
    // whatever is damaged in between. Fails with io.
    Done lay_over(const std::filesystem::path& database) const;

  private:
    explicit WriteAheadLog(std::vector<unsigned char> bytes);
    void read_head();
    void read_frames();

    struct Frame {
        std::size_t at = 0;     // of its page's bytes
        std::uint32_t page = 0; // its number
        bool ends_act = false;
        bool sound = false;
    };
    std::size_t last_end(bool past_damage) const; // frames up to and with it

    std::vector<unsigned char> bytes_;
    std::vector<Frame> frames_;
    std::uint64_t salt_ = 0;
    std::size_t page_size_ = 4096;
    bool has_sound_head_ = false, is_big_endian_ = false;
};

} // namespace fettle::store
