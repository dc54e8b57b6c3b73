#include "ui/screens/photos/photo_sheet.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/pictures/photo_row.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

constexpr float kTall = 144, kCaption = 18, kHead = 80;
constexpr float kSection = 44, kRunHead = 40, kAcceptedHead = 26;
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

// With Shift: from where the choosing began.
void extend_to(PhotosState& state, const PhotoList& list, PhotoId to) {
    if (state.chosen.empty() || !state.anchor) state.anchor = state.at;
    choose_range(state, list, to);
}

void take_frame(PhotosState& state, const PhotoList& list, PhotoId id) {
    if (state.wanted == id) {
        put_keyboard_here();
        state.wanted = {};
        state.at = id;
    }
    if (!ImGui::IsItemFocused()) return;
    state.seen_focused = ImGui::GetFrameCount();
    if (state.at == id) return;
    const bool by_arrows = !ImGui::IsMouseDown(ImGuiMouseButton_Left) &&
                           !ImGui::IsMouseReleased(ImGuiMouseButton_Left);
    if (by_arrows && std::exchange(state.extending, false)) extend_to(state, list, id);
    state.at = id;
}

struct CaptionWords {
    std::string text;
    Role role = Role::pencil;
};

CaptionWords caption(Context& context, PhotosState& state, const PhotoList& list,
                     const Photo& photo) {
    if (!photo.damage.empty() || !context.pixels.failure(photo).empty())
        return {time_of(photo) + "  damaged", Role::brass};
    const auto& ties = state.ties.of(context.book, list.photos, list.place.at(photo.id.value));
    if (ties.empty()) return {time_of(photo) + "  untied", Role::brass};
    std::string said;
    for (const Tie& tie : ties)
        if (!std::holds_alternative<EntryId>(tie.to))
            said += (said.empty() ? "" : ", ") + caption_of(tie);
    if (said.empty()) said = caption_of(ties.front());
    return {time_of(photo) + "  " + said, Role::pencil};
}

// What is known against a photo, or guessed of it, in few words.
std::string remark_of(const Photo& photo, const Seen& seen) {
    std::string said = to_words(seen);
    if (photo.taken && photo.taken_from != TakenFrom::camera) {
        const bool by_name = photo.taken_from == TakenFrom::file_name;
        said += said.empty() ? "" : "; ";
        said += by_name ? "time guessed (file name)" : "time guessed (neighbours)";
    }
    return said;
}

// Remarks are broken at the width of their photo.
float remark_height(const Page& page, const std::string& remark, float width) {
    if (remark.empty()) return 0;
    const InFace fine(page, Face::fine);
    return ImGui::CalcTextSize(remark.c_str(), nullptr, false, width).y + page.px(Measure::kStep);
}

// Chosen photos are told apart by a bar below and a word, not by colour alone.
void draw_photo(Page& page, Context& context, PhotosState& state, const PhotoList& list,
                const Photo& photo) {
    const bool chosen = std::ranges::find(state.chosen, photo.id) != state.chosen.end();
    const float tall = page.px(kTall), width = thumbnail_width(photo, tall);
    const std::string key = "photos.photo." + std::to_string(photo.id.value);
    ImGui::BeginGroup();
    const bool pressed = thumbnail(page, key, context.pixels, photo, tall, chosen);
    take_frame(state, list, photo.id);
    drag_over(page, state, photo.id);
    if (ImGui::IsItemHovered() && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left))
        state.large.open(photo.id);
    else if (pressed)
        choose(state, list, photo.id);
    const CaptionWords said = caption(context, state, list, photo);
    const std::string text = chosen ? "chosen  " + said.text : said.text;
    // Below a narrow photo there is room for one of the two.
    const bool is_narrow = chosen && width_of(page, text, Face::fine) > width;
    fine_words(page, is_narrow ? "chosen" : cut_to(page, text, width, Face::fine),
               chosen ? Role::red_lead : said.role);
    note(page, key + ".caption", text);
    const std::string remark = remark_of(photo, list.seen[list.place.at(photo.id.value)]);
    if (!remark.empty()) {
        const InFace fine(page, Face::fine);
        ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + width);
        ImGui::PushStyleColor(ImGuiCol_Text, page.tone(Role::brass));
        ImGui::TextUnformatted(remark.c_str());
        ImGui::PopStyleColor();
        ImGui::PopTextWrapPos();
        note(page, key + ".remark", remark);
    }
    ImGui::EndGroup();
}

