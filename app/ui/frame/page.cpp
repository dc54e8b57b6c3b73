#include "ui/frame/page.h"

#include "ui/frame/input_queue.h"
#include "ui/frame/scripts.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

const ImFont& font_of(const Page& page, Face face) {
    return face == Face::heading ? *page.fonts.heading
           : face == Face::fine  ? *page.fonts.fine
                                 : *page.fonts.body;
}

float width_of(std::string_view text) {
    return ImGui::CalcTextSize(text.data(), text.data() + text.size()).x;
}

// Dear ImGui also breaks lines after a point or a comma, and so within 0.508: here only at blanks.
std::string broken_at_blanks(std::string_view text, float width) {
    std::string broken(text);
    const float blank = width_of(" ");
    float line = 0;
    std::size_t word = 0;
    while (word < broken.size()) {
        const std::size_t end = std::min(broken.find_first_of(" \n", word), broken.size());
        const float wide = width_of(std::string_view(broken).substr(word, end - word));
        const bool follows = word > 0 && broken[word - 1] == ' ';
        if (follows && line + wide > width) {
            broken[word - 1] = '\n';
            line = 0;
        }
        line += wide + blank;
        if (end < broken.size() && broken[end] == '\n') line = 0;
        word = end + 1;
    }
    return broken;
}

void wrapped(Page& page, Face face, std::string_view text, Role role) {
    const InFace in(page, face);
    const float width = reading_width(page);
    page.reg.see(text);
    const std::string broken = as_drawn(broken_to(page, text, width, face));
    // A word longer than the line is still broken somewhere.
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + width + 1);
    ImGui::PushStyleColor(ImGuiCol_Text, page.tone(role));
    ImGui::TextUnformatted(broken.data(), broken.data() + broken.size());
    ImGui::PopStyleColor();
    ImGui::PopTextWrapPos();
}

void one_line(Page& page, Face face, std::string_view text, Role role) {
    const InFace in(page, face);
    ImGui::PushStyleColor(ImGuiCol_Text, page.tone(role));
    page.reg.see(text);
    const std::string drawn = as_drawn(cut_to_page(page, text, face), Reading::from_left);
    ImGui::TextUnformatted(drawn.data(), drawn.data() + drawn.size());
    ImGui::PopStyleColor();
}

} // namespace

InFace::InFace(const Page& page, Face face) {
    const Fonts& fonts = page.fonts;
    ImGui::PushFont(face == Face::heading ? fonts.heading
                    : face == Face::fine  ? fonts.fine
                                          : fonts.body);
}

InFace::~InFace() {
    ImGui::PopFont();
}

float reading_width(const Page& page) {
    // The alphabet with a blank stands for running text; its mean width times 80 is the line.
    static constexpr char kAlphabet[] = "abcdefghijklmnopqrstuvwxyz ";
    const float em = page.theme.scale * Measure::kBody;
    const float alphabet =
        page.fonts.body->CalcTextSizeA(page.fonts.body->FontSize, 1.0e6F, 0, kAlphabet).x;
    const float line = std::max(alphabet / (sizeof kAlphabet - 1) * 80, em);
    return std::max(em, std::min(line, ImGui::GetContentRegionAvail().x));
}

void heading(Page& page, std::string_view text) {
    one_line(page, Face::heading, text, Role::ink);
}
void body(Page& page, std::string_view text, Role role) {
    wrapped(page, Face::body, text, role);
}
void fine_print(Page& page, std::string_view text, Role role) {
    wrapped(page, Face::fine, text, role);
}
void words(Page& page, std::string_view text, Role role) {
    one_line(page, Face::body, text, role);
}
void fine_words(Page& page, std::string_view text, Role role) {
    one_line(page, Face::fine, text, role);
}

std::string broken_to(const Page& page, std::string_view text, float width, Face face) {
    const InFace in(page, face);
    return width_of(text) <= width ? std::string(text) : broken_at_blanks(text, width);
}

float width_of(const Page& page, std::string_view text, Face face) {
    if (text.empty()) return 0; // without an end Dear ImGui would look for one
    const ImFont& font = font_of(page, face);
    const ImVec2 size =
        font.CalcTextSizeA(font.FontSize, 1.0e6F, 0, text.data(), text.data() + text.size());
    return std::ceil(size.x);
}

