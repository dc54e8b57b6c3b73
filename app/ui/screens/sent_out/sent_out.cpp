#include "ui/screens/sent_out/sent_out.h"

#include "base/text.h"
#include "desk/consignment_papers.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/pictures/photo_row.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kTagColumn = 96, kNameColumn = 160, kLeastName = 96, kSmallPhoto = 64;

Done add_photo_of(const Notebook& book, ShownConsignment& shown, PhotoId id) {
    auto photo = photo_by_id(book, id);
    if (!photo) return photo.failure();
    shown.photos.emplace(id.value, std::move(*photo));
    return done();
}

Result<ShownConsignment> shown_of(const Notebook& book, Consignment all) {
    ShownConsignment shown{.all = std::move(all)};
    for (const ConsignmentItem& item : shown.all.items) {
        if (item.back > 0) continue;
        auto lacks = evidence_wanted(book, shown.all.id, item.part);
        if (!lacks) return lacks.failure();
        if (!lacks->empty()) shown.lacks[item.part.value] = std::move(*lacks);
    }
    auto arrivals = photos_of_arrival(book, shown.all.id);
    if (!arrivals) return arrivals.failure();
    shown.arrivals = std::move(*arrivals);
    for (const PhotoId photo : shown.all.papers)
        if (auto added = add_photo_of(book, shown, photo); !added) return added.failure();
    for (const SeenTags& seen : shown.arrivals)
        if (auto added = add_photo_of(book, shown, seen.photo); !added) return added.failure();
    return shown;
}

Role role_of(ConsignmentState state) {
    switch (state) {
    case ConsignmentState::overdue:
        return Role::red_lead;
    case ConsignmentState::out:
        return Role::brass;
    case ConsignmentState::over:
        return Role::verdigris;
    default:
        return Role::pencil;
    }
}

Role role_of(const ConsignmentItem& item, bool sent) {
    if (!sent) return Role::pencil;
    if (item.missing() == 0) return Role::verdigris;
    if (!item.settled_how.empty()) return Role::pencil;
    return item.back > 0 ? Role::red_lead : Role::brass;
}

std::string head_words(const Consignment& all) {
    return (all.inward ? "from " : "to ") + all.firm + ", " + all.purpose;
}

std::string under_words(const Consignment& all) {
    std::vector<std::string> said;
    const auto add = [&](const std::string& text) {
        if (!text.empty()) said.push_back(text);
    };
    add("consignment " + std::to_string(all.id.value));
    add(all.sent_on ? "sent " + to_words(*all.sent_on) : "");
    add(all.due_on ? "due " + to_words(*all.due_on) : "");
    add(all.carrier);
    add(all.carrier_number.empty() ? "" : "number " + all.carrier_number);
    const auto value = desk::declared_words(all);
    add(value.empty() ? "" : "value " + value);
    add(all.settled_how);
    add(all.note);
    return join(said, "     ");
}

std::string condition_words(const ConsignmentItem& item) {
    std::string said(word(item.condition_out));
    if (item.condition_back && *item.condition_back != item.condition_out)
        said += " → " + std::string(word(*item.condition_back));
    return said;
}

// What can be done with one item, beside it.
void item_acts(Page& page, Context& context, SentOutState& state, const Consignment& all,
               const ConsignmentItem& item, const std::string& key) {
    const auto act = [&](const char* name, std::string_view label) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        return button(page, key + name, label, {.weight = Weight::quiet});
    };
    if (!all.sent_on) {
        if (act(".off", "take off")) context.went_well(take_off(context.book, all.id, item.part));
        return;
    }
    if (item.missing() == 0) return;
    if (state.doing == Doing::receiving && act(".came", "came"))
        receive_item(context, state, all, item.part);
    if (item.awaited() && act(".settle", "settle")) {
        state.begin(Doing::settling);
        state.part = item.part;
    }
}

// In fine print below an item: how it went and came, its value, what was not photographed.
void draw_below_item(Page& page, const ShownConsignment& shown, const ConsignmentItem& item,
                     const std::string& key, float left) {
    std::string said = condition_words(item);
    if (item.value) said += "     " + to_words(*item.value);
    if (!item.note.empty()) said += "     " + item.note;
    ImGui::SetCursorPos(ImVec2(left, ImGui::GetCursorPosY() - page.px(Measure::kStep)));
    fine_print(page, said);
    note(page, key + ".condition", said);
    const auto lacks = shown.lacks.find(item.part.value);
    if (lacks == shown.lacks.end()) return;
    const std::string under =
        (shown.all.sent_on ? "went without: " : "photograph first: ") + join(lacks->second, "; ");
    ImGui::SetCursorPosX(left);
    fine_print(page, under, Role::brass);
    note(page, key + ".lacks", under);
}

