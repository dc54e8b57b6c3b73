#include "ui/screens/money/money.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace fettle::ui {
namespace {

constexpr float kLine = 28, kBar = 12;

std::set<std::string> currencies_of(const CostTable& table) {
    std::set<std::string> all;
    for (const Purse* purse : {&table.spent, &table.estimate})
        for (const Money& money : purse->amounts())
            all.insert(money.currency);
    return all;
}

struct Line {
    std::int64_t spent = 0, estimate = 0;
    bool reckoned = false;
    std::string words;
    Role role = Role::pencil;
};

Line line_of(const CostRow& row, const std::string& currency) {
    Line line{row.spent.in(currency), row.estimate.in(currency), row.estimate.holds(currency), "",
              Role::pencil};
    const std::string spent = to_words(Money{line.spent, currency});
    if (!line.reckoned) {
        line.words = spent + ", no estimate";
        return line;
    }
    line.words = spent + ", " + against_words(line.spent, line.estimate, currency);
    line.role = line.spent > line.estimate ? Role::red_lead : Role::verdigris;
    return line;
}

// A bar as long as what was spent, and an upright line where the estimate is.
void draw_bar(const Page& page, const Line& line, const Rect& area, double per_pixel) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const float middle = std::round((area.top + area.bottom) / 2);
    const float upper = middle - page.px(kBar / 2), lower = middle + page.px(kBar / 2);
    const auto along = [&](std::int64_t minor) {
        return area.left + std::round(float(double(minor) / per_pixel));
    };
    pen->AddLine({area.left, middle}, {area.right, middle}, page.tone(Role::rule), page.px(1));
    pen->AddRectFilled({area.left, upper}, {along(line.spent), lower}, page.tone(line.role));
    if (!line.reckoned) return;
    const float at = along(line.estimate), reach = page.px(4);
    pen->AddRectFilled({at - page.px(1), upper - reach}, {at + page.px(1), lower + reach},
                       page.tone(Role::ink));
}

void draw_line(Page& page, const std::string& key, const std::string& label, const Line& line,
               double most) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float room = ImGui::GetContentRegionAvail().x;
    const float bar_left = at.x + room * 0.26F, bar_right = at.x + room * 0.56F;
    const Rect whole{at.x, at.y, at.x + room, at.y + page.px(kLine)};
    const float text_top = at.y + (page.px(kLine) - ImGui::GetFontSize()) / 2;
    const float gap_wide = page.px(Measure::kGap);
    write_at(page, at.x, text_top, cut_to(page, label, bar_left - at.x - gap_wide));
    draw_bar(page, line, {bar_left, whole.top, bar_right, whole.bottom},
             std::max(1.0, most) / double(bar_right - bar_left));
    write_at(page, bar_right + gap_wide, text_top,
             cut_to(page, line.words, whole.right - bar_right - gap_wide), line.role);
    ImGui::Dummy(ImVec2(room, page.px(kLine)));
    note_area(page, key, label, whole, line.words);
}

} // namespace

void draw_spent_against_estimate(Page& page, const CostTable& by_group) {
    for (const std::string& currency : currencies_of(by_group)) {
        double most = 0;
        for (const CostRow& row : by_group.rows)
            most =
                std::max({most, double(row.spent.in(currency)), double(row.estimate.in(currency))});
        gap(page, Measure::kGap);
        words(page, "Spent against estimate, " + currency);
        ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
        int number = 0;
        for (const CostRow& row : by_group.rows) {
            if (!row.spent.holds(currency) && !row.estimate.holds(currency)) continue;
            draw_line(page, "money.bar." + currency + "." + std::to_string(number++), row.label,
                      line_of(row, currency), most);
        }
        ImGui::PopStyleVar();
        fine_print(page, "The bar is what was spent, the upright line the estimate.");
    }
}

} // namespace fettle::ui
