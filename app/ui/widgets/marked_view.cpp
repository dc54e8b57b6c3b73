#include "ui/widgets/marked_view.h"

#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fettle::ui {
namespace {

using Kind = TextBlock::Kind;

constexpr float kItemInset = 20, kQuoteInset = 16, kCodePad = 8;
constexpr float kLeastWidth = 120; // what is further within goes in no more

struct Piece {
    const ImFont* font = nullptr;
    std::string_view text;
    const TextRun* run = nullptr;
    float width = 0;
};

// Words of one line that lead somewhere.
struct Name {
    const TextRun* run = nullptr;
    std::string words;
    Rect rect;
};

float width_in(const ImFont& font, std::string_view text) {
    return font.CalcTextSizeA(font.FontSize, 1.0e6F, 0, text.data(), text.data() + text.size()).x;
}

// Runs in lines of one width, broken at blanks; a word longer than a line is broken somewhere.
class Lines {
  public:
    // Without a list to draw into, what is set is only measured.
    Lines(const Page& page, ImDrawList* into, ImVec2 at, float width)
        : fonts_(page.fonts),
          into_(into),
          at_(at),
          width_(width),
          tone_(ImGui::GetColorU32(ImU32(page.tone(Role::ink)))),
          leading_(ImGui::GetColorU32(ImU32(page.tone(Role::blue_steel)))) {}

    // Answers the height.
    float set(const TextBlock& block) {
        block_ = &block;
        usual_ = large() ? fonts_.heading : fonts_.body;
        line_ = usual_->FontSize;
        for (const TextRun& run : block.runs)
            add(run);
        end_word();
        return y_ + line_;
    }
    const std::vector<Name>& names() const { return names_; }

  private:
    bool large() const { return block_->kind == Kind::heading && block_->level == 1; }

    const ImFont& face_of(const TextRun& run) const {
        if (large()) return *fonts_.heading;
        const bool strong = run.strong || block_->kind == Kind::heading;
        if (run.code || block_->kind == Kind::code) return *fonts_.code;
        if (run.emphasis) return strong ? *fonts_.strong_emphasis : *fonts_.emphasis;
        return strong ? *fonts_.strong : *fonts_.body;
    }

    void add(const TextRun& run) {
        const ImFont& face = face_of(run);
        for (std::size_t at = 0; at < run.text.size();) {
            unsigned letter = 0;
            const char* const from = run.text.data() + at;
            const int taken = ImTextCharFromUtf8(&letter, from, run.text.data() + run.text.size());
            const std::string_view sign(from, static_cast<std::size_t>(std::max(taken, 1)));
            at += sign.size();
            if (letter == '\n') {
                end_word();
                next_line();
            } else if (letter == ' ' || letter == '\t') {
                end_word();
                blank_ += face.GetCharAdvance(static_cast<ImWchar>(letter));
            } else {
                const bool there =
                    face.FindGlyphNoFallback(static_cast<ImWchar>(letter)) != nullptr;
                add_to_word(there ? face : *fonts_.body, sign, run);
            }
        }
    }

    void add_to_word(const ImFont& font, std::string_view sign, const TextRun& run) {
        const bool goes_on = !word_.empty() && word_.back().font == &font &&
                             word_.back().run == &run &&
                             word_.back().text.data() + word_.back().text.size() == sign.data();
        if (goes_on)
            word_.back().text = {word_.back().text.data(), word_.back().text.size() + sign.size()};
        else
            word_.push_back({&font, sign, &run});
    }

    void end_word() {
        float wide = 0;
        for (Piece& piece : word_)
            wide += piece.width = width_in(*piece.font, piece.text);
        if (x_ > 0 && x_ + blank_ + wide > width_ && !word_.empty()) next_line();
        for (const Piece& piece : word_)
            put(piece);
        word_.clear();
    }

