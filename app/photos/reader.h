// Answers the questions about a picture file. Runs in the worker (fettlebook-decode), which
// alone may read foreign bytes; Decoder is its counterpart on the caller's side and says the same.
// Keeps the bytes hash() read until the next question, and the picture the last region() came from.
#pragma once

#include "base/result.h"
#include "photos/decoder.h"
#include "photos/file_bytes.h"
#include "photos/look.h"
#include "photos/picture.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace fettle::photos {

class Reader {
  public:
    Result<std::string> hash(const std::filesystem::path& file);
    Result<Look> look(const std::filesystem::path& file);
    Result<Picture> picture(const std::filesystem::path& file, int longest_side);
    Result<Picture> region(const std::filesystem::path& file, const Region& region);

    Result<JpegCopy> copy(const std::filesystem::path& file, int longest_side);
    Result<Size> cut(const std::filesystem::path& file, int into);

  private:
    struct Bytes {
        FileStamp stamp;
        std::vector<std::byte> bytes;
    };
    struct Kept {
        FileStamp stamp;
        std::string format;
        Size stored;     // full size, before turning
        Size decoded_as; // the size it was decoded at, before turning
        Size full;       // full size, upright
        Picture upright;
    };

    Result<Bytes> load(const std::filesystem::path& file);
    // Sees to it that kept_ holds the file's picture, at a size no smaller than `scale` asks for.
    Done keep_decoded(const std::filesystem::path& file, double scale);

    std::optional<Bytes> loaded_;
    std::optional<Kept> kept_;
};

} // namespace fettle::photos
