#include "desk/book_html.h"

#include "base/text.h"
#include "base/whole_file.h"
#include "calc/plot_svg.h"
#include "desk/book_html_style.h"
#include "desk/book_photos.h"
#include "desk/book_written_out.h"

#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using Sizes = std::map<std::string, photos::Size>;

std::string element(const std::string& name, const std::string& inside,
                    const std::string& attributes = {}) {
    return "<" + name + (attributes.empty() ? "" : " " + attributes) + ">" + inside + "</" + name +
           ">\n";
}

std::string with_breaks(const std::string& text) {
    std::string lines;
    for (const auto line : split(text, '\n'))
        lines += (lines.empty() ? "" : "<br>\n") + escaped_html(line);
    return lines;
}

const char* class_of(calc::NoteLevel level) {
    switch (level) {
    case calc::NoteLevel::stop:
        return "stop";
    case calc::NoteLevel::caution:
        return "caution";
    case calc::NoteLevel::reached:
        return "reached";
    case calc::NoteLevel::info:
        break;
    }
    return "info";
}

// Writes blocks one after the other; what they belong to is opened and closed between them.
class Page {
  public:
    explicit Page(const Sizes& sizes) : sizes_(sizes) {}

    void chapter(const Chapter& chapter) {
        text += "<section id=\"" + own_id(chapter.anchor) + "\">\n" +
                element("h2", escaped_html(chapter.title));
        for (const auto& block : chapter.blocks) {
            std::visit([this](const auto& one) { add(one); }, block);
        }
        end_entry();
        text += "</section>\n";
    }

    std::string figure(const Shot& shot, const std::string& kind) const {
        const auto size = sizes_.find(file_name_of(shot));
        std::string inside;
        if (size == sizes_.end())
            inside = element("p", "photo " + std::to_string(shot.photo.value) + " cannot be read",
                             "class=\"missing\"");
        else
            inside = "<img src=\"photos/" + size->first + "\" alt=\"" + escaped_html(shot.shows) +
                     "\" width=\"" + std::to_string(size->second.width) + "\" height=\"" +
                     std::to_string(size->second.height) + "\">\n";
        if (!shot.caption.empty()) inside += element("figcaption", escaped_html(shot.caption));
        const std::string id = shot.anchor.empty() ? "" : "id=\"" + shot.anchor + "\" ";
        return element("figure", inside, id + "class=\"" + kind + "\"");
    }

    std::string own_id(const std::string& wanted) {
        std::string id = wanted;
        for (int number = 2; !ids_.insert(id).second; ++number)
            id = wanted + "-" + std::to_string(number);
        return id;
    }

    std::string text;

  private:
    void end_entry() {
        if (in_entry_) text += "</div>\n</article>\n";
        in_entry_ = false;
    }

