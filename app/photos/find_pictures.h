// Which files under some paths are pictures to be taken in, judged by name alone.
// Opens no file; what is really in them is the Decoder's matter.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <string_view>
#include <utility>
#include <vector>

namespace fettle::photos {

struct FoundPictures {
    std::vector<std::filesystem::path> files; // sorted within each path
    std::vector<std::pair<std::filesystem::path, Failure>>
        unreadable; // paths that are not there,
                    // folders that may not be read
};

// By extension, in any case: jpg jpeg jpe mpo heic heif hif avif png webp tif tiff bmp tga gif.
bool is_picture_name(const std::filesystem::path& file);

// What a search of a folder passes over: hidden files, hidden folders, folders called `cache`.
bool is_left_out(const std::filesystem::path& entry, bool is_folder);

// Files named in `paths` are taken whatever they are called. Folders are searched with all their
// subfolders, except hidden ones and those called `cache`; hidden files are left out too. Links are
// followed, no folder is entered twice.
FoundPictures find_pictures(const std::vector<std::filesystem::path>& paths);

} // namespace fettle::photos