    void put(Piece piece) {
        x_ += std::exchange(blank_, 0);
        while (x_ + piece.width > width_ && piece.text.size() > 1) {
            const char* const end = piece.text.data() + piece.text.size();
            const char* rest = piece.text.data();
            piece.font->CalcTextSizeA(piece.font->FontSize, std::max(width_ - x_, 1.0F), 0, rest,
                                      end, &rest);
            std::size_t fits = static_cast<std::size_t>(rest - piece.text.data());
            if (fits == 0 && x_ > 0) {
                next_line();
                continue;
            }
            fits = std::max<std::size_t>(fits, 1);
            while (fits < piece.text.size() &&
                   (static_cast<unsigned char>(piece.text[fits]) & 0xC0U) == 0x80U)
                ++fits;
            write(piece, piece.text.substr(0, fits));
            if (fits == piece.text.size()) {
                x_ += piece.width;
                return;
            }
            next_line();
            piece.text.remove_prefix(fits);
            piece.width = width_in(*piece.font, piece.text);
        }
        write(piece, piece.text);
        x_ += piece.width;
    }

    // On the line's own foot, whatever the face.
    void write(const Piece& piece, std::string_view text) {
        if (into_ == nullptr) return;
        const ImFont& font = *piece.font;
        const bool leads = !piece.run->leads_to.empty();
        const float down = std::round(usual_->Ascent - font.Ascent);
        into_->AddText(&font, font.FontSize,
                       ImVec2(std::round(at_.x + x_), std::round(at_.y + y_ + down)),
                       leads ? leading_ : tone_, text.data(), text.data() + text.size());
        if (leads) add_name(piece, text);
    }

    // Words of one name in one line are one thing to press.
    void add_name(const Piece& piece, std::string_view text) {
        const float left = at_.x + x_, top = at_.y + y_;
        const float right = left + width_in(*piece.font, text);
        const bool goes_on =
            !names_.empty() && names_.back().run == piece.run && names_.back().rect.top == top;
        if (!goes_on) names_.push_back({piece.run, "", {left, top, right, top + line_}});
        Name& name = names_.back();
        if (goes_on && left > name.rect.right) name.words += ' ';
        name.words += text;
        name.rect.right = right;
    }

    void next_line() {
        x_ = blank_ = 0;
        y_ += line_;
    }

    const Fonts& fonts_;
    ImDrawList* into_;
    ImVec2 at_;
    float width_;
    ImU32 tone_ = 0, leading_ = 0;
    const TextBlock* block_ = nullptr;
    const ImFont* usual_ = nullptr; // whose lines all stand on
    std::vector<Piece> word_;
    std::vector<Name> names_;
    float x_ = 0, y_ = 0, line_ = 0, blank_ = 0;
};

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
        Lines lines(page_, drawn(), {left, top}, room(inset));
        at_.y += lines.set(block);
        names_.insert(names_.end(), lines.names().begin(), lines.names().end());
        said((quotes_ > 0 ? "quoted " : "") + label, {left, top, left + room(inset), at_.y},
             words_of_runs(block.runs));
    }

    void code(const TextBlock& block, float inset) {
        const float pad = page_.px(kCodePad), left = at_.x + inset, top = at_.y;
        const float wide = room(inset) - 2 * pad;
        const float tall = Lines(page_, nullptr, {}, wide).set(block) + 2 * pad;
        drawn()->AddRectFilled({left, top}, {left + room(inset), top + tall},
                               ImGui::GetColorU32(ImU32(page_.tone(Role::sheet))));
        Lines(page_, drawn(), {left + pad, top + pad}, wide).set(block);
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
        for (const Name& name : names_) {
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
    std::vector<Name> names_;
};

} // namespace

std::optional<std::string> marked_text(Page& page, std::string_view key,
                                       const std::vector<TextBlock>& blocks) {
    return blocks.empty() ? std::nullopt : Blocks(page, key).draw(blocks);
}

} // namespace fettle::ui
