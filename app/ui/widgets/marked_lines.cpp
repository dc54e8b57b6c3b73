#include "ui/widgets/marked_lines.h"

#include "ui/frame/scripts.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fettle::ui {
namespace {

using Kind = TextBlock::Kind;

constexpr float kHeavier = 0.7F; // before scaling: how far a letter is set twice
constexpr float kSlant = 0.2F;   // as the slant of Cabin Italic, 11.5 degrees

float width_in(const ImFont& font, std::string_view text) {
    return font.CalcTextSizeA(font.FontSize, 1.0e6F, 0, text.data(), text.data() + text.size()).x;
}

// What was drawn since the list had `before` corners leans to the right above the foot.
void slant(ImDrawList& list, int before, float foot) {
    for (int i = before; i < list.VtxBuffer.Size; ++i)
        list.VtxBuffer[i].pos.x += (foot - list.VtxBuffer[i].pos.y) * kSlant;
}

} // namespace

MarkedLines::MarkedLines(const Page& page, ImDrawList* into, float left, float top, float width)
    : page_(page), into_(into), left_(left), top_(top), width_(width) {}

float MarkedLines::set(const TextBlock& block) {
    block_ = &block;
    usual_ = large() ? page_.fonts.heading : page_.fonts.body;
    line_ = usual_->FontSize;
    for (const TextRun& run : block.runs)
        add(run);
    end_word();
    const float height = y_ + line_;
    end_line();
    return height;
}

const ImFont& MarkedLines::face_of(const TextRun& run) const {
    const Fonts& fonts = page_.fonts;
    if (large()) return *fonts.heading;
    const bool strong = run.strong || block_->kind == Kind::heading;
    if (run.code || block_->kind == Kind::code) return *fonts.code;
    if (run.emphasis) return strong ? *fonts.strong_emphasis : *fonts.emphasis;
    return strong ? *fonts.strong : *fonts.body;
}

MarkedLines::Piece MarkedLines::piece_of(const TextRun& run, unsigned letter,
                                         std::string_view sign) const {
    const ImFont& face = face_of(run);
    if (face.FindGlyphNoFallback(static_cast<ImWchar>(letter)) != nullptr)
        return {&face, sign, &run};
    const Fonts& fonts = page_.fonts;
    return {.font = fonts.body,
            .text = sign,
            .run = &run,
            .heavier = &face == fonts.strong || &face == fonts.strong_emphasis,
            .slanted = &face == fonts.emphasis || &face == fonts.strong_emphasis};
}

void MarkedLines::add(const TextRun& run) {
    for (std::size_t at = 0; at < run.text.size();) {
        unsigned letter = 0;
        const char* const from = run.text.data() + at;
        const int taken = ImTextCharFromUtf8(&letter, from, run.text.data() + run.text.size());
        const std::string_view sign(from, static_cast<std::size_t>(std::max(taken, 1)));
        at += sign.size();
        if (letter == '\n') {
            end_word();
            end_line();
        } else if (letter == ' ' || letter == '\t') {
            end_word();
            blank_ += face_of(run).GetCharAdvance(static_cast<ImWchar>(letter));
        } else {
            add_to_word(piece_of(run, letter, sign));
        }
    }
}

void MarkedLines::add_to_word(const Piece& sign) {
    const bool goes_on = !word_.empty() && word_.back().like(sign) &&
                         word_.back().text.data() + word_.back().text.size() == sign.text.data();
    if (goes_on)
        word_.back().text = {word_.back().text.data(), word_.back().text.size() + sign.text.size()};
    else
        word_.push_back(sign);
}

void MarkedLines::end_word() {
    float wide = 0;
    for (Piece& piece : word_)
        wide += piece.width = width_in(*piece.font, piece.text);
    if (x_ > 0 && x_ + blank_ + wide > width_ && !word_.empty()) end_line();
    for (const Piece& piece : word_)
        put(piece);
    word_.clear();
}

