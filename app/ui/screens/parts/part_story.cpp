#include "base/text.h"
#include "ui/pictures/photo_paint.h"
#include "ui/pictures/photo_row.h"
#include "ui/screens/parts/part_page.h"
#include "ui/screens/photos/photo_filters.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/day_words.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kPairTall = 320, kNoneTall = 96, kCropTall = 128, kCropWide = 240;

using Chosen = std::vector<const PhotoOfPart*>;

Chosen photos_at(const PartFacts& facts, std::initializer_list<fettle::Stage> stages) {
    Chosen chosen;
    for (const PhotoOfPart& shown : facts.photos)
        if (std::ranges::find(stages, shown.stage) != stages.end()) chosen.push_back(&shown);
    return chosen;
}

struct Side {
    const char* key;  // "part.before"
    const char* hint; // the key that goes on to the next photo
    std::string none; // what to do when there is no photo
};

// A frame that waits for its picture, with the way to one written in it.
void say_none(Page& page, const Side& side, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float pad = page.px(Measure::kGap);
    const ImVec2 text =
        ImGui::CalcTextSize(side.none.c_str(), nullptr, false, std::max(1.0F, width - 2 * pad));
    const ImVec2 high(at.x + width, at.y + std::max(page.px(kNoneTall), text.y + 2 * pad));
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddRect(at, high, page.tone(Role::rule), 0, 0, page.px(1));
    pen->AddText(nullptr, 0, ImVec2(at.x + pad, at.y + pad), page.tone(Role::pencil),
                 side.none.c_str(), nullptr, std::max(1.0F, width - 2 * pad));
    ImGui::Dummy(ImVec2(width, high.y - at.y));
}

// One half of the pair: the picture as large as the half allows, what it is and when, and the way
// to another one.
void draw_side(Page& page, Context& context, const Side& side, const Chosen& photos,
               std::size_t& which, float width) {
    ImGui::BeginGroup();
    if (photos.empty()) {
        say_none(page, side, width);
        ImGui::EndGroup();
        note(page, side.key, "", "none");
        return;
    }
    if (photos.size() > 1 && pressed({.key = side.hint[0]})) which = (which + 1) % photos.size();
    which = std::min(which, photos.size() - 1);
    const PhotoOfPart& shown = *photos[which];
    const Photo& photo = shown.photo;
    const float tall = page.px(kPairTall);
    const double zoom = std::min(
        {1.0, double(width) / std::max(1, photo.width), double(tall) / std::max(1, photo.height)});
    if (crop(page, side.key, photo.original_name, context.pixels, photo,
             {0, 0, photo.width, photo.height}, zoom))
        context.go = Place{"photos", photo.id.value};
    const std::string when = photo.taken ? to_words(*photo.taken) : safe_utf8(photo.original_name);
    words(page, word(shown.stage));
    ImGui::SameLine(0, page.px(Measure::kGap));
    words(page, cut_to(page, when, width / 2), Role::pencil);
    if (photos.size() > 1) {
        const std::string of =
            std::to_string(which + 1) + " of " + std::to_string(photos.size()) + ", another";
        if (button(page, std::string(side.key) + ".another", of,
                   {.weight = Weight::quiet, .key_hint = side.hint}))
            which = (which + 1) % photos.size();
    }
    ImGui::EndGroup();
}

void draw_pair(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    const std::string tag = facts.part.tag;
    const auto before = photos_at(facts, {fettle::Stage::as_found, fettle::Stage::before});
    const auto after =
        photos_at(facts, {fettle::Stage::after, fettle::Stage::fitted, fettle::Stage::proof});
    const float gap_between = page.px(Measure::kGap);
    const float width = (ImGui::GetContentRegionAvail().x - gap_between) / 2;
    const float start = ImGui::GetCursorPosX();
    const float top = ImGui::GetCursorPosY();
    draw_side(page, context,
              {"part.before", "B",
               "No photo of it before the work. Choose one among the photos, press Alt 2, then T, "
               "and type " +
                   tag + "."},
              before, state.before, width);
    const float low = ImGui::GetCursorPosY();
    ImGui::SetCursorPos(ImVec2(start + width + gap_between, top));
    draw_side(page, context,
              {"part.after", "A",
               "No photo of it after the work. Choose one among the photos, press Alt 4, then T, "
               "and type " +
                   tag + "."},
              after, state.after, width);
    ImGui::SetCursorPosY(std::max(low, ImGui::GetCursorPosY()));
    if (before.empty() || after.empty()) return;
    if (button(page, "part.compare", "lay before and after on each other",
               {.weight = Weight::quiet, .key_hint = "V"}) ||
        pressed({.key = 'V'}))
        context.go = Place{"photos", before[state.before]->photo.id.value, 0,
                           after[state.after]->photo.id.value};
}

void section(Page& page, std::string_view title, std::size_t count) {
    gap(page, Measure::kMargin);
    words(page, title);
    ImGui::SameLine(0, page.px(Measure::kStep));
    words(page, std::to_string(count), Role::pencil);
    rule(page);
}

