#include "base/marked_text.h"

#include "base/text.h"

#include <cctype>
#include <optional>

namespace fettle {
namespace {

bool is_word(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0;
}

// Takes off the pairs of * or _ that stand around words; a lone one, as in 3 * 4, stays.
std::string without_emphasis(std::string_view text, char sign) {
    std::string plain;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t run = at;
        while (run < text.size() && text[run] == sign)
            ++run;
        const std::size_t count = run - at;
        if (count == 0) {
            plain += text[at++];
            continue;
        }
        const bool opens =
            run < text.size() && text[run] != ' ' && (at == 0 || !is_word(text[at - 1]));
        const std::string_view marks = text.substr(at, count);
        const std::size_t close = opens && count <= 3 ? text.find(marks, run) : std::string::npos;
        const bool pairs = close != std::string::npos && text[close - 1] != ' ';
        if (!pairs) {
            plain += marks;
            at = run;
            continue;
        }
        plain += without_emphasis(text.substr(run, close - run), sign);
        at = close + count;
    }
    return plain;
}

std::string plain_words(std::string_view text) {
    return without_emphasis(without_emphasis(trim(text), '*'), '_');
}

// The mark of a list item and how much of the line it takes.
std::optional<std::pair<std::string, std::size_t>> item_mark(std::string_view line) {
    if (line.size() > 2 && (line[0] == '-' || line[0] == '*' || line[0] == '+') && line[1] == ' ')
        return std::pair(std::string("•"), std::size_t(2));
    std::size_t digits = 0;
    while (digits < line.size() && line[digits] >= '0' && line[digits] <= '9')
        ++digits;
    if (digits == 0 || digits > 3 || digits + 1 >= line.size()) return std::nullopt;
    if ((line[digits] != '.' && line[digits] != ')') || line[digits + 1] != ' ')
        return std::nullopt;
    return std::pair(std::string(line.substr(0, digits + 1)), digits + 2);
}

std::size_t heading_marks(std::string_view line) {
    std::size_t count = 0;
    while (count < line.size() && line[count] == '#')
        ++count;
    return count > 0 && count <= 6 && count < line.size() && line[count] == ' ' ? count : 0;
}

} // namespace

std::vector<TextBlock> blocks_of(std::string_view markdown) {
    std::vector<TextBlock> blocks;
    bool goes_on = false;
    for (const std::string_view whole : split(markdown, '\n')) {
        const std::string_view line = trim(whole);
        if (line.empty()) {
            goes_on = false;
            continue;
        }
        if (const std::size_t marks = heading_marks(line)) {
            blocks.push_back({TextBlock::Kind::heading, plain_words(line.substr(marks)), {}});
            goes_on = false;
            continue;
        }
        if (const auto mark = item_mark(line)) {
            blocks.push_back(
                {TextBlock::Kind::item, plain_words(line.substr(mark->second)), mark->first});
        } else if (goes_on) {
            blocks.back().text += "\n" + plain_words(line);
        } else {
            blocks.push_back({TextBlock::Kind::paragraph, plain_words(line), {}});
        }
        goes_on = true;
    }
    return blocks;
}

} // namespace fettle