    void add(const Words& words) {
        switch (words.kind) {
        case Words::Kind::fine:
            text += element("p", with_breaks(words.text), "class=\"fine\"");
            return;
        case Words::Kind::working:
            text += element("p", with_breaks(words.text), "class=\"working\"");
            return;
        case Words::Kind::body:
            text += element("p", with_breaks(words.text));
        }
    }
    void add(const Written& written) { text += html_of(written.blocks, 4); }
    void add(const Title& title) {
        if (title.level <= 2) end_entry();
        text += element(title.level <= 2 ? "h3" : "h4", escaped_html(title.text),
                        title.anchor.empty() ? "" : "id=\"" + own_id(title.anchor) + "\"");
    }
    void add(const Aside& aside) {
        end_entry();
        in_entry_ = true;
        text += "<article>\n<div class=\"beside\">\n" + element("h3", escaped_html(aside.head));
        for (const auto& line : aside.lines)
            text += element("p", escaped_html(line));
        text += "</div>\n<div class=\"told\">\n";
    }
    void add(const Facts& facts) {
        text += "<dl class=\"facts\">\n";
        for (const auto& [what, said] : facts.lines)
            text += element("dt", escaped_html(what)) + element("dd", with_breaks(said));
        text += "</dl>\n";
    }
    void add(const TableOf& table) {
        text += "<div class=\"wide\">\n<table>\n";
        if (!table.label.empty()) text += element("caption", escaped_html(table.label));
        if (!table.headings.empty()) {
            text += "<thead><tr>\n";
            for (const auto& heading : table.headings)
                text += element("th", escaped_html(heading), "scope=\"col\"");
            text += "</tr></thead>\n";
        }
        text += "<tbody>\n";
        for (std::size_t at = 0; at < table.rows.size(); ++at)
            row(table, at);
        text += "</tbody>\n</table>\n</div>\n";
    }
    void row(const TableOf& table, std::size_t at) {
        const auto& cells = table.rows[at];
        text += "<tr>\n";
        for (std::size_t column = 0; column < cells.size(); ++column) {
            std::string cell = with_breaks(cells[column]);
            if (at < table.small.size() && column < table.small[at].size() &&
                table.small[at][column] != cells[column])
                cell += "<br><small>" + escaped_html(table.small[at][column]) + "</small>";
            text += element("td", cell);
        }
        text += "</tr>\n";
    }
    void add(const Shots& shots) {
        const bool marks = !shots.shots.empty() && shots.shots.front().part;
        text += "<div class=\"shots\">\n";
        for (const auto& shot : shots.shots)
            text += figure(shot, marks ? "mark" : "shot");
        text += "</div>\n";
    }
    void add(const BeforeAfter& pair) {
        text += element("div", figure(pair.before, "shot") + figure(pair.after, "shot"),
                        "class=\"shots pair\"");
    }
    void add(const Notice& notice) {
        const std::string kind = class_of(notice.level);
        const std::string said = notice.level == calc::NoteLevel::info
                                     ? std::string()
                                     : "<strong>" + kind + "</strong> ";
        text += element("p", said + with_breaks(notice.text), "class=\"note " + kind + "\"");
    }
    void add(const Drawing& drawing) {
        text += element("figure", calc::chart_in_html(drawing.chart), "class=\"chart\"");
    }
    void add(const SheetEdge& edge) {
        if (edge.begins)
            text += "<div class=\"sheet\">\n" + element("h4", escaped_html(edge.title)) +
                    element("p", escaped_html(edge.by), "class=\"fine\"");
        else
            text += "</div>\n";
    }

    const Sizes& sizes_;
    std::set<std::string> ids_;
    bool in_entry_ = false;
};

std::string front_of(const BookContent& content, const Page& page) {
    std::string front = element("p", escaped_html(content.subject), "class=\"subject\"") +
                        element("h1", escaped_html(content.title));
    for (const auto& line : {content.lines, content.period})
        if (!line.empty()) front += element("p", escaped_html(line));
    if (content.cover) front += page.figure(*content.cover, "cover");
    if (!content.figures.empty()) {
        front += "<ul class=\"figures\">\n";
        for (const auto& [number, what] : content.figures)
            front += element("li",
                             "<strong>" + escaped_html(number) + "</strong> " + escaped_html(what));
        front += "</ul>\n";
    }
    return element("header", front + element("p", escaped_html(content.made), "class=\"fine\""));
}

std::string page_of(const BookContent& content, const Sizes& sizes) {
    const std::string title = escaped_html(content.title + ", " + content.subject);
    Page page(sizes);
    std::string contents;
    for (const auto& chapter : content.chapters) {
        contents += element("li", "<a href=\"#" + chapter.anchor + "\">" +
                                      escaped_html(chapter.title) + "</a>");
        page.chapter(chapter);
    }
    if (!contents.empty())
        contents = element("nav", element("h2", "Contents") + element("ol", contents));
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta name=\"generator\" content=\"Fettlebook\">\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"script-src 'none'; object-src "
           "'none'; base-uri 'none'; form-action 'none'\">\n"
           "<title>" +
           title + "</title>\n<style>\n" + kBookStyle + "</style>\n</head>\n<body>\n" +
           front_of(content, page) + contents + element("main", page.text) + "</body>\n</html>\n";
}

} // namespace

std::string escaped_html(std::string_view text) {
    std::string safe;
    for (const char letter : safe_utf8(text)) {
        switch (letter) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        case '"':
            safe += "&quot;";
            break;
        case '\'':
            safe += "&#39;";
            break;
        default: // control characters have no place in it
            safe += static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f ? ' ' : letter;
        }
    }
    return safe;
}

Result<BookFileReport> write_book_html(const BookContent& content, const fs::path& folder,
                                       const BookFileWish& wish) {
    if (auto claimed = claim_folder(folder, "index.html"); !claimed) return claimed.failure();
    BookFileReport report;
    auto sizes = copy_shots(content, folder / "photos", wish, report);
    if (!sizes) return sizes.failure();
    if (auto written = write_whole(folder / "index.html", page_of(content, *sizes)); !written)
        return written.failure();
    return report;
}

} // namespace fettle::desk