void draw_photos_of(Page& page, Context& context, const PartFacts& facts) {
    if (facts.photos.empty()) return;
    section(page, "Photos", facts.photos.size());
    // By stage, as the work went on; within it in the order of time.
    std::vector<RowPhoto> row;
    for (const std::string& stage : all_words<fettle::Stage>())
        for (const PhotoOfPart& shown : facts.photos)
            if (word(shown.stage) == stage)
                row.push_back(
                    {shown.photo,
                     stage + "  " +
                         (shown.photo.taken ? to_words(shown.photo.taken->day()) : std::string())});
    if (const auto pressed_one = photo_row(page, "part.photo", context.pixels, row))
        context.go = Place{"photos", pressed_one->value};
}

void draw_marks_of(Page& page, Context& context, const PartFacts& facts) {
    if (facts.marks.empty()) return;
    section(page, "Marks", facts.marks.size());
    Flow flow(page, Measure::kGap);
    for (const Mark& mark : facts.marks) {
        const auto photo = facts.marked.find(mark.photo.value);
        if (photo == facts.marked.end()) continue;
        const double zoom = std::min(double(page.px(kCropTall)) / std::max(1, mark.region.h),
                                     double(page.px(kCropWide)) / std::max(1, mark.region.w));
        const std::string by = mark.maker.empty() ? "maker unknown" : mark.maker;
        const std::string said = by + ", " + std::string(word(mark.sure));
        const float width = std::max({float(mark.region.w * zoom), width_of(page, mark.reading),
                                      width_of(page, said, Face::fine)});
        flow.place(width);
        ImGui::BeginGroup();
        if (mark_crop(page, "part.mark." + std::to_string(mark.id.value), context.pixels,
                      photo->second, mark, zoom))
            context.go = Place{"photos", mark.photo.value, mark.id.value};
        words(page, mark.reading);
        fine_words(page, said);
        ImGui::EndGroup();
    }
}

// Where it came from, how far it got, where it went and what was done, the first day first.
void draw_life(Page& page, Context& context, const PartFacts& facts) {
    if (facts.life.empty()) return;
    section(page, "Its life", facts.life.size());
    int number = 0;
    for (const LifeLine& line : facts.life) {
        const std::string key = "part.life." + std::to_string(number++);
        const float left = ImGui::GetCursorPosX();
        const std::string day = to_words(line.day);
        const std::string id =
            std::to_string(line.entry ? line.entry.value : line.consignment.value);
        if (line.entry) {
            if (link(page, "part.entry." + id, day)) context.go = Place{"log", line.entry.value};
        } else if (line.consignment) {
            if (link(page, key + ".consignment", day))
                context.go = Place{"sent_out", line.consignment.value};
        } else {
            words_beside(page, day, Role::pencil);
        }
        ImGui::SameLine(left + page.px(104));
        words_beside(page, line.kind, Role::pencil);
        ImGui::SameLine(left + page.px(192));
        std::string said = line.words;
        std::erase_if(said, [](char sign) { return sign == '*' || sign == '#' || sign == '`'; });
        if (line.hours) said = said_number(*line.hours) + " h   " + said;
        words_beside(page, cut_to(page, said, ImGui::GetContentRegionAvail().x));
        note(page, key, line.kind, said);
    }
    double hours = 0;
    for (const LifeLine& line : facts.life)
        hours += line.hours.value_or(0);
    if (hours > 0) {
        const std::string worked = "worked on it so far: " + said_number(hours) + " h";
        words(page, worked);
        note(page, "part.hours", worked);
    }
    std::vector<std::string> sums;
    for (const Money& cost : facts.costs)
        sums.push_back(to_words(cost));
    if (sums.empty()) return;
    const std::string all = "paid for it so far: " + join(sums, " and ");
    words(page, all);
    note(page, "part.costs", all);
}

void draw_tasks_of(Page& page, Context& context, const PartFacts& facts) {
    if (facts.tasks.empty()) return;
    section(page, "Worked on by", facts.tasks.size());
    for (const TaskStanding& standing : facts.tasks) {
        const Task& task = standing.task;
        const bool open = task.state == TaskState::open;
        const std::string_view state = standing.ready() ? "ready"
                                       : open           ? "waits"
                                                        : word(task.state);
        words_beside(page, state,
                     standing.ready() ? Role::verdigris
                     : open           ? Role::brass
                                      : Role::pencil);
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (link(page, "part.task." + std::to_string(task.id.value), task.title))
            context.go = Place{"tasks", task.id.value};
    }
}

} // namespace

void draw_part_story(Page& page, Context& context, PartPageState& state, const PartFacts& facts) {
    draw_pair(page, context, state, facts);
    draw_photos_of(page, context, facts);
    draw_evidence(page, context, state, facts);
    draw_marks_of(page, context, facts);
    draw_measurements(page, context, facts.part, state.measuring);
    draw_tasks_of(page, context, facts);
    draw_life(page, context, facts);
}

} // namespace fettle::ui
