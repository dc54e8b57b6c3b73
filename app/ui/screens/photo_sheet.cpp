#include "ui/screens/photo_sheet.h"

#include "base/text.h"
#include "ui/acts.h"
#include "ui/flow.h"
#include "ui/input_queue.h"
#include "ui/keyboard_frame.h"
#include "ui/photo_row.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kTall = 144, kCaption = 18, kHead = 80;
constexpr std::size_t kAround = 2; // lines beyond those in sight, for the arrows to reach
constexpr std::size_t kMostNamed = 4;

void toggle(std::vector<PhotoId>& chosen, PhotoId id) {
    if (std::erase(chosen, id) == 0) chosen.push_back(id);
}

void choose_range(PhotosState& state, const PhotoList& list, PhotoId to) {
    const auto from = list.place.find(state.anchor.value), end = list.place.find(to.value);
    if (from == list.place.end() || end == list.place.end()) return;
    const auto [first, last] = std::minmax(from->second, end->second);
    state.chosen.clear();
    for (std::size_t i = first; i <= last; ++i)
        state.chosen.push_back(list.photos[i].id);
}

// By Space, Enter, a press alone, with Ctrl or with Shift.
void choose(PhotosState& state, const PhotoList& list, PhotoId id) {
    const ImGuiIO& io = ImGui::GetIO();
    const bool by_pointer = ImGui::IsMouseReleased(ImGuiMouseButton_Left);
    const auto down = [](Key key) { return ImGui::IsKeyPressed(static_cast<int>(key), false); };
    if (!by_pointer && (down(Key::enter) || down(Key::keypad_enter))) {
        state.large.open(id);
        return;
    }
    if (io.KeyShift && state.anchor) {
        choose_range(state, list, id);
        return;
    }
    if (io.KeyCtrl || !by_pointer)
        toggle(state.chosen, id);
    else
        state.chosen = {id};
    state.anchor = id;
}

void take_frame(PhotosState& state, PhotoId id) {
    if (state.wanted == id) {
        put_keyboard_here();
        state.wanted = {};
        state.at = id;
    }
    if (ImGui::IsItemFocused()) state.at = id;
}

struct CaptionWords {
    std::string text;
    Role role = Role::pencil;
};

CaptionWords caption(Context& context, PhotosState& state, const Photo& photo) {
    if (!photo.damage.empty() || !context.pixels.failure(photo).empty())
        return {time_of(photo) + "  damaged", Role::brass};
    const auto& ties = state.ties.of(context.book, photo);
    if (ties.empty()) return {time_of(photo) + "  untied", Role::brass};
    std::string said;
    for (const Tie& tie : ties)
        if (!std::holds_alternative<EntryId>(tie.to))
            said += (said.empty() ? "" : ", ") + caption_of(tie);
    if (said.empty()) said = caption_of(ties.front());
    return {time_of(photo) + "  " + said, Role::pencil};
}

// Chosen photos are told apart by a bar below and a word, not by colour alone.
void draw_photo(Page& page, Context& context, PhotosState& state, const PhotoList& list,
                const Photo& photo) {
    const bool chosen = std::ranges::find(state.chosen, photo.id) != state.chosen.end();
    const float tall = page.px(kTall), width = thumbnail_width(photo, tall);
    const std::string key = "photos.photo." + std::to_string(photo.id.value);
    ImGui::BeginGroup();
    const bool pressed = thumbnail(page, key, context.pixels, photo, tall, chosen);
    take_frame(state, photo.id);
    if (ImGui::IsItemHovered() && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        state.large.open(photo.id);
    else if (pressed)
        choose(state, list, photo.id);
    const CaptionWords said = caption(context, state, photo);
    const std::string text = chosen ? "chosen  " + said.text : said.text;
    fine_words(page, cut_to(page, text, width, Face::fine), chosen ? Role::red_lead : said.role);
    note(page, key + ".caption", text);
    ImGui::EndGroup();
}

// "H7 spring hanger, R2 radiator and 3 more; 4 untied"
std::string tied_words(Context& context, PhotosState& state, const PhotoList& list,
                       const Spell& spell) {
    std::vector<std::string> names;
    std::size_t untied = 0;
    bool in_entry = false;
    for (std::size_t i = spell.first; i < spell.first + spell.count; ++i) {
        const auto& ties = state.ties.of(context.book, list.photos[i]);
        if (ties.empty()) ++untied;
        for (const Tie& tie : ties) {
            const bool entry = std::holds_alternative<EntryId>(tie.to);
            in_entry = in_entry || entry;
            if (!entry && std::ranges::find(names, tie.name) == names.end())
                names.push_back(tie.name);
        }
    }
    const std::size_t left_out = names.size() > kMostNamed ? names.size() - kMostNamed : 0;
    names.resize(names.size() - left_out);
    std::string said = join(names, ", ");
    if (names.empty() && in_entry) said = "in the log";
    if (left_out > 0) said += " and " + std::to_string(left_out) + " more";
    if (untied == spell.count) return "untied";
    if (untied > 0) said += "; " + std::to_string(untied) + " untied";
    return said;
}

void draw_head(Page& page, Context& context, PhotosState& state, const PhotoList& list,
               std::size_t number) {
    const Spell& spell = list.spells[number];
    const std::string key = "photos.spell." + std::to_string(number);
    ImGui::Dummy(ImVec2(0, page.px(Measure::kStep)));
    ImGui::BeginGroup();
    heading(page, day_words(list.photos[spell.first]));
    ImGui::SameLine(0, page.px(Measure::kGap));
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() + page.px(4));
    const std::string hours = hours_words(list.photos, spell);
    words(page, hours + (hours.empty() ? "" : "     ") + count_words(spell.count), Role::pencil);
    const std::string tied = tied_words(context, state, list, spell);
    fine_words(page, cut_to(page, tied, ImGui::GetContentRegionAvail().x, Face::fine),
               tied == "untied" ? Role::brass : Role::pencil);
    ImGui::EndGroup();
    note(page, key, day_words(list.photos[spell.first]), tied);
}

