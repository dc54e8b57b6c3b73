#include "cli/print.h"

#include "base/text.h"

#include <algorithm>

namespace fettle::cli {
namespace {

// C0, DEL, and the C1 controls, which UTF-8 writes as C2 80 to C2 9F: terminals obey both.
std::string without_controls(std::string_view bytes, bool keep_line_ends) {
    const std::string text = safe_utf8(bytes);
    std::string plain;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const auto byte = static_cast<unsigned char>(text[at]);
        const bool c1 = byte == 0xC2 && static_cast<unsigned char>(text[at + 1]) < 0xA0;
        if (keep_line_ends && byte == '\n') {
            plain += '\n';
        } else if (byte < 0x20 || byte == 0x7F || c1) {
            plain += ' ';
            at += c1 ? 1 : 0;
        } else {
            plain += text[at];
        }
    }
    return plain;
}

std::size_t width(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::count_if(
        text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }));
}

std::string laid_out(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                     std::size_t indent) {
    std::string line(indent, ' ');
    for (std::size_t at = 0; at < cells.size(); ++at)
        line += cells[at] + std::string(widths[at] - width(cells[at]) + 2, ' ');
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
}

} // namespace

std::string one_line(std::string_view text) {
    return without_controls(text, false);
}

std::string harmless(std::string_view text) {
    return without_controls(text, true);
}

std::string indented(std::string_view text, std::size_t blanks) {
    const std::string plain = without_controls(trim(text), true);
    if (plain.empty()) return {};
    std::string lines;
    for (auto line : split(plain, '\n'))
        lines += std::string(line.empty() ? 0 : blanks, ' ') + std::string(line) + '\n';
    return lines;
}

std::string dumped(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string counted(std::size_t count, const std::string& noun) {
    return std::to_string(count) + ' ' + noun + (count == 1 ? "" : "s");
}

void Columns::row(std::vector<std::string> cells) {
    for (auto& cell : cells)
        cell = one_line(cell);
    rows_.push_back(std::move(cells));
}

void Columns::fact(const std::string& label, const std::string& says) {
    if (!says.empty()) row({label, says});
}

std::string Columns::text(std::size_t indent) const {
    std::vector<std::size_t> widths(headings_.size());
    for (std::size_t at = 0; at < headings_.size(); ++at)
        widths[at] = width(headings_[at]);
    for (const auto& cells : rows_) {
        widths.resize(std::max(widths.size(), cells.size()));
        for (std::size_t at = 0; at < cells.size(); ++at)
            widths[at] = std::max(widths[at], width(cells[at]));
    }
    std::string lines;
    if (!headings_.empty()) lines += laid_out(headings_, widths, indent);
    for (const auto& cells : rows_)
        lines += laid_out(cells, widths, indent);
    return lines;
}

} // namespace fettle::cli
