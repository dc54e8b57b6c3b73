#include "store/fault_disk.h"

#include "temp_folder.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>

namespace store_tests {
namespace {

constexpr std::size_t kSector = 512;

// What SQLite sees as a file; the real one lies behind it in the same memory.
struct Shim {
    sqlite3_file base;
    FaultDisk* disk;
    FaultDisk::Image* image; // nullptr: a file of no consequence
    sqlite3_file* real;
};

Shim& shim(sqlite3_file* file) {
    return *reinterpret_cast<Shim*>(file);
}

sqlite3_file* real(sqlite3_file* file) {
    return shim(file).real;
}

using Call = FaultDisk::Call;

int close_file(sqlite3_file* file) {
    return real(file)->pMethods->xClose(real(file));
}

int read(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
    if (int error = shim(file).disk->result_of(Call::read)) return error;
    return real(file)->pMethods->xRead(real(file), to, size, at);
}

int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
    if (int error = shim(file).disk->result_of(Call::write)) return error;
    if (auto* image = shim(file).image)
        image->since.push_back(
            {at, {static_cast<const char*>(from), static_cast<std::size_t>(size)}});
    return real(file)->pMethods->xWrite(real(file), from, size, at);
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
    if (int error = shim(file).disk->result_of(Call::truncate)) return error;
    if (auto* image = shim(file).image) image->since.push_back({size, {}, true});
    return real(file)->pMethods->xTruncate(real(file), size);
}

void put(std::string& content, const FaultDisk::Write& write, std::size_t bytes) {
    const auto at = static_cast<std::size_t>(write.at);
    if (write.cut) return content.resize(at);
    content.resize(std::max(content.size(), at + bytes));
    content.replace(at, bytes, write.bytes, 0, bytes);
}

int sync(sqlite3_file* file, int) {
    if (int error = shim(file).disk->result_of(Call::sync)) return error;
    if (auto* image = shim(file).image) {
        if (!image->synced) image->synced.emplace();
        for (const auto& write : image->since)
            put(*image->synced, write, write.bytes.size());
        image->since.clear();
    }
    return SQLITE_OK;
}

int size_of(sqlite3_file* file, sqlite3_int64* size) {
    return real(file)->pMethods->xFileSize(real(file), size);
}
int lock(sqlite3_file* file, int level) {
    return real(file)->pMethods->xLock(real(file), level);
}
int unlock(sqlite3_file* file, int level) {
    return real(file)->pMethods->xUnlock(real(file), level);
}
int reserved(sqlite3_file* file, int* is) {
    return real(file)->pMethods->xCheckReservedLock(real(file), is);
}
int control(sqlite3_file* file, int what, void* with) {
    return real(file)->pMethods->xFileControl(real(file), what, with);
}
int sector(sqlite3_file* file) {
    return real(file)->pMethods->xSectorSize(real(file));
}
int traits(sqlite3_file* file) {
    return real(file)->pMethods->xDeviceCharacteristics(real(file));
}
int share(sqlite3_file* file, int page, int size, int extend, void volatile** at) {
    if (int error = shim(file).disk->result_of(Call::share)) return error;
    return real(file)->pMethods->xShmMap(real(file), page, size, extend, at);
}
int share_lock(sqlite3_file* file, int offset, int count, int flags) {
    return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}
void share_barrier(sqlite3_file* file) {
    real(file)->pMethods->xShmBarrier(real(file));
}
int share_end(sqlite3_file* file, int remove) {
    return real(file)->pMethods->xShmUnmap(real(file), remove);
}

constexpr sqlite3_io_methods kMethods{
    2,        close_file, read,   write,  truncate, sync,       size_of,       lock,     unlock,
    reserved, control,    sector, traits, share,    share_lock, share_barrier, share_end};

FaultDisk& disk_of(sqlite3_vfs* vfs) {
    return *static_cast<FaultDisk*>(vfs->pAppData);
}

sqlite3_vfs* below() {
    static sqlite3_vfs* const found = sqlite3_vfs_find("unix");
    return found;
}

int open_file(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* got) {
    auto& opened = shim(file);
    opened = {};
    if (int error = disk_of(vfs).result_of(Call::open)) return error;
    opened.disk = &disk_of(vfs);
    opened.real = reinterpret_cast<sqlite3_file*>(&opened + 1);
    constexpr int kKept = SQLITE_OPEN_MAIN_DB | SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_WAL;
    if (name && (flags & kKept)) {
        opened.image = &opened.disk->image(name);
        if (opened.image->removed) *opened.image = {}; // a new file of that name
    }
    const int code = below()->xOpen(below(), name, opened.real, flags, got);
    if (code == SQLITE_OK) opened.base.pMethods = &kMethods;
    return code;
}

int remove_file(sqlite3_vfs* vfs, const char* name, int synced) {
    if (int error = disk_of(vfs).result_of(Call::remove)) return error;
    auto& image = disk_of(vfs).image(name);
    image.removed = true;
    if (synced) image = {};
    return below()->xDelete(below(), name, 0);
}

int error_of(Call call) {
    switch (call) {
    case Call::open:
        return SQLITE_CANTOPEN;
    case Call::read:
        return SQLITE_IOERR_READ;
    case Call::write:
        return SQLITE_IOERR_WRITE;
    case Call::truncate:
        return SQLITE_IOERR_TRUNCATE;
    case Call::sync:
        return SQLITE_IOERR_FSYNC;
    case Call::remove:
        return SQLITE_IOERR_DELETE;
    case Call::share:
        break;
    }
    return SQLITE_IOERR_SHMMAP;
}

} // namespace

