// The photos of a book copied into a folder beside what is written: each once, as JPEG that holds
// its pixels alone.
#pragma once

#include "desk/book_pdf.h"

#include <map>

namespace fettle::desk {

// "photo-12.jpg"; of a part of it "photo-12-420-310-180-90.jpg".
std::string file_name_of(const Shot& shot);
// All shots of the content, each once.
std::vector<Shot> shots_in(const BookContent& content);
// Those that could be read, with their sizes, by file name. Copies of an earlier book that it does
// not name any more are taken away. Fails with io and cancelled.
Result<std::map<std::string, photos::Size>> copy_shots(const BookContent& content,
                                                       const std::filesystem::path& folder,
                                                       const BookFileWish& wish,
                                                       BookFileReport& report);

// Refused when the folder holds anything but what `mark`, a file of an earlier one that holds the
// word Fettlebook, says to be ours. Makes it when it is missing.
Done claim_folder(const std::filesystem::path& folder, const std::string& mark);

} // namespace fettle::desk