void MarkedLines::put(Piece piece) {
    x_ += std::exchange(blank_, 0);
    while (x_ + piece.width > width_ && piece.text.size() > 1) {
        const char* const end = piece.text.data() + piece.text.size();
        const char* rest = piece.text.data();
        piece.font->CalcTextSizeA(piece.font->FontSize, std::max(width_ - x_, 1.0F), 0, rest, end,
                                  &rest);
        std::size_t fits = static_cast<std::size_t>(rest - piece.text.data());
        if (fits == 0 && x_ > 0) {
            end_line();
            continue;
        }
        fits = std::max<std::size_t>(fits, 1);
        while (fits < piece.text.size() &&
               (static_cast<unsigned char>(piece.text[fits]) & 0xC0U) == 0x80U)
            ++fits;
        place(piece, piece.text.substr(0, fits));
        if (fits == piece.text.size()) {
            x_ += piece.width;
            return;
        }
        end_line();
        piece.text.remove_prefix(fits);
        piece.width = width_in(*piece.font, piece.text);
    }
    place(piece, piece.text);
    x_ += piece.width;
}

void MarkedLines::place(Piece piece, std::string_view text) {
    piece.text = text;
    piece.left = x_;
    placed_.push_back(piece);
}

void MarkedLines::end_line() {
    if (into_ != nullptr) {
        if (std::ranges::any_of(placed_,
                                [](const Piece& one) { return runs_from_right(one.text); }))
            draw_from_right();
        else
            for (const Piece& piece : placed_)
                draw(piece, piece.text);
    }
    placed_.clear();
    x_ = blank_ = 0;
    y_ += line_;
}

// The signs of the line in their drawn order; those that stand together and are of one piece are
// drawn as one.
void MarkedLines::draw_from_right() {
    std::string line;
    std::vector<std::size_t> piece_of_byte; // past the last: a blank
    const auto add_sign = [&](std::string_view text, std::size_t piece) {
        line += text;
        piece_of_byte.resize(line.size(), piece);
    };
    float end = placed_.front().left;
    const float blank = width_in(*page_.fonts.body, " ");
    for (std::size_t i = 0; i < placed_.size(); ++i) {
        if (placed_[i].left > end + blank / 2) add_sign(" ", placed_.size());
        add_sign(placed_[i].text, i);
        end = placed_[i].left + width_in(*placed_[i].font, placed_[i].text);
    }
    float x = placed_.front().left;
    const auto signs = in_drawn_order(line);
    for (std::size_t at = 0; at < signs.size();) {
        const std::size_t number = piece_of_byte[signs[at].from];
        std::string text;
        for (; at < signs.size() && piece_of_byte[signs[at].from] == number; ++at)
            text += signs[at].sign;
        if (number == placed_.size()) {
            x += blank;
            continue;
        }
        Piece piece = placed_[number];
        piece.left = x;
        draw(piece, text);
        x += width_in(*piece.font, text);
    }
}

// On the line's own foot, whatever the face.
void MarkedLines::draw(const Piece& piece, std::string_view text) {
    const ImFont& font = *piece.font;
    const bool leads = !piece.run->leads_to.empty();
    const ImU32 tone = ImGui::GetColorU32(ImU32(page_.tone(leads ? Role::blue_steel : Role::ink)));
    const ImVec2 at(std::round(left_ + piece.left),
                    std::round(top_ + y_ + std::round(usual_->Ascent - font.Ascent)));
    const int before = into_->VtxBuffer.Size;
    const auto write = [&](float x) {
        into_->AddText(&font, font.FontSize, {x, at.y}, tone, text.data(),
                       text.data() + text.size());
    };
    write(at.x);
    if (piece.heavier) write(at.x + page_.px(kHeavier));
    if (piece.slanted) slant(*into_, before, at.y + font.Ascent);
    if (leads) add_name(piece, text);
}

// Words of one name in one line are one thing to press.
void MarkedLines::add_name(const Piece& piece, std::string_view text) {
    const float left = left_ + piece.left, top = top_ + y_;
    const float right = left + width_in(*piece.font, text);
    const bool goes_on =
        !names_.empty() && names_.back().run == piece.run && names_.back().rect.top == top;
    if (!goes_on) names_.push_back({piece.run, "", {left, top, right, top + line_}});
    NameInLine& name = names_.back();
    if (goes_on && left > name.rect.right) name.words += ' ';
    name.words += text;
    name.rect.right = right;
}

} // namespace fettle::ui
