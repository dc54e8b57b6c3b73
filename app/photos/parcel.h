// A parcel: what goes from one machine to the other, as one file. It holds a text of what it is, a
// block of changes and photo files by their hash; the notebook's part of it is the notebook's
// affair.
//
// The file is a SQLite database: `told`, `changes`, `photos`. It is made beside its place and moved
// there whole; a check over all of it but the photos, which their own hashes prove, stands inside.
// A parcel comes from elsewhere: what it says of names and paths is never followed. One thread
// each.
#pragma once

#include "store/database.h"

#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::photos {

class ParcelWriter {
  public:
    // Nothing stands at `file` before seal().
    static Result<ParcelWriter> begin(const std::filesystem::path& file);
    // A file that is no longer what its hash says, or cannot be read, fails with refused, not_found
    // or io; the parcel goes on without it.
    Done add_photo(const std::string& hash, const std::filesystem::path& photo,
                   const std::stop_token& stop = {});
    Done seal(const std::string& told, const store::Blob& changes);
    ParcelWriter(ParcelWriter&& other) noexcept;
    ~ParcelWriter(); // removes what was not sealed

  private:
    ParcelWriter(std::filesystem::path file, std::filesystem::path half, store::Database database);
    std::filesystem::path file_, half_;
    std::optional<store::Database> database_;
};

class Parcel {
  public:
    // Fails with not_found, damaged (no parcel, half a parcel, other bytes than were sealed) or io.
    static Result<Parcel> open(const std::filesystem::path& file);
    const std::string& told() const { return told_; }
    const store::Blob& changes() const { return changes_; }
    const std::vector<std::string>& photos() const { return photos_; } // their hashes
    // Writes a photo's bytes into a new file. Fails with damaged when they are not its own.
    Done unpack_photo(const std::string& hash, const std::filesystem::path& into,
                      const std::stop_token& stop = {});

  private:
    explicit Parcel(store::Database database) : database_(std::move(database)) {}
    store::Database database_;
    std::string told_;
    store::Blob changes_;
    std::vector<std::string> photos_;
};

} // namespace fettle::photos
