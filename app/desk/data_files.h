// The files that data given out stand in: which there are, what stands at their head, and the
// schema in words. For the two ways, out and in.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>

namespace fettle::desk {

enum class DataForm { json_lines, csv };

// "jsonl/parts.jsonl", "csv/parts.csv"
std::filesystem::path data_file(DataForm form, std::string_view table);
std::filesystem::path data_folder(DataForm form); // "jsonl", "csv"
inline constexpr std::string_view kDataHead = "notebook.json";
inline constexpr std::string_view kDataPhotos = "photos";

// What notebook.json says.
struct DataHead {
    int schema = 0;
    std::string made;                         // ISO 8601
    std::map<std::string, std::int64_t> rows; // of each table
};
std::string head_text(const DataHead& head);
// Refused by one sentence naming the file: missing, damaged, or written by a later version.
Result<DataHead> read_head(const std::filesystem::path& folder);

// README.md of such a folder: the form of the files, then every table and column.
std::string data_readme();

} // namespace fettle::desk