std::string cut_to(const Page& page, std::string_view text, float width, Face face) {
    if (width_of(page, text, face) <= width) return std::string(text);
    const ImFont& font = font_of(page, face);
    const float room = std::max(0.0F, width - width_of(page, "…", face));
    const char* end = text.data();
    font.CalcTextSizeA(font.FontSize, room, 0, text.data(), text.data() + text.size(), &end);
    return std::string(text.data(), end) + "…";
}

std::string cut_to_page(const Page& page, std::string_view text, Face face) {
    // What is as wide as its words has no edge of its own.
    const bool grows = (ImGui::GetCurrentWindow()->Flags & ImGuiWindowFlags_AlwaysAutoResize) != 0;
    return grows ? std::string(text) : cut_to(page, text, ImGui::GetContentRegionAvail().x, face);
}

void write_at(const Page& page, float x, float y, std::string_view text, Role role) {
    page.reg.see(text);
    const std::string drawn = as_drawn(text, Reading::from_left);
    ImGui::GetWindowDrawList()->AddText({std::round(x), std::round(y)},
                                        ImGui::GetColorU32(ImU32(page.tone(role))), drawn.data(),
                                        drawn.data() + drawn.size());
}

void rule(Page& page) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    ImGui::GetWindowDrawList()->AddLine(at, ImVec2(at.x + width, at.y), page.tone(Role::rule),
                                        page.px(1));
    ImGui::Dummy(ImVec2(width, page.px(1)));
}

void gap(Page& page, float measure) {
    // Each item brings its own spacing of one step.
    ImGui::Dummy(ImVec2(0, std::max(0.0F, page.px(measure) - page.px(Measure::kStep))));
}

void note_area(Page& page, std::string_view key, std::string_view label, const Rect& area,
               std::string_view value) {
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    const ImRect clip = g.CurrentWindow->ClipRect;
    Noted noted;
    noted.key = key;
    noted.label = label;
    noted.value = value;
    noted.window = g.CurrentWindow->Name;
    noted.rect = area;
    noted.clip = {clip.Min.x, clip.Min.y, clip.Max.x, clip.Max.y};
    noted.enabled = (g.CurrentItemFlags & ImGuiItemFlags_Disabled) == 0;
    if (page.reg.takes_reveal(key)) {
        const float middle = (area.top + area.bottom) / 2;
        ImGui::SetScrollFromPosY(g.CurrentWindow, middle - g.CurrentWindow->Pos.y, 0.5F);
    }
    page.reg.note(std::move(noted));
}

void note(Page& page, std::string_view key, std::string_view label, std::string_view value) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    note_area(page, key, label, {low.x, low.y, high.x, high.y}, value);
}

bool pressed(const Chord& chord, bool also_in_fields) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.WantTextInput && !also_in_fields) return false;
    return io.KeyCtrl == chord.ctrl && io.KeyShift == chord.shift && io.KeyAlt == chord.alt &&
           ImGui::IsKeyPressed(chord.key, false);
}

std::string words_of(const Chord& chord) {
    std::string said;
    if (chord.ctrl) said += "Ctrl ";
    if (chord.alt) said += "Alt ";
    if (chord.shift) said += "Shift ";
    const int f1 = static_cast<int>(Key::f1);
    if (chord.key >= f1 && chord.key < f1 + 12)
        return said + "F" + std::to_string(chord.key - f1 + 1);
    switch (static_cast<Key>(chord.key)) {
    case Key::enter:
        return said + "Enter";
    case Key::escape:
        return said + "Esc";
    case Key::space:
        return said + "Space";
    case Key::tab:
        return said + "Tab";
    case Key::del:
        return said + "Del";
    case Key::backspace:
        return said + "Backspace";
    case Key::home:
        return said + "Home";
    case Key::left:
        return said + "←";
    case Key::right:
        return said + "→";
    case Key::up:
        return said + "↑";
    case Key::down:
        return said + "↓";
    default:
        return said + static_cast<char>(chord.key);
    }
}

} // namespace fettle::ui
