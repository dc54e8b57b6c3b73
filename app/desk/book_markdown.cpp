#include "desk/book_markdown.h"

#include "base/text.h"
#include "base/whole_file.h"
#include "calc/plot_svg.h"
#include "desk/book_photos.h"
#include "desk/book_written_out.h"

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using Sizes = std::map<std::string, photos::Size>;

// Lines that the writer ended stay ended (CommonMark 0.30, 6.7: a backslash before the line end).
std::string lines_of(const std::string& text) {
    std::string all;
    for (const auto line : split(text, '\n'))
        all += (all.empty() ? "" : "\\\n") + escaped_markdown(line);
    return all;
}

std::string table_line(const std::vector<std::string>& cells, std::size_t columns) {
    std::string line = "|";
    for (std::size_t at = 0; at < columns; ++at)
        line += " " + (at < cells.size() ? escaped_markdown(cells[at]) : "") + " |";
    return line + "\n";
}

class Writer {
  public:
    Writer(const Sizes& sizes, fs::path folder) : sizes_(sizes), folder_(std::move(folder)) {}

    std::string text;
    Done charts_written = done();

    void write(const Block& block) {
        std::visit([this](const auto& one) { add(one); }, block);
    }

  private:
    void add(const Words& words) { text += lines_of(words.text) + "\n\n"; }
    void add(const Written& written) { text += markdown_of(written.blocks, 4) + "\n"; }
    void add(const Title& title) {
        text += std::string(title.level <= 2 ? "### " : "#### ") + escaped_markdown(title.text) +
                "\n\n";
    }
    void add(const Aside& aside) {
        text += "### " + escaped_markdown(aside.head) + "\n\n";
        if (!aside.lines.empty())
            text += "*" + escaped_markdown(join(aside.lines, " · ")) + "*\n\n";
    }
    void add(const Facts& facts) {
        for (const auto& [what, said] : facts.lines)
            text += "- " + escaped_markdown(what) + ": " + lines_of(said) + "\n";
        text += "\n";
    }
    void add(const TableOf& table) {
        std::size_t columns = table.headings.size();
        for (const auto& row : table.rows)
            columns = std::max(columns, row.size());
        if (columns == 0) return;
        if (!table.label.empty()) text += "**" + escaped_markdown(table.label) + "**\n\n";
        text += table_line(table.headings, columns) + "|";
        for (std::size_t at = 0; at < columns; ++at)
            text += " --- |";
        text += "\n";
        for (std::size_t at = 0; at < table.rows.size(); ++at) {
            text += table_line(table.rows[at], columns);
            if (at < table.small.size() && table.small[at] != table.rows[at])
                text += table_line(table.small[at], columns);
        }
        text += "\n";
    }
    void add(const Shot& shot) {
        const auto name = file_name_of(shot);
        if (sizes_.contains(name))
            text += "![" + escaped_markdown(shot.shows) + "](photos/" + name + ")\n\n";
        else
            text += "photo " + std::to_string(shot.photo.value) + " cannot be read\n\n";
        if (!shot.caption.empty()) text += "*" + escaped_markdown(shot.caption) + "*\n\n";
    }
    void add(const Shots& shots) {
        for (const auto& shot : shots.shots)
            add(shot);
    }
    void add(const BeforeAfter& pair) {
        add(pair.before);
        add(pair.after);
    }
    void add(const Notice& notice) {
        const bool plain = notice.level == calc::NoteLevel::info;
        text += "> " + (plain ? "" : "**" + calc::note_level_name(notice.level) + "** ");
        text += escaped_markdown(notice.text) + "\n\n";
    }
    void add(const Drawing& drawing) {
        const std::string name = "chart-" + std::to_string(++charts_) + ".svg";
        if (charts_written)
            charts_written = write_whole(folder_ / name, calc::chart_svg(drawing.chart));
        text += "![" + escaped_markdown(calc::label_of(drawing.chart)) + "](" + name + ")\n\n";
    }
    void add(const SheetEdge& edge) {
        if (edge.begins)
            text += "#### " + escaped_markdown(edge.title) + "\n\n" + escaped_markdown(edge.by) +
                    "\n\n";
    }

    const Sizes& sizes_;
    fs::path folder_;
    int charts_ = 0;
};

} // namespace

std::string escaped_markdown(std::string_view text) {
    constexpr std::string_view kSigns = "\\`*_[]<>#|~&!";
    std::string safe;
    const auto plain = safe_utf8(text);
    for (std::size_t at = 0; at < plain.size(); ++at) {
        const char letter = plain[at];
        const bool item = at > 0 && (letter == '.' || letter == ')') &&
                          safe.find_first_not_of("0123456789") == std::string::npos &&
                          (at + 1 == plain.size() || plain[at + 1] == ' ');
        const bool rule = at == 0 && (letter == '-' || letter == '+' || letter == '=');
        if (item || rule || kSigns.find(letter) != std::string_view::npos) safe += '\\';
        safe += static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f ? ' ' : letter;
    }
    return safe;
}

Result<BookFileReport> write_book_markdown(const BookContent& content, const fs::path& folder,
                                           const BookFileWish& wish) {
    if (auto claimed = claim_folder(folder, kMarkdownFile); !claimed) return claimed.failure();
    BookFileReport report;
    auto sizes = copy_shots(content, folder / "photos", wish, report);
    if (!sizes) return sizes.failure();
    Writer writer(*sizes, folder);
    std::string& text = writer.text;
    text = "<!-- made by Fettlebook -->\n\n# " + escaped_markdown(content.title) + "\n\n" +
           escaped_markdown(content.subject) + ", " + escaped_markdown(content.period) + "\n\n";
    std::vector<std::string> figures;
    for (const auto& [number, what] : content.figures)
        figures.push_back(number + " " + what);
    if (!figures.empty()) text += escaped_markdown(join(figures, ", ")) + "\n\n";
    for (const auto& chapter : content.chapters) {
        text += "## " + escaped_markdown(chapter.title) + "\n\n";
        for (const auto& block : chapter.blocks)
            writer.write(block);
    }
    if (!writer.charts_written) return writer.charts_written.failure();
    if (auto written = write_whole(folder / kMarkdownFile, text); !written)
        return written.failure();
    return report;
}

} // namespace fettle::desk