// As far in as the longest tag on the consignment needs.
float tag_column(const Page& page, const Consignment& all) {
    float widest = 0;
    for (const ConsignmentItem& item : all.items)
        widest = std::max(widest, tag_width(page, item.tag));
    return page.px(12) + widest + page.px(Measure::kStep);
}

void draw_item(Page& page, Context& context, SentOutState& state, const ShownConsignment& shown,
               const ConsignmentItem& item, bool chosen) {
    const Consignment& all = shown.all;
    const std::string key = "sent_out.item." + std::to_string(all.id.value) + "." + item.tag;
    const float left = ImGui::GetCursorPosX(), room = ImGui::GetContentRegionAvail().x;
    const float column = left + std::max(page.px(kTagColumn), tag_column(page, all));
    ImGui::SetCursorPosX(left + page.px(12)); // as far in as the head
    if (tag_chip(page, key, item.tag)) context.go = Place{"parts", item.part.value};
    const std::string standing = all.sent_on ? standing_words(item, all.inward) : "packed";
    const float acts =
        chosen && item.missing() > 0
            ? page.px(state.doing == Doing::receiving && all.sent_on ? 136.0F : 88.0F)
            : 0;
    const float last = left + room - acts - width_of(page, standing) - page.px(Measure::kStep);
    const float standing_left =
        std::max(column + page.px(kLeastName),
                 std::min(std::max(column + page.px(kNameColumn), left + room * 0.5F), last));
    ImGui::SameLine(column);
    std::string name = item.name;
    if (const auto pieces = pieces_words(item); !pieces.empty()) name += "  " + pieces;
    words_beside(page, cut_to(page, name, standing_left - column - page.px(Measure::kGap)));
    ImGui::SameLine(standing_left);
    words_beside(page, cut_to(page, standing, left + room - standing_left - acts),
                 role_of(item, all.sent_on.has_value()));
    note(page, key + ".standing", standing);
    if (chosen) item_acts(page, context, state, all, item, key);
    draw_below_item(page, shown, item, key, column);
}

void draw_arrivals(Page& page, Context& context, const ShownConsignment& shown) {
    for (const SeenTags& seen : shown.arrivals) {
        const auto photo = shown.photos.find(seen.photo.value);
        if (photo == shown.photos.end()) continue;
        const std::string key = "sent_out.arrival." + std::to_string(seen.photo.value);
        if (thumbnail(page, key, context.pixels, photo->second, page.px(kSmallPhoto)))
            context.go = Place{"photos", seen.photo.value};
        ImGui::SameLine(0, page.px(Measure::kGap));
        ImGui::BeginGroup();
        std::vector<std::string> tags;
        Receipt receipt{.on = today(), .paper = seen.photo};
        for (const PartId part : seen.parts) {
            tags.push_back(shown.all.item(part)->tag);
            receipt.items.push_back({part});
        }
        const auto& taken = photo->second.taken;
        if (taken) receipt.on = taken->day();
        words(page, "this photo shows " + join(tags, ", ") +
                        (taken ? ", taken " + to_words(taken->day()) : ""));
        if (button(page, key + ".came", "tick off what it shows", {.weight = Weight::plain}))
            context.went_well(receive(context.book, shown.all.id, receipt));
        ImGui::EndGroup();
    }
}

void draw_papers(Page& page, Context& context, const ShownConsignment& shown) {
    if (shown.all.papers.empty()) return;
    std::vector<RowPhoto> row;
    for (const PhotoId id : shown.all.papers)
        if (const auto photo = shown.photos.find(id.value); photo != shown.photos.end())
            row.push_back({photo->second,
                           photo->second.taken ? to_words(photo->second.taken->day()) : "paper"});
    fine_words(page, "papers");
    const std::string key = "sent_out.paper." + std::to_string(shown.all.id.value);
    if (const auto photo = photo_row(page, key, context.pixels, row, kSmallPhoto))
        context.go = Place{"photos", photo->value};
}

void choose(SentOutState& state, ConsignmentId id) {
    if (state.at != id) {
        state.begin(Doing::nothing);
        state.paper_said.clear();
    }
    state.at = id;
}

