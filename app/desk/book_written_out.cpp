#include "desk/book_written_out.h"

#include "base/text.h"
#include "desk/book_html.h"
#include "desk/book_markdown.h"

#include <algorithm>
#include <cctype>
#include <utility>

namespace fettle::desk {
namespace {

using Kind = TextBlock::Kind;
using Lines = std::vector<std::string>;
constexpr int kLowestHeading = 6;

int heading_level(const TextBlock& block, int level) {
    return std::min(level + block.level - 1, kLowestHeading);
}

// Items with marks of one kind belong to one list: '2' for "2.", ')' for "2)".
char kind_of_list(const TextBlock& block) {
    if (block.kind != Kind::item) return 0;
    if (block.mark.ends_with(')')) return ')';
    if (block.mark.ends_with('.')) return '2';
    return block.mark == "+" ? '+' : '-';
}

// ---- HTML

std::string in_element(const std::string& name, const std::string& inside) {
    return "<" + name + ">" + inside + "</" + name + ">";
}

std::string html_lines(const std::string& text, const std::string& line_end) {
    std::string html;
    bool first = true;
    for (const auto line : split(text, '\n'))
        html += (std::exchange(first, false) ? "" : line_end) + escaped_html(line);
    return html;
}

std::string html_of_runs(const std::vector<TextRun>& runs) {
    std::string html;
    for (const TextRun& run : runs) {
        std::string text = html_lines(run.text, "<br>\n");
        if (run.code) text = in_element("code", text);
        if (run.emphasis) text = in_element("em", text);
        if (run.strong) text = in_element("strong", text);
        if (!run.leads_to.empty())
            text = "<a href=\"#" + escaped_html(run.leads_to) + "\">" + text + "</a>";
        html += text;
    }
    return html;
}

std::string html_of_item(const TextBlock& item, int level) {
    const bool numbered = kind_of_list(item) == '2' || kind_of_list(item) == ')';
    std::string html = "<li>";
    if (numbered) html = "<li value=\"" + item.mark.substr(0, item.mark.size() - 1) + "\">";
    std::span<const TextBlock> inside = item.inside;
    if (inside.empty()) html += "<br>";
    if (!inside.empty() && inside.front().kind == Kind::paragraph) {
        html += html_of_runs(inside.front().runs) + "\n";
        inside = inside.subspan(1);
    }
    return html + desk::html_of(inside, level) + "</li>\n";
}

std::string html_of_block(const TextBlock& block, int level) {
    switch (block.kind) {
    case Kind::paragraph:
        return in_element("p", html_of_runs(block.runs)) + "\n";
    case Kind::heading:
        return in_element("h" + std::to_string(heading_level(block, level)),
                          html_of_runs(block.runs)) +
               "\n";
    case Kind::code:
        return in_element("pre", in_element("code", html_lines(words_of_runs(block.runs), "\n"))) +
               "\n";
    case Kind::rule:
        return "<hr>\n";
    case Kind::quote:
        return in_element("blockquote", "\n" + desk::html_of(block.inside, level)) + "\n";
    case Kind::item:
        break;
    }
    return html_of_item(block, level);
}

std::string list_begins(char kind) {
    if (kind == '2') return "<ol>\n";
    if (kind == ')') return "<ol class=\"bracket\">\n";
    return kind == '+' ? "<ul class=\"plus\">\n" : "<ul>\n";
}

std::string list_ends(char kind) {
    return kind == '2' || kind == ')' ? "</ol>\n" : "</ul>\n";
}

// ---- Markdown

bool word_at(std::string_view text, std::size_t at) {
    if (at >= text.size()) return false;
    const auto letter = static_cast<unsigned char>(text[at]);
    return letter >= 0x80 || std::isalnum(letter) != 0;
}

// A fence that nothing in the text can end.
std::string fence_around(std::string_view text, std::size_t least) {
    std::size_t longest = 0, count = 0;
    for (const char letter : text) {
        count = letter == '`' ? count + 1 : 0;
        longest = std::max(longest, count);
    }
    return std::string(std::max(least, longest + 1), '`');
}

std::string code_span(const std::string& text) {
    const auto fence = fence_around(text, 1);
    const bool blanks = text.starts_with(' ') && text.ends_with(' ') &&
                        text.find_first_not_of(' ') != std::string::npos;
    const bool apart = text.starts_with('`') || text.ends_with('`') || blanks;
    return fence + (apart ? " " + text + " " : text) + fence;
}

// Runs one after the other; what is strong or emphasised is opened and closed between them, the
// last opened first.
class MarkdownRuns {
  public:
    explicit MarkdownRuns(std::vector<TextRun> runs) : runs_(words_alone(std::move(runs))) {}

    // Lines that the writer ended stay ended (CommonMark 0.30, 6.7).
    Lines lines() {
        for (at_ = 0; at_ < runs_.size(); ++at_) {
            const TextRun& run = runs_[at_];
            set_open(run.strong, run.emphasis);
            if (run.code) {
                lines_.back() += code_span(run.text);
                continue;
            }
            bool first = true;
            for (const auto line : split(run.text, '\n')) {
                if (!std::exchange(first, false)) {
                    lines_.back() += "\\";
                    lines_.emplace_back();
                }
                lines_.back() += escaped_markdown(line);
            }
        }
        set_open(false, false);
        return std::move(lines_);
    }

