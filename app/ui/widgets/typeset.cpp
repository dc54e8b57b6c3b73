#include "ui/widgets/typeset.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

float text_width(std::string_view text) {
    return ImGui::CalcTextSize(text.data(), text.data() + text.size()).x;
}

// Words over as many lines as the width needs, each at its left or right edge; broken at blanks
// alone, never within a figure. Answers the height they take.
float set_lines(const Page& page, ImVec2 at, Role role, std::string_view words, float wide,
                bool right = false) {
    const float line = ImGui::GetFontSize();
    float y = at.y;
    std::string so_far;
    const auto put = [&] {
        const float shift = right ? wide - text_width(so_far) : 0;
        write_at(page, at.x + shift, y, so_far, role);
        y += line;
    };
    while (!words.empty()) {
        const auto blank = std::min(words.find(' '), words.size());
        const std::string next(words.substr(0, blank));
        const std::string longer = so_far.empty() ? next : so_far + " " + next;
        if (!so_far.empty() && text_width(longer) > wide) {
            put();
            so_far = next;
        } else {
            so_far = longer;
        }
        words.remove_prefix(std::min(blank + 1, words.size()));
    }
    if (!so_far.empty()) put();
    return y - at.y;
}

void hairline(const Page& page, float left, float right, float y, Role role, float opacity) {
    ImGui::GetWindowDrawList()->AddRectFilled(ImVec2(left, y), ImVec2(right, y + page.px(1)),
                                              ImGui::GetColorU32(ImU32(page.tone(role, opacity))));
}

struct FigureColumns {
    float metric = 0, inch = 0, label = 0, gap = 0;
    bool under = false; // the figures stand on a line of their own below the label
};

FigureColumns columns_of(const Page& page, const std::vector<FigureLine>& lines, float width) {
    FigureColumns columns;
    columns.gap = page.px(20);
    float label = 0;
    for (const FigureLine& line : lines) {
        // Sentences among the figures stand below their label and do not widen the column.
        const float wide = text_width(line.metric);
        if (!line.inch.empty() || wide < width / 3) columns.metric = std::max(columns.metric, wide);
        columns.inch = std::max(columns.inch, text_width(line.inch));
        label = std::max(label, text_width(line.label));
    }
    const float most = page.px(560);
    const float figures = columns.metric + (columns.inch > 0 ? columns.inch + columns.gap : 0);
    const float room = std::min(width, most) - figures - columns.gap;
    columns.under = room < std::min(label, page.px(112));
    columns.label = columns.under ? std::min(width, most) : std::max(1.0F, room);
    return columns;
}

void figure_line(Page& page, const std::string& key, const FigureLine& line,
                 const FigureColumns& columns) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float text = ImGui::GetFontSize(), above = page.px(5);
    const float figures = columns.metric + (columns.inch > 0 ? columns.inch + columns.gap : 0);
    const float wide = columns.under ? columns.label : columns.label + columns.gap + figures;
    const float tall =
        set_lines(page, {at.x, at.y + above}, Role::pencil, line.label, columns.label);
    const float words_wide = text_width(line.metric);
    const bool sentence = words_wide > columns.metric + 1;
    const float y = at.y + above + (columns.under || sentence ? tall + page.px(2) : 0);
    const float right = at.x + wide;
    const float metric_right = right - (columns.inch > 0 ? columns.inch + columns.gap : 0);
    float words_tall = text;
    if (sentence)
        words_tall = set_lines(page, {at.x, y}, Role::ink, line.metric, wide);
    else
        write_at(page, metric_right - words_wide, y, line.metric, Role::ink);
    write_at(page, right - text_width(line.inch), y, line.inch, Role::pencil);
    const float bottom = std::max(at.y + above + tall, y + words_tall) + above;
    hairline(page, at.x, right, bottom, Role::rule, 0.6F);
    ImGui::Dummy(ImVec2(wide, bottom - at.y + page.px(1)));
    note(page, key, line.label, line.inch.empty() ? line.metric : line.metric + "  " + line.inch);
}

// A heading in two parts: its words, and its unit below them.
struct Heading {
    std::string words, unit;
};

Heading heading_of(const CellTable& table, std::size_t column) {
    Heading heading{table.headings[column], {}};
    const auto unit_in = [](const std::string& text) {
        const auto comma = text.rfind(", ");
        return comma == std::string::npos ? std::string() : text.substr(comma + 2);
    };
    heading.unit = unit_in(heading.words);
    if (!heading.unit.empty()) heading.words.resize(heading.words.size() - heading.unit.size() - 2);
    if (column >= table.inch_headings.size()) return heading;
    const std::string inch = unit_in(table.inch_headings[column]);
    if (!inch.empty() && inch != heading.unit) heading.unit += " · " + inch;
    return heading;
}

float longest_word(std::string_view text) {
    float longest = 0;
    while (!text.empty()) {
        const auto blank = std::min(text.find(' '), text.size());
        longest = std::max(longest, text_width(text.substr(0, blank)));
        text.remove_prefix(std::min(blank + 1, text.size()));
    }
    return longest;
}

bool is_figure(const std::string& text) {
    return !text.empty() && (std::isdigit(static_cast<unsigned char>(text[0])) != 0 ||
                             text[0] == '-' || text[0] == '+');
}