// "H7 spring hanger, R2 radiator and 3 more; 4 untied"
std::string tied_words(Context& context, PhotosState& state, const PhotoList& list,
                       const Spell& spell) {
    std::vector<std::string> names;
    std::size_t untied = 0;
    bool in_entry = false;
    for (std::size_t i = spell.first; i < spell.first + spell.count; ++i) {
        const auto& ties = state.ties.of(context.book, list.photos, i);
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
    if (state.laid_out_for == state.list.readings() && state.laid_out_width == width) return;
    state.laid_out_for = state.list.readings();
    state.laid_out_width = width;
    const float tall = page.px(kTall);
    const auto width_of = [&](std::size_t at) {
        return thumbnail_width(list.outlines[at].width, list.outlines[at].height, tall);
    };
    state.laid_out =
        lay_out(list, {.width = width,
                       .spacing = page.px(Measure::kStep),
                       .head = page.px(kHead),
                       .line = tall + page.px(Measure::kStep + kCaption + Measure::kGap),
                       .section = page.px(kSection),
                       .run_head = page.px(kRunHead),
                       .accepted_head = page.px(kAcceptedHead),
                       .beside_run = page.px(kRunInset + kRunEdge),
                       .below =
                           [&](std::size_t at) {
                               if (!list.outlines[at].has_remark) return 0.0F;
                               return remark_height(page, remark_of(list.photos[at], list.seen[at]),
                                                    width_of(at));
                           },
                       .width_of = width_of});
}

// From the last photo of a line on to the first of the next, and back: Dear ImGui's own arrows stay
// within a line.
void go_round_ends(PhotosState& state, const PhotoList& list) {
    const auto at = list.place.find(state.at.value);
    const bool is_there = state.seen_focused + 1 == ImGui::GetFrameCount();
    if (at == list.place.end() || !is_there || ImGui::GetIO().WantTextInput) return;
    const PhotoLine& line = state.laid_out.lines[state.laid_out.line_of(at->second)];
    const auto arrow = [](Key key) { return ImGui::IsKeyPressed(static_cast<int>(key)); };
    // The keyboard arrives at the next photo a frame later, when Shift may be up again.
    if (arrow(Key::right) || arrow(Key::left) || arrow(Key::up) || arrow(Key::down))
        state.extending = ImGui::GetIO().KeyShift;
    std::size_t to = at->second;
    if (arrow(Key::right) && to + 1 == line.first + line.count && to + 1 < list.photos.size()) ++to;
    if (arrow(Key::left) && to == line.first && to > 0) --to;
    if (to == at->second) return;
    state.wanted = list.photos[to].id;
    if (std::exchange(state.extending, false)) extend_to(state, list, state.wanted);
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
    const auto& lines = state.laid_out.lines;
    const std::size_t at = state.laid_out.line_of(photo);
    std::size_t head = at; // the heads above the line come into sight with it
    while (head > 0 && lines[head - 1].kind != LineOf::photos)
        --head;
    const float upper = lines[head].top, lower = lines[at].top + lines[at].height;
    const float seen = ImGui::GetWindowHeight(), top = ImGui::GetScrollY();
    if (upper >= top && lower <= top + seen) return;
    ImGui::SetScrollY(lower - upper > seen ? lower - seen : (upper + lower - seen) / 2);
}

void draw_section(Page& page, const PhotoList& list, const PhotoLine& line) {
    const bool untied = line.spell < list.still_to_tie;
    ImGui::Dummy(ImVec2(0, page.px(Measure::kHair)));
    heading(page, untied ? "Not yet tied" : "Tied");
    note(page, untied ? "photos.section.untied" : "photos.section.tied",
         untied ? "Not yet tied" : "Tied");
    rule(page);
}

void draw_line(Page& page, Context& context, PhotosState& state, const PhotoList& list,
               const PhotoLine& line) {
    if (line.kind == LineOf::section) draw_section(page, list, line);
    if (line.kind == LineOf::spell) draw_head(page, context, state, list, line.spell);
    const Run* run = line.run == kNone ? nullptr : &list.runs[line.run];
    if (run) draw_bracket(page, state, list, line);
    if (line.kind == LineOf::run) draw_run_head(page, context, state, list, line);
    if (line.kind != LineOf::photos) return;
    const float tall = page.px(kTall);
    if (run) {
        ImGui::SetCursorPosX(ImGui::GetCursorPosX() + page.px(kRunInset - kRunEdge));
        if (is_edge(list, *run, list.photos[line.first].id, true))
            draw_edge(page, state, *run, true, tall);
        else
            ImGui::Dummy(ImVec2(page.px(kRunEdge), tall));
        ImGui::SameLine(0, 0);
    }
    for (std::size_t i = 0; i < line.count; ++i) {
        const Photo& photo = list.photos[line.first + i];
        if (i > 0) ImGui::SameLine(0, page.px(Measure::kStep));
        draw_photo(page, context, state, list, photo);
        if (!run || !is_edge(list, *run, photo.id, false)) continue;
        ImGui::SameLine(0, 0);
        draw_edge(page, state, *run, false, tall);
    }
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
    // After an act of this frame the photos will lie elsewhere once they have been read again, by
    // the reading after the one that may be under way at the latest: it leads there then.
    const bool has_acted = context.book.change_counter() != state.read_at;
    if (has_acted && state.wanted) state.leads_after = state.list.readings() + 2;
    const bool is_outdated =
        has_acted || (state.list.is_reading() && state.list.readings() < state.leads_after);
    const PhotoId later = is_outdated ? std::exchange(state.wanted, {}) : PhotoId{};
    if (!is_outdated && !state.tying.open) go_round_ends(state, list);
    scroll(page, state, list);
    const ImVec2 start = ImGui::GetCursorPos();
    const float top = ImGui::GetScrollY();
    const auto [from, to] = state.laid_out.between(top, top + height, kAround);
    for (std::size_t i = from; i < to; ++i) {
        const PhotoLine& line = state.laid_out.lines[i];
        ImGui::SetCursorPos(ImVec2(start.x, start.y + line.top));
        draw_line(page, context, state, list, line);
    }
    if (later) state.wanted = later;
    finish_drag(context, state);
    ImGui::SetCursorPos(ImVec2(start.x, start.y + state.laid_out.height));
    ImGui::Dummy(ImVec2(1, page.px(Measure::kGap)));
    ImGui::EndChild();
}

} // namespace fettle::ui
