// A disk that fails when told to: a shim over SQLite's own file layer (its VFS), which every
// database opened while it lives goes through. It counts calls, fails them, and remembers which
// writes were brought to the disk by a sync, so that a power cut can be played: only those are sure
// to be there. One thread. Syncs are counted and not passed on, which makes thousands of runs
// quick.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <vector>

struct sqlite3_vfs;

namespace store_tests {

enum class Fault {
    none,
    once, // one call fails with an I/O error, the next works
    full, // no write takes more room, until heal()
    gone, // nothing works any more, until heal(): a stick pulled out, a power cut
};

class FaultDisk {
  public:
    FaultDisk();
    ~FaultDisk();
    FaultDisk(const FaultDisk&) = delete;
    FaultDisk& operator=(const FaultDisk&) = delete;

    // The `call`-th fallible call from now, counted from 1, and what follows of it.
    void fail_at(Fault fault, long call);
    void heal();
    void forget() { images_.clear(); }    // before files are put in place by other means
    long calls() const { return calls_; } // since fail_at
    bool failed() const { return failed_; }

    // After a power cut, with no database open: makes the files what is found on the disk. Of what
    // was not synced each write is there with this chance, perhaps only its first sectors.
    void settle(std::mt19937_64& random, double chance);

    struct Write {
        std::int64_t at = 0;
        std::string bytes;
        bool cut = false; // the file ends at `at`
    };
    struct Image {
        std::optional<std::string> synced; // none: no such file
        std::vector<Write> since;
        bool removed = false;
    };

    // For the shim's functions.
    enum class Call { open, read, write, truncate, sync, remove, share };
    int result_of(Call call); // SQLITE_OK or the error to give
    Image& image(const std::string& file);

  private:
    Fault fault_ = Fault::none;
    long fail_at_ = 0, calls_ = 0;
    bool failed_ = false;
    std::map<std::string, Image> images_;
    std::unique_ptr<sqlite3_vfs> vfs_;
};

} // namespace store_tests
