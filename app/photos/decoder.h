// The caller's side of the photo worker: asks fettlebook-decode about one file at a time.
//
// Foreign bytes are read in the worker alone. A worker that crashes, hangs or answers garbage over
// a file is a Failure naming that file, and the next question starts a fresh one. Owns its worker
// process. Not thread-safe: one Decoder a thread.
#pragma once

#include "base/process.h"
#include "base/result.h"
#include "photos/look.h"
#include "photos/picture.h"
#include "photos/sidecar.h"

#include <atomic>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace fettle::photos {

inline constexpr std::uint64_t kMostFileBytes = 1ull << 30;
inline constexpr std::int64_t kMostPixels = 200'000'000;

// A part of the upright picture in its own pixels, to be shown at `scale` (0 < scale <= 1) pixels
// per picture pixel.
struct Region {
    int x = 0;
    int y = 0;
    int width = 0;
    int height = 0;
    double scale = 1;
};

// A picture as JPEG, upright, holding its pixels alone: no place, no camera, no thumbnail.
struct JpegCopy {
    Size size;
    std::vector<std::byte> jpeg;
};

struct Question;

class Decoder {
  public:
    // The worker is started at the first question. `patience` is the longest one answer may take.
    explicit Decoder(std::filesystem::path program = helper_program("fettlebook-decode"),
                     std::chrono::milliseconds patience = std::chrono::seconds(60));

    // Failures of all, in one sentence that names the file: not_found, io (may not be read),
    // invalid (a folder, not a picture, a format this version cannot read), damaged (nothing to
    // show), refused (over kMostFileBytes or kMostPixels), plugin (the worker died over it).

    // XXH3-128 of the file, 32 hex digits. The worker keeps the bytes for a look() that follows.
    Result<std::string> hash(const std::filesystem::path& file);
    Result<Look> look(const std::filesystem::path& file);

    // The upright picture, shrunk to fit `longest_side`; 0: at full size, as far as one frame holds
    // it (kMostFrameBytes, about 134 megapixels; beyond that ask for regions).
    Result<Picture> picture(const std::filesystem::path& file, int longest_side = 0);

    // A region of the upright picture; refused (invalid) when it reaches outside. The worker keeps
    // the last decoded picture, so neighbouring regions of one file at one scale come cheaply.
    Result<Picture> region(const std::filesystem::path& file, const Region& region);

    // The upright picture as JPEG, shrunk to fit `longest_side` (0: never). A JPEG that need not be
    // shrunk keeps its pixels as they are coded, where its turning can be done so.
    Result<JpegCopy> copy(const std::filesystem::path& file, int longest_side);

    // What this program once wrote into the sidecar (XMP) at `file`.
    Result<Sidecar> sidecar(const std::filesystem::path& file, const Lie& lie);
    // The bytes of a sidecar: those at `file` with our part replaced, or new ones when nothing is
    // there.
    Result<std::vector<std::byte>> packet(const std::filesystem::path& file, const Sidecar& sidecar,
                                          const Lie& lie);
    // The picture file's bytes without the place it was taken at; refused when that cannot be done.
    Result<std::vector<std::byte>> without_place(const std::filesystem::path& file);
    // Cuts the whole upright picture into tiles in the new file `into` (tile_file.h); gives its
    // size. Fails as above, with io when the file cannot be made, and with cancelled when `stop`
    // has become true before it was done: the worker is ended then. Whenever it fails nothing of
    // its own is left there.
    Result<Size> cut(const std::filesystem::path& file, const std::filesystem::path& into,
                     const std::atomic<bool>* stop = nullptr);

  private:
    struct Asked {
        const std::filesystem::path& file;
        const std::atomic<bool>* stop = nullptr;
        int hand_over = -1;
    };
    Result<Frame> ask(std::string_view question, const Asked& asked);
    template <class T>
    Result<T> answer(const Question& question, const Asked& asked, Result<T> (*read)(Frame));

    std::filesystem::path program_;
    std::chrono::milliseconds patience_;
    std::optional<WorkerProcess> worker_;
    int answers_ = 0; // of the running worker
};

} // namespace fettle::photos