FaultDisk::FaultDisk() : vfs_(std::make_unique<sqlite3_vfs>(*below())) {
    vfs_->zName = "fault-disk";
    vfs_->szOsFile = static_cast<int>(sizeof(Shim)) + below()->szOsFile;
    vfs_->pAppData = this;
    vfs_->pNext = nullptr;
    vfs_->xOpen = open_file;
    vfs_->xDelete = remove_file;
    sqlite3_vfs_register(vfs_.get(), 1);
}

FaultDisk::~FaultDisk() {
    sqlite3_vfs_unregister(vfs_.get());
    sqlite3_vfs_register(below(), 1);
}

void FaultDisk::fail_at(Fault fault, long call) {
    fault_ = fault;
    fail_at_ = call;
    calls_ = 0;
    failed_ = false;
}

void FaultDisk::heal() {
    fault_ = Fault::none;
}

int FaultDisk::result_of(Call call) {
    ++calls_;
    if (fault_ == Fault::none || calls_ < fail_at_) return SQLITE_OK;
    if (fault_ == Fault::full && call != Call::write) return SQLITE_OK;
    if (fault_ == Fault::once && failed_) return SQLITE_OK;
    failed_ = true;
    return fault_ == Fault::full ? SQLITE_FULL : error_of(call);
}

FaultDisk::Image& FaultDisk::image(const std::string& file) {
    const auto [place, fresh] = images_.try_emplace(file);
    if (fresh && std::filesystem::exists(file)) place->second.synced = file_text(file);
    return place->second;
}

void FaultDisk::settle(std::mt19937_64& random, double chance) {
    std::bernoulli_distribution there(chance);
    for (auto& [file, image] : images_) {
        // The index of the log beside it lived in memory.
        const auto ending = file.rfind("-wal");
        std::filesystem::remove(file.substr(0, ending) + "-shm");
        const bool gone = image.removed && there(random);
        if (gone || (!image.synced && !there(random))) {
            std::filesystem::remove(file);
            continue;
        }
        auto content = image.synced.value_or("");
        for (const auto& write : image.since) {
            if (!there(random)) continue;
            auto bytes = write.bytes.size();
            if (there(random)) bytes = std::min(bytes, (random() % 9) * kSector);
            put(content, write, bytes);
        }
        write_file(file, content);
    }
    images_.clear();
}

} // namespace store_tests