void draw_block(Page& page, Context& context, SideWork& work, SentOutState& state,
                const ShownConsignment& shown) {
    const Consignment& all = shown.all;
    const std::string key = "sent_out.row." + std::to_string(all.id.value);
    const std::string head = head_words(all), standing = standing_words(all, today());
    const bool chosen = state.at == all.id;
    gap(page, Measure::kGap);
    if (row(page, key,
            {.label = head,
             .aside = standing,
             .aside_role = role_of(all.state(today())),
             .selected = chosen}))
        choose(state, all.id);
    if (state.wanted == all.id) {
        put_keyboard_here();
        ImGui::SetScrollHereY(0.2F);
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) choose(state, all.id);
    if (chosen && state.bring_up) ImGui::SetScrollHereY(0);
    state.bring_up = state.bring_up && !chosen;
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + page.px(12));
    fine_print(page, under_words(all));
    rule(page);
    if (chosen) draw_consignment_acts(page, context, work, state, shown);
    for (const ConsignmentItem& item : all.items)
        draw_item(page, context, state, shown, item, chosen);
    if (all.items.empty())
        body(page, "Nothing is on it yet: press P and type a few letters of a part.", Role::pencil);
    if (!chosen) return;
    draw_arrivals(page, context, shown);
    draw_papers(page, context, shown);
}

void begin_new(SentOutState& state) {
    state.form = {};
    state.writing = true;
}

bool is_over(const ShownConsignment& shown) {
    return shown.all.state(today()) == ConsignmentState::over;
}

void come_in(SentOutState& state, const std::vector<ShownConsignment>& list) {
    const auto there = [&](const ShownConsignment& shown) { return shown.all.id == state.at; };
    if (std::ranges::none_of(list, there)) choose(state, list.front().all.id);
    if (just_came_in(state.last_frame) && !state.wanted) state.wanted = state.at;
}

void list_screen(Page& page, Context& context, SideWork& work, SentOutState& state) {
    const auto& list = state.list.beside(context.side, context.book, today(), read_consignments);
    heading(page, "Sent out");
    if (!state.list.failure().empty())
        notice(page, "sent_out.trouble", Tell::stop, state.list.failure());
    if (state.list.nothing_yet()) return being_read(page, "sent_out.reading");
    if (list.empty()) {
        if (empty_page(page, "sent_out.empty",
                       {"What goes out to a firm, or is on its way in from a seller, stands here: "
                        "to whom, what for, since when, what came back and what is missing. Before "
                        "blasting or plating you are told what is not photographed yet.",
                        "make the first consignment", "N"}) ||
            pressed({.key = 'N'}))
            begin_new(state);
        return;
    }
    ImGui::SameLine(0, page.px(Measure::kMargin));
    if (button(page, "sent_out.new", "a new consignment", {.key_hint = "N"}) ||
        pressed({.key = 'N'}))
        begin_new(state);
    come_in(state, list);
    const auto over = std::ranges::count_if(list, is_over);
    for (const ShownConsignment& shown : list)
        if (!is_over(shown) || shown.all.id == state.at || state.with_over)
            draw_block(page, context, work, state, shown);
    if (over > 0) {
        gap(page, Measure::kMargin);
        check(page, "sent_out.over", "show what is over: " + std::to_string(over), state.with_over);
    }
    gap(page, Measure::kMargin);
}

} // namespace

Result<std::vector<ShownConsignment>> read_consignments(const Notebook& book, Day today) {
    auto list = list_consignments(book, today);
    if (!list) return list.failure();
    std::vector<ShownConsignment> all;
    for (Consignment& consignment : *list) {
        auto shown = shown_of(book, std::move(consignment));
        if (!shown) return shown.failure();
        all.push_back(std::move(*shown));
    }
    return all;
}

std::string sent_out_count(const std::vector<Consignment>& all, Day today) {
    const auto count = [&](ConsignmentState state) {
        return std::ranges::count_if(
            all, [&](const Consignment& one) { return one.state(today) == state; });
    };
    const auto overdue = count(ConsignmentState::overdue), out = count(ConsignmentState::out);
    if (overdue > 0) return std::to_string(overdue) + " late";
    return out > 0 ? std::to_string(out) + " out" : std::string();
}

void draw_sent_out(Page& page, Context& context, SideWork& work, SentOutState& state) {
    if (!state.writing) {
        list_screen(page, context, work, state);
        return;
    }
    const HeadEnd end = draw_consignment_form(page, context, state.form);
    if (end == HeadEnd::goes_on) return;
    state.writing = false;
    if (end == HeadEnd::kept) {
        const bool empty = state.form.head.items.empty();
        choose(state, state.form.head.id);
        state.wanted = state.at;
        if (empty) state.begin(Doing::putting_on);
    }
}

void lead_to(SentOutState& state, const Place& place) {
    if (place.record == 0) return;
    state.writing = false;
    choose(state, ConsignmentId{place.record});
    state.wanted = state.at;
}

} // namespace fettle::ui
