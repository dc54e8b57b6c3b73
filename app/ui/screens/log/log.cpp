#include "ui/screens/log/log.h"

#include "base/quantity.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/day_words.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kDayColumn = 124, kGuess = 180; // before scaling; a guess at an unread entry

void read_anew(const Notebook& book, LogState& state) {
    if (state.read_at == book.change_counter()) return;
    state.read_at = book.change_counter();
    state.read.clear();
}

// Heights were measured for one width.
void forget_heights(LogState& state) {
    const float width = ImGui::GetContentRegionAvail().x;
    if (width == state.laid_out_width) return;
    state.laid_out_width = width;
    state.heights.clear();
}

struct LogPlace {
    const EntryOnDay& line;
    bool first_of_day = false;
};

// Day, hours and what can be done to the entry, in the margin. The day is that of the list, which
// may still have an entry that is gone.
void draw_margin(Page& page, const LoggedEntry& logged, const LogPlace& place, Context& context,
                 EntryDesk& desk) {
    const Entry& entry = logged.entry;
    const std::string key = "log." + std::to_string(entry.id.value) + ".";
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(12), 0));
    ImGui::BeginGroup();
    if (place.first_of_day) {
        words(page, to_words(place.line.day));
        note(page, key + "day", to_words(place.line.day));
        fine_words(page, weekday_of(place.line.day));
    }
    if (entry.hours) {
        fine_words(page, said_number(*entry.hours) + " h");
        note(page, key + "hours", "hours", said_number(*entry.hours));
    }
    if (link(page, key + "change", "change", Face::fine)) desk.change(entry.id);
    ImGui::SameLine();
    if (link(page, key + "remove", "remove", Face::fine))
        context.went_well(remove_entry(context.book, entry.id));
    ImGui::EndGroup();
    ImGui::PopStyleVar();
}

// Draws the entry at the cursor and answers its height.
float draw_entry(Page& page, const LogPlace& place, Context& context, EntryDesk& desk,
                 SideWork& work, LogState& state) {
    auto known = state.read.find(place.line.id);
    if (known == state.read.end())
        known = state.read.emplace(place.line.id, read_logged(context.book, place.line.id)).first;
    const LoggedEntry& logged = known->second;
    const float top = ImGui::GetCursorPosY(), left = ImGui::GetCursorPosX();
    if (place.first_of_day) rule(page);
    gap(page, place.first_of_day ? Measure::kGap : Measure::kStep);
    const float line = ImGui::GetCursorPosY();
    draw_margin(page, logged, place, context, desk);
    const float margin_bottom = ImGui::GetCursorPosY();
    ImGui::SetCursorPos(ImVec2(left + page.px(kDayColumn), line));
    ImGui::BeginGroup();
    draw_logged(page, logged, {context, work, state.results});
    ImGui::EndGroup();
    const float bottom = std::max(margin_bottom, ImGui::GetCursorPosY()) + page.px(Measure::kGap);
    ImGui::SetCursorPos(ImVec2(left, bottom));
    return bottom - top;
}

// The list itself: what is above and below the part in sight is only measured.
class LogList {
  public:
    LogList(Page& page, LogState& state, const std::vector<EntryOnDay>& index)
        : page_(page), state_(state), index_(index), start_(ImGui::GetCursorPosY()) {
        above_ = ImGui::GetScrollY() - page.px(200);
        below_ = ImGui::GetScrollY() + ImGui::GetWindowHeight() + page.px(200);
    }

    template <class Draw>
    void draw(Draw draw_one) {
        float y = start_;
        for (std::size_t i = 0; i < index_.size(); ++i) {
            const EntryOnDay& line = index_[i];
            const bool first = i == 0 || index_[i - 1].day != line.day;
            const float guessed = height_of(line.id);
            if (line.id == state_.show) bring_into_sight(y);
            if (y + guessed >= above_ && y <= below_) {
                ImGui::SetCursorPosY(y);
                const float height = draw_one(LogPlace{line, first});
                settle(line.id, y, guessed, height);
                y += height;
            } else {
                y += guessed;
            }
        }
        ImGui::SetCursorPosY(y);
        ImGui::Dummy(ImVec2(1, 1));
    }

  private:
    float height_of(EntryId id) const {
        const auto known = state_.heights.find(id);
        return known == state_.heights.end() ? page_.px(kGuess) : known->second;
    }
    // What stands above and turns out taller must not push what is being read.
    void settle(EntryId id, float y, float guessed, float height) {
        state_.heights[id] = height;
        if (y < ImGui::GetScrollY() && height != guessed)
            ImGui::SetScrollY(ImGui::GetScrollY() + height - guessed);
    }
    void bring_into_sight(float y) {
        ImGui::SetScrollY(std::max(0.0F, y - page_.px(Measure::kMargin)));
        // Once more when it has been laid out: until then its place is a guess.
        if (state_.heights.contains(state_.show)) state_.show = {};
    }

    Page& page_;
    LogState& state_;
    const std::vector<EntryOnDay>& index_;
    float start_, above_ = 0, below_ = 0;
};

} // namespace

void draw_log(Page& page, Context& context, EntryDesk& desk, SideWork& work, LogState& state) {
    const auto& index =
        state.index.beside(context.side, context.book, 0,
                           [](const Notebook& book, int) { return list_entry_days(book); });
    if (!state.index.failure().empty())
        notice(page, "log.trouble", Tell::stop, state.index.failure());
    if (state.index.nothing_yet()) return being_read(page, "log.reading");
    if (index.empty()) {
        empty_page(page, "log.empty",
                   {.what_for = "The log holds what was done, day by day: hours, findings, "
                                "measurements, photos and worked sheets. Write the first entry at "
                                "the right; Ctrl Enter puts it here."});
        return;
    }
    read_anew(context.book, state);
    forget_heights(state);
    LogList list(page, state, index);
    list.draw(
        [&](const LogPlace& place) { return draw_entry(page, place, context, desk, work, state); });
}

} // namespace fettle::ui
