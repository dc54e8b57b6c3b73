// Copies of many photos as JPEG, in their order, made by several workers a little ahead of whoever
// takes them: the pictures' pixels alone, as large as wanted. Knows no notebook.
#pragma once

#include "notebook/marks.h"
#include "photos/decoder.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

namespace fettle::desk {

struct CopyWish {
    std::filesystem::path file;
    int longest_side = 0;       // pixels; 0: as it is
    std::optional<Region> part; // nothing: all of it
};

class PhotoCopies {
  public:
    // `workers` 0: one a core.
    explicit PhotoCopies(std::vector<CopyWish> wishes, unsigned workers = 0);
    ~PhotoCopies();
    // The copy of the next wish; waits for it. Precondition: there is one.
    Result<photos::JpegCopy> next();

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

Result<photos::JpegCopy> copy_of(photos::Decoder& decoder, const CopyWish& wish);

} // namespace fettle::desk
