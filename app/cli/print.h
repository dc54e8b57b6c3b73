// How reports are laid out: aligned columns for people, JSON for scripts. Whatever came from files
// or other people is made fit for a terminal here: valid UTF-8, no control characters.
// Pure functions and values; any thread.
#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace fettle::cli {

using Json = nlohmann::ordered_json; // fields in the order they are documented in

// Control characters and line ends as blanks.
std::string one_line(std::string_view text);
// Control characters as blanks, and bytes that are no text as U+FFFD; line ends stay.
std::string harmless(std::string_view text);
// Line ends kept, each line indented by so many blanks; ends with a line end unless empty.
std::string indented(std::string_view text, std::size_t blanks);
// Indented JSON with a line end. Bytes that are not UTF-8 become U+FFFD.
std::string dumped(const Json& json);

// "1 photo", "3 photos"; `noun` takes an s.
std::string counted(std::size_t count, const std::string& noun);

// Rows with their cells one below the other, two blanks apart.
class Columns {
  public:
    // Without headings there is no first line.
    explicit Columns(std::vector<std::string> headings = {}) : headings_(std::move(headings)) {}
    void row(std::vector<std::string> cells);
    // A row of a label and what it says; left out when that is empty.
    void fact(const std::string& label, const std::string& says);
    bool empty() const { return rows_.empty(); }
    std::string text(std::size_t indent = 0) const;

  private:
    std::vector<std::string> headings_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace fettle::cli
