#include "photos/parcel.h"

#include "base/half_folder.h"
#include "base/private_place.h"
#include "base/text.h"
#include "base/whole_file.h"
#include "photos/file_bytes.h"
#include "photos/hashing.h"

#include <unistd.h>

#include <fstream>
#include <span>
#include <utility>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

constexpr int kParcel = 0x46544c50; // "FTLP"
constexpr int kForm = 1;
constexpr std::size_t kPiece = 1 << 20;
constexpr const char* kChanges = ""; // what the pieces of the changes are filed under

std::string told_sentence(const fs::path& file, const std::string& what) {
    return safe_utf8(file.native()) + ' ' + what;
}

Failure stopped() {
    return {FailureKind::cancelled, "The carrying was stopped."};
}

Failure no_parcel(const fs::path& file) {
    return {FailureKind::damaged,
            told_sentence(file, "is not a set that was carried from a notebook.")};
}

Failure damaged(const fs::path& file) {
    return {FailureKind::damaged,
            told_sentence(file, "is damaged: it is not as it was written. Carry it again.")};
}

void add_text(Hashing& hashing, std::string_view text) {
    const auto length = std::to_string(text.size()) + ':';
    for (const std::string_view part : {std::string_view(length), text})
        hashing.add(std::as_bytes(std::span(part.data(), part.size())));
}

// Over all but the bytes of photos, which have their own hashes.
std::string check_of(const std::string& told, const store::Blob& changes,
                     store::Database& database) {
    Hashing hashing;
    add_text(hashing, told);
    add_text(hashing, {reinterpret_cast<const char*>(changes.data()), changes.size()});
    auto row = database.query("SELECT hash FROM photos ORDER BY hash");
    while (row.next())
        add_text(hashing, row.get<std::string>(0));
    return hashing.digits();
}

void put_piece(store::Database& database, std::string_view of, int number,
               std::span<const std::byte> bytes) {
    database.run("INSERT INTO pieces(of, number, bytes) VALUES (?, ?, ?)", of, number, bytes);
}

} // namespace

namespace {

// An older set may be written over; nothing else.
bool is_parcel(const fs::path& file) {
    try {
        return store::Database(file, store::Access::read).application_id() == kParcel;
    } catch (const store::Trouble&) {
        return false;
    }
}

} // namespace

ParcelWriter::ParcelWriter(fs::path file, fs::path half, store::Database database)
    : file_(std::move(file)), half_(std::move(half)), database_(std::move(database)) {}

ParcelWriter::ParcelWriter(ParcelWriter&& other) noexcept
    : file_(std::move(other.file_)),
      half_(std::exchange(other.half_, {})),
      database_(std::move(other.database_)) {
    other.database_.reset();
}

ParcelWriter::~ParcelWriter() {
    database_.reset();
    std::error_code error;
    if (!half_.empty()) fs::remove(half_, error);
}

Result<ParcelWriter> ParcelWriter::begin(const fs::path& file) {
    std::error_code error;
    if (fs::is_directory(file, error))
        return Failure{FailureKind::invalid,
                       told_sentence(file, "is a folder: name the file to carry in.")};
    if (fs::exists(file, error) && !is_parcel(file))
        return Failure{FailureKind::refused,
                       told_sentence(file, "is there already and is no set that was carried: name "
                                           "another file.")};
    const auto before = file.filename().native() + '-';
    sweep_left_halves(file.parent_path(), before, ".half");
    fs::path half;
    const int made =
        make_private_file(file.has_parent_path() ? file.parent_path() : ".", before, ".half", half);
    if (made >= 0) close(made); // empty: SQLite begins in it
    try {
        ParcelWriter writer(file, half, store::Database(half, store::Access::scratch));
        writer.database_->run_script(
            "PRAGMA application_id = " + std::to_string(kParcel) +
            "; PRAGMA user_version = " + std::to_string(kForm) +
            "; BEGIN;"
            "CREATE TABLE told (told TEXT NOT NULL, proof TEXT NOT NULL) STRICT;"
            "CREATE TABLE photos (hash TEXT PRIMARY KEY) STRICT;"
            "CREATE TABLE pieces (of TEXT NOT NULL, number INTEGER NOT NULL, bytes BLOB NOT NULL, "
            "PRIMARY KEY (of, number)) STRICT;");
        return writer;
    } catch (const store::Trouble& trouble) {
        return Failure{FailureKind::io,
                       told_sentence(file, "cannot be written: is its folder there, and may it be "
                                           "written to?"),
                       trouble.failure().detail};
    }
}

