#include "ui/widgets/marked_view.h"

#include "ui/widgets/acts.h"
#include "ui/widgets/marked_lines.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

using Kind = TextBlock::Kind;

constexpr float kItemInset = 20, kQuoteInset = 16, kCodePad = 8;
constexpr float kLeastWidth = 120; // what is further within goes in no more

// Blocks downwards from the cursor.
class Blocks {
  public:
    Blocks(Page& page, std::string_view key)
        : page_(page), key_(std::string(key) + "."), at_(ImGui::GetCursorScreenPos()) {}

    std::optional<std::string> draw(const std::vector<TextBlock>& blocks) {
        width_ = reading_width(page_);
        const float left = at_.x, top = at_.y;
        all(blocks, 0);
        const auto pressed = press_names();
        ImGui::SetCursorScreenPos({left, top});
        ImGui::Dummy(ImVec2(width_, at_.y - top));
        return pressed;
    }

  private:
    void all(const std::vector<TextBlock>& blocks, float inset, bool in_item = false) {
        const TextBlock* above = nullptr;
        for (const TextBlock& block : blocks) {
            const bool close = block.kind == Kind::item && above != nullptr &&
                               (in_item || above->kind == Kind::item);
            if (above != nullptr) at_.y += page_.px(close ? Measure::kHair : Measure::kStep);
            one(block, inset);
            above = &block;
        }
    }

    void one(const TextBlock& block, float inset) {
        switch (block.kind) {
        case Kind::rule:
            line_across(inset);
            return;
        case Kind::quote:
            quote(block, inset);
            return;
        case Kind::item:
            item(block, inset);
            return;
        case Kind::code:
            code(block, inset);
            return;
        case Kind::paragraph:
            words(block, inset, "paragraph");
            return;
        case Kind::heading:
            words(block, inset, "heading " + std::to_string(block.level));
        }
    }

    float room(float inset) const { return width_ - inset; }
    float further(float inset, float by) const {
        return room(inset + by) < page_.px(kLeastWidth) ? inset : inset + by;
    }
    ImDrawList* drawn() const { return ImGui::GetWindowDrawList(); }

    void words(const TextBlock& block, float inset, const std::string& label) {
        const float left = at_.x + inset, top = at_.y;
        MarkedLines lines(page_, drawn(), left, top, room(inset));
        at_.y += lines.set(block);
        names_.insert(names_.end(), lines.names().begin(), lines.names().end());
        said((quotes_ > 0 ? "quoted " : "") + label, {left, top, left + room(inset), at_.y},
             words_of_runs(block.runs));
    }

    void code(const TextBlock& block, float inset) {
        const float pad = page_.px(kCodePad), left = at_.x + inset, top = at_.y;
        const float wide = room(inset) - 2 * pad;
        const float tall = MarkedLines(page_, nullptr, 0, 0, wide).set(block) + 2 * pad;
        drawn()->AddRectFilled({left, top}, {left + room(inset), top + tall},
                               ImGui::GetColorU32(ImU32(page_.tone(Role::sheet))));
        MarkedLines(page_, drawn(), left + pad, top + pad, wide).set(block);
        at_.y += tall;
        said("code", {left, top, left + room(inset), at_.y}, words_of_runs(block.runs));
    }

    void line_across(float inset) {
        const float y = at_.y + page_.px(Measure::kStep), left = at_.x + inset;
        drawn()->AddRectFilled({left, y}, {left + room(inset), y + page_.px(1)},
                               ImGui::GetColorU32(ImU32(page_.tone(Role::rule))));
        at_.y += page_.px(2 * Measure::kStep);
    }

    void quote(const TextBlock& block, float inset) {
        const float top = at_.y, left = at_.x + inset;
        ++quotes_;
        all(block.inside, further(inset, page_.px(kQuoteInset)));
        --quotes_;
        if (further(inset, page_.px(kQuoteInset)) == inset) return;
        drawn()->AddRectFilled({left, top}, {left + page_.px(3), at_.y},
                               ImGui::GetColorU32(ImU32(page_.tone(Role::rule))));
    }

    void item(const TextBlock& block, float inset) {
        const float left = at_.x + inset, top = at_.y, line = page_.fonts.body->FontSize;
        const float wide = width_of(page_, block.mark);
        drawn()->AddText(page_.fonts.body, line, {left, top},
                         ImGui::GetColorU32(ImU32(page_.tone(Role::pencil))), block.mark.data(),
                         block.mark.data() + block.mark.size());
        said("item", {left, top, left + wide, top + line}, block.mark);
        const float inside =
            further(inset, std::max(page_.px(kItemInset), wide + page_.px(Measure::kHair)));
        if (inside == inset || block.inside.empty()) at_.y += line;
        all(block.inside, inside, true);
    }

    std::optional<std::string> press_names() {
        std::optional<std::string> pressed;
        int number = 0;
        for (const NameInLine& name : names_) {
            ImGui::SetCursorScreenPos({name.rect.left, name.rect.top});
            const auto press = area(page_, key_ + "name." + std::to_string(number++), name.words,
                                    name.run->leads_to, {name.rect.width(), name.rect.height()});
            if (press.pressed) pressed = name.run->leads_to;
            if (!press.on) continue;
            const float line = std::round(name.rect.bottom - 1);
            drawn()->AddRectFilled({name.rect.left, line}, {name.rect.right, line + page_.px(1)},
                                   ImGui::GetColorU32(ImU32(page_.tone(Role::blue_steel))));
        }
        return pressed;
    }

    void said(const std::string& label, const Rect& area, const std::string& value) {
        note_area(page_, key_ + std::to_string(noted_++), label, area, value);
    }

    Page& page_;
    std::string key_;
    ImVec2 at_;
    float width_ = 0;
    int noted_ = 0, quotes_ = 0;
    std::vector<NameInLine> names_;
};

} // namespace

std::optional<std::string> marked_text(Page& page, std::string_view key,
                                       const std::vector<TextBlock>& blocks) {
    return blocks.empty() ? std::nullopt : Blocks(page, key).draw(blocks);
}

} // namespace fettle::ui