  private:
    // A name leads nowhere here, so it goes on from the words before it.
    static std::vector<TextRun> words_alone(std::vector<TextRun> runs) {
        std::vector<TextRun> joined;
        for (TextRun& run : runs) {
            run.leads_to.clear();
            const bool goes_on = !joined.empty() && joined.back().strong == run.strong &&
                                 joined.back().emphasis == run.emphasis &&
                                 joined.back().code == run.code;
            if (goes_on)
                joined.back().text += run.text;
            else
                joined.push_back(std::move(run));
        }
        return joined;
    }

    void set_open(bool strong, bool emphasis) {
        const auto wanted = [&](const std::string& sign) {
            return sign == kStrong ? strong : emphasis;
        };
        while (!std::ranges::all_of(open_, wanted)) {
            lines_.back() += open_.back();
            open_.pop_back();
        }
        const auto is_open = [this](bool strong_one) {
            return std::ranges::any_of(
                open_, [&](const std::string& sign) { return (sign == kStrong) == strong_one; });
        };
        if (strong && !is_open(true)) open(kStrong);
        if (emphasis && !is_open(false)) open(touches_words() ? "*" : "_");
    }

    void open(const std::string& sign) {
        lines_.back() += sign;
        open_.push_back(sign);
    }

    // A _ opens or closes nothing beside a letter.
    bool touches_words() const {
        std::size_t after = at_;
        while (after < runs_.size() && runs_[after].emphasis)
            ++after;
        const std::string& line = lines_.back();
        const bool before_words = after < runs_.size() && word_at(runs_[after].text, 0);
        return before_words || (!line.empty() && word_at(line, line.size() - 1));
    }

    static constexpr const char* kStrong = "**";
    std::vector<TextRun> runs_;
    std::size_t at_ = 0;
    Lines lines_ = Lines(1);
    Lines open_; // the signs of what is open
};

Lines markdown_lines(std::span<const TextBlock> blocks, int level);

Lines code_lines(const TextBlock& block) {
    const std::string text = words_of_runs(block.runs);
    const std::string fence = fence_around(text, 3);
    Lines lines{fence};
    for (const auto line : split(text, '\n'))
        lines.emplace_back(line);
    lines.push_back(fence);
    return lines;
}

// `first` before the first line, `others` before the rest, without blanks at the end of a line.
Lines behind(const std::string& first, const std::string& others, Lines lines) {
    if (lines.empty()) lines.emplace_back();
    for (std::size_t at = 0; at < lines.size(); ++at) {
        lines[at] = (at == 0 ? first : others) + lines[at];
        if (lines[at].find_first_not_of(" >") == std::string::npos)
            while (lines[at].ends_with(' '))
                lines[at].pop_back();
    }
    return lines;
}

Lines markdown_lines(const TextBlock& block, int level) {
    switch (block.kind) {
    case Kind::paragraph:
        return MarkdownRuns(block.runs).lines();
    case Kind::heading:
        return {std::string(std::size_t(heading_level(block, level)), '#') + " " +
                join(MarkdownRuns(block.runs).lines(), " ")};
    case Kind::code:
        return code_lines(block);
    case Kind::rule:
        return {"***"};
    case Kind::quote:
        return behind("> ", "> ", markdown_lines(block.inside, level));
    case Kind::item:
        break;
    }
    const std::string mark = block.mark == "•" ? "-" : block.mark;
    return behind(mark + " ", std::string(mark.size() + 1, ' '),
                  markdown_lines(block.inside, level));
}

bool stands_close(const TextBlock& block) {
    return block.inside.empty() ||
           (block.inside.size() == 1 && block.inside.front().kind == Kind::paragraph);
}

Lines markdown_lines(std::span<const TextBlock> blocks, int level) {
    Lines all;
    for (std::size_t at = 0; at < blocks.size(); ++at) {
        const TextBlock& block = blocks[at];
        const bool in_list = at > 0 && kind_of_list(block) != 0 &&
                             kind_of_list(blocks[at - 1]) == kind_of_list(block);
        const bool close = in_list && stands_close(block) && stands_close(blocks[at - 1]);
        if (at > 0 && !close) all.emplace_back();
        for (auto& line : markdown_lines(block, level))
            all.push_back(std::move(line));
    }
    return all;
}

} // namespace

std::string html_of(std::span<const TextBlock> blocks, int level) {
    std::string html;
    char list = 0;
    for (const TextBlock& block : blocks) {
        const char kind = kind_of_list(block);
        if (list != 0 && kind != list) html += list_ends(list);
        if (kind != 0 && kind != list) html += list_begins(kind);
        list = kind;
        html += html_of_block(block, level);
    }
    return list == 0 ? html : html + list_ends(list);
}

std::string markdown_of(std::span<const TextBlock> blocks, int level) {
    const Lines lines = markdown_lines(blocks, level);
    return lines.empty() ? std::string() : join(lines, "\n") + "\n";
}

} // namespace fettle::desk