Done ParcelWriter::add_photo(const std::string& hash, const fs::path& photo,
                             const std::stop_token& stop) {
    auto open = OpenFile::open(photo);
    if (!open) return open.failure();
    try {
        database_->run("SAVEPOINT photo");
        const auto give_up = [&](Failure failure) -> Done {
            database_->run_script("ROLLBACK TO photo; RELEASE photo;");
            return failure;
        };
        Hashing hashing;
        std::vector<std::byte> piece(kPiece);
        for (int number = 0;; ++number) {
            if (stop.stop_requested()) return give_up(stopped());
            auto got = open->read(piece);
            if (!got) return give_up(got.failure());
            if (*got == 0) break;
            const auto bytes = std::span<const std::byte>(piece).first(*got);
            hashing.add(bytes);
            put_piece(*database_, hash, number, bytes);
        }
        if (hashing.digits() != hash)
            return give_up({FailureKind::refused,
                            spoken_name(photo) + " is no longer the file that was taken in."});
        database_->run("INSERT INTO photos(hash) VALUES (?)", hash);
        database_->run("RELEASE photo");
        return done();
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Done ParcelWriter::seal(const std::string& told, const store::Blob& changes) {
    try {
        const std::span<const std::byte> all(changes);
        for (std::size_t at = 0, number = 0; at < all.size(); at += kPiece, ++number)
            put_piece(*database_, kChanges, static_cast<int>(number),
                      all.subspan(at, std::min(kPiece, all.size() - at)));
        database_->run("INSERT INTO told(told, proof) VALUES (?, ?)", told,
                       check_of(told, changes, *database_));
        database_->run("COMMIT");
        database_.reset();
        return keep_whole(std::exchange(half_, {}), file_);
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Result<Parcel> Parcel::open(const fs::path& file) {
    std::error_code error;
    if (!fs::exists(file, error))
        return Failure{FailureKind::not_found,
                       "There is no file " + fettle::quoted(safe_utf8(file.native())) + '.'};
    if (!is_parcel(file)) return no_parcel(file);
    try {
        store::Database database(file, store::Access::read);
        if (database.user_version() > kForm)
            return Failure{FailureKind::newer,
                           told_sentence(file, "was carried by a later version of Fettlebook: "
                                               "bring this machine to the same version.")};
        // Nothing but the tables: no view or trigger is to run.
        database.run("PRAGMA trusted_schema = OFF");
        auto others = database.query(
            "SELECT 1 FROM sqlite_schema WHERE NOT ((type = 'table' AND name IN ('told', 'photos', "
            "'pieces')) OR (type = 'index' AND sql IS NULL))");
        if (others.next()) return no_parcel(file);
        Parcel parcel(std::move(database));
        auto& db = parcel.database_;
        auto told = db.query("SELECT told, proof FROM told");
        if (!told.next()) return damaged(file);
        parcel.told_ = told.get<std::string>(0);
        auto piece = db.query("SELECT bytes FROM pieces WHERE of = ? ORDER BY number", kChanges);
        while (piece.next()) {
            const auto bytes = piece.get<store::Blob>(0);
            parcel.changes_.insert(parcel.changes_.end(), bytes.begin(), bytes.end());
        }
        if (told.get<std::string>(1) != check_of(parcel.told_, parcel.changes_, db))
            return damaged(file);
        auto photo = db.query("SELECT hash FROM photos ORDER BY hash");
        while (photo.next())
            parcel.photos_.push_back(photo.get<std::string>(0));
        return parcel;
    } catch (const store::Trouble& trouble) {
        return Failure{damaged(file).kind, damaged(file).sentence, trouble.failure().detail};
    }
}

Done Parcel::unpack_photo(const std::string& hash, const fs::path& into,
                          const std::stop_token& stop) {
    std::ofstream out(into, std::ios::binary | std::ios::trunc);
    Hashing hashing;
    try {
        auto piece = database_.query("SELECT bytes FROM pieces WHERE of = ? ORDER BY number", hash);
        while (piece.next()) {
            if (stop.stop_requested()) return stopped();
            const auto bytes = piece.get<store::Blob>(0);
            hashing.add(bytes);
            out.write(reinterpret_cast<const char*>(bytes.data()),
                      static_cast<std::streamsize>(bytes.size()));
        }
    } catch (const store::Trouble& trouble) {
        return Failure{FailureKind::damaged, "A photo in the set is damaged: carry it again.",
                       trouble.failure().detail};
    }
    if (!out.flush())
        return Failure{FailureKind::io, "A photo of the set cannot be written to " +
                                            safe_utf8(into.parent_path().native()) + '.'};
    if (hashing.digits() != hash)
        return Failure{FailureKind::damaged, "A photo in the set is damaged: carry it again.",
                       hash};
    return done();
}

} // namespace fettle::photos