// The cell in the other system, where it says anything else.
std::string_view inch_cell(const CellTable& table, std::size_t row, std::size_t column) {
    if (row >= table.inch_rows.size() || column >= table.inch_rows[row].size()) return {};
    const std::string& inch = table.inch_rows[row][column];
    return inch == table.rows[row][column] ? std::string_view() : std::string_view(inch);
}

struct Columns {
    std::vector<float> left, width;
    std::vector<bool> figures; // set to the right edge
    float total = 0;
};

Columns layout(const Page& page, const CellTable& table, const std::vector<Heading>& headings) {
    Columns columns;
    const float between = page.px(20);
    for (std::size_t c = 0; c < headings.size(); ++c) {
        float wide = 0;
        bool figures = true;
        {
            const InFace fine(page, Face::fine);
            wide = std::max(longest_word(headings[c].words), text_width(headings[c].unit));
            for (std::size_t r = 0; r < table.inch_rows.size(); ++r)
                wide = std::max(wide, text_width(inch_cell(table, r, c)));
        }
        for (const auto& row : table.rows) {
            if (c >= row.size()) continue;
            wide = std::max(wide, text_width(row[c]));
            figures = figures && (row[c].empty() || is_figure(row[c]));
        }
        columns.left.push_back(columns.total);
        columns.width.push_back(std::ceil(wide));
        columns.figures.push_back(figures);
        columns.total += std::ceil(wide) + between;
    }
    columns.total -= headings.empty() ? 0 : between;
    return columns;
}

void heading_line(const Page& page, const std::vector<Heading>& headings, const Columns& columns) {
    const InFace fine(page, Face::fine);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    float tall = 0;
    for (std::size_t c = 0; c < headings.size(); ++c) {
        const Heading& heading = headings[c];
        const bool right = columns.figures[c];
        const ImVec2 place(at.x + columns.left[c], at.y);
        const float lines =
            set_lines(page, place, Role::pencil, heading.words, columns.width[c], right);
        const float shift = right ? columns.width[c] - text_width(heading.unit) : 0;
        write_at(page, place.x + shift, at.y + lines, heading.unit, Role::pencil);
        tall = std::max(tall, lines + (heading.unit.empty() ? 0 : ImGui::GetFontSize()));
    }
    const float y = at.y + tall + page.px(3);
    hairline(page, at.x, at.x + columns.total, y, Role::pencil, 1);
    ImGui::Dummy(ImVec2(columns.total, tall + page.px(5)));
}

void cell_line(Page& page, const std::string& key, const CellTable& table, std::size_t r,
               const Columns& columns) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float text = ImGui::GetFontSize();
    float tall = text;
    std::string said;
    for (std::size_t c = 0; c < columns.left.size() && c < table.rows[r].size(); ++c) {
        const std::string& cell = table.rows[r][c];
        const float x = at.x + columns.left[c];
        const auto shift = [&](std::string_view words) {
            return columns.figures[c] ? columns.width[c] - text_width(words) : 0.0F;
        };
        write_at(page, x + shift(cell), at.y, cell, Role::ink);
        said += (c > 0 ? "  " : "") + cell;
        const std::string_view inch = inch_cell(table, r, c);
        if (inch.empty()) continue;
        const InFace fine(page, Face::fine);
        write_at(page, x + shift(inch), at.y + text, inch, Role::pencil);
        tall = text + ImGui::GetFontSize();
    }
    ImGui::Dummy(ImVec2(columns.total, tall + page.px(2)));
    note(page, key, "", said);
}

} // namespace

void figure_lines(Page& page, std::string_view key, const std::vector<FigureLine>& lines) {
    const FigureColumns columns = columns_of(page, lines, ImGui::GetContentRegionAvail().x);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    for (const FigureLine& line : lines)
        figure_line(page, std::string(key) + "." + line.id, line, columns);
    ImGui::PopStyleVar();
    gap(page);
}

void cell_table(Page& page, std::string_view key, const CellTable& table) {
    std::vector<Heading> headings;
    for (std::size_t c = 0; c < table.headings.size(); ++c)
        headings.push_back(heading_of(table, c));
    const Columns columns = layout(page, table, headings);
    fine_words(page, table.label, Role::ink);
    const float room = ImGui::GetContentRegionAvail().x;
    const bool wide = columns.total > room;
    const std::string name = std::string(key) + ".wide";
    if (wide) {
        float tall = page.px(40);
        {
            const InFace fine(page, Face::fine);
            tall += 2 * ImGui::GetFontSize();
            if (!table.inch_rows.empty())
                tall += ImGui::GetFontSize() * static_cast<float>(table.rows.size());
        }
        tall += (ImGui::GetFontSize() + page.px(2)) * static_cast<float>(table.rows.size());
        ImGui::BeginChild(name.c_str(), ImVec2(room, tall), false,
                          ImGuiWindowFlags_HorizontalScrollbar);
    }
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    ImGui::BeginGroup();
    heading_line(page, headings, columns);
    for (std::size_t r = 0; r < table.rows.size(); ++r)
        cell_line(page, std::string(key) + "." + std::to_string(r), table, r, columns);
    ImGui::EndGroup();
    ImGui::PopStyleVar();
    if (wide) ImGui::EndChild();
    gap(page);
}

} // namespace fettle::ui