void lay_out_anew(const Page& page, PhotosState& state, const PhotoList& list, float width) {
    if (state.laid_out_for == list.reading && state.laid_out_width == width) return;
    state.laid_out_for = list.reading;
    state.laid_out_width = width;
    const float tall = page.px(kTall);
    state.laid_out =
        lay_out(list, {.width = width,
                       .spacing = page.px(Measure::kStep),
                       .head = page.px(kHead),
                       .line = tall + page.px(Measure::kStep + kCaption + Measure::kGap),
                       .width_of = [tall](const Photo& p) { return thumbnail_width(p, tall); }});
}

// Brings the photo that is wanted, or that a driver asks for by number, into sight.
void scroll(Page& page, PhotosState& state, const PhotoList& list) {
    const auto asked = page.reg.take_row("photos.list");
    std::size_t photo = 0;
    if (asked)
        photo = std::size_t(std::max(0, *asked));
    else if (const auto at = list.place.find(state.wanted.value); at != list.place.end())
        photo = at->second;
    else
        return;
    const PhotoLine& line = state.laid_out.lines[state.laid_out.line_of(photo)];
    const float seen = ImGui::GetWindowHeight(), top = ImGui::GetScrollY();
    if (line.top >= top && line.top + line.height <= top + seen) return;
    ImGui::SetScrollY(line.top + line.height / 2 - seen / 2);
}

} // namespace

std::vector<PhotoId> photos_acted_on(const PhotosState& state) {
    if (state.chosen.empty() && state.at) return {state.at};
    return state.chosen;
}

void choose_spell(PhotosState& state, const PhotoList& list) {
    const auto at = list.place.find(state.at.value);
    if (at == list.place.end()) return;
    state.chosen.clear();
    for (const Spell& spell : list.spells)
        if (at->second >= spell.first && at->second < spell.first + spell.count)
            for (std::size_t i = 0; i < spell.count; ++i)
                state.chosen.push_back(list.photos[spell.first + i].id);
}

void draw_photo_sheet(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    const float height = std::max(page.px(kTall), ImGui::GetContentRegionAvail().y);
    ImGui::BeginChild("photos.list", ImVec2(0, height), false, ImGuiWindowFlags_NavFlattened);
    const float width = ImGui::GetContentRegionAvail().x - page.px(Measure::kStep);
    lay_out_anew(page, state, list, width);
    scroll(page, state, list);
    const ImVec2 start = ImGui::GetCursorPos();
    const float top = ImGui::GetScrollY();
    const auto [from, to] = state.laid_out.between(top, top + height, kAround);
    for (std::size_t i = from; i < to; ++i) {
        const PhotoLine& line = state.laid_out.lines[i];
        ImGui::SetCursorPos(ImVec2(start.x, start.y + line.top));
        if (line.head) draw_head(page, context, state, list, line.spell);
        for (std::size_t photo = 0; photo < line.count; ++photo) {
            if (photo > 0) ImGui::SameLine(0, page.px(Measure::kStep));
            draw_photo(page, context, state, list, list.photos[line.first + photo]);
        }
    }
    ImGui::SetCursorPos(ImVec2(start.x, start.y + state.laid_out.height));
    ImGui::Dummy(ImVec2(1, page.px(Measure::kGap)));
    ImGui::EndChild();
}

} // namespace fettle::ui
