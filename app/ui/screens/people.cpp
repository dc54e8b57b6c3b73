#include "ui/screens/people.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kField = 440, kShort = 212, kDidColumn = 104, kDayColumn = 104;
constexpr Chord kKeep{'K', true}; // Ctrl Enter writes the entry, wherever one is

Result<PeopleRead> read_people(const Notebook& book) {
    auto people = list_people(book);
    if (!people) return people.failure();
    auto named = credits(book);
    if (!named) return named.failure();
    return PeopleRead{std::move(*people), std::move(*named)};
}

void begin_contact(PeopleState& state, const Contact& contact) {
    state.contact = contact;
    state.name_error.clear();
    state.writing = true;
    state.take_focus = true;
}

void begin_telling(PeopleState& state) {
    state.what.clear();
    state.on.clear();
    state.what_error.clear();
    state.on_error.clear();
    state.telling = true;
    state.take_focus = true;
}

// Where what they did can be looked at; no screen when it is told in words alone.
Place place_of(const Deed& deed) {
    if (deed.part) return {"parts", deed.part.value};
    if (deed.consignment) return {"sent_out", deed.consignment.value};
    if (deed.cost) return {"money", deed.cost.value};
    return {};
}

void draw_deed(Page& page, Context& context, const Deed& deed, const std::string& key,
               bool chosen) {
    const float left = ImGui::GetCursorPosX() + page.px(12);
    const float right = ImGui::GetCursorPosX() + ImGui::GetContentRegionAvail().x;
    ImGui::SetCursorPosX(left);
    words_beside(page, word(deed.did), Role::pencil);
    ImGui::SameLine(left + page.px(kDidColumn));
    const float forget = chosen && deed.help ? page.px(72) : 0;
    const float room = right - left - page.px(kDidColumn + kDayColumn) - forget;
    const std::string what = cut_to(page, deed.what, room);
    const Place place = place_of(deed);
    if (place.screen.empty())
        words_beside(page, what);
    else if (link(page, key, what))
        context.go = place;
    if (place.screen.empty()) note(page, key, deed.what, word(deed.did));
    if (forget > 0) {
        ImGui::SameLine(right - page.px(kDayColumn) - forget);
        if (button(page, key + ".forget", "forget", {.weight = Weight::quiet}))
            context.went_well(remove_help(context.book, deed.help));
    }
    ImGui::SameLine(right - page.px(kDayColumn));
    words_beside(page, deed.on ? to_words(*deed.on) : "", Role::pencil);
}

void tell(Context& context, PeopleState& state, const Contact& contact) {
    Deed deed{.did = kDid[std::size_t(state.did)], .what = std::string(trim(state.what))};
    if (!trim(state.on).empty()) {
        const auto on = parse_day(trim(state.on));
        state.on_error = on ? "" : on.failure().sentence;
        if (!on) return;
        deed.on = *on;
    }
    const auto noted = note_help(context.book, contact.name, deed);
    state.what_error = noted ? "" : noted.failure().sentence;
    if (noted) state.telling = false;
}

void draw_telling(Page& page, Context& context, PeopleState& state, const Contact& contact) {
    std::vector<std::string> labels;
    for (const Did did : kDid)
        labels.emplace_back(word(did));
    choice(page, "people.did", labels, state.did);
    const FieldChange what = text_field(page, "people.what", state.what,
                                        {.label = "what they " + labels[std::size_t(state.did)],
                                         .hint = "the spring clamp",
                                         .error = state.what_error,
                                         .width = kField,
                                         .take_focus = state.take_focus});
    state.take_focus = false;
    const FieldChange on = text_field(page, "people.on", state.on,
                                      {.label = "on",
                                       .hint = "7 Mar 2026, or nothing",
                                       .error = state.on_error,
                                       .width = kShort});
    const bool wanted = button(page, "people.tell.keep", "keep it",
                               {.weight = Weight::next, .key_hint = words_of(kKeep)});
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool left = button(page, "people.tell.leave", "leave", {.key_hint = "Esc"});
    if (wanted || pressed(kKeep, true) || what.entered || on.entered)
        tell(context, state, contact);
    else if (left || pressed({.key = static_cast<int>(Key::escape)}))
        state.telling = false;
}

// The acts on the contact that is chosen.
void contact_acts(Page& page, Context& context, PeopleState& state, const Contact& contact) {
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + page.px(12));
    Flow flow(page, Measure::kGap);
    const auto act = [&](const char* key, const char* label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    if (act("people.tell", "tell what they did", {.key_hint = "T"}) || pressed({.key = 'T'}))
        begin_telling(state);
    if (act("people.change", "change", {.key_hint = "C"}) || pressed({.key = 'C'}))
        begin_contact(state, contact);
    Contact changed = contact;
    flow.place_check("named in the credits");
    if (check(page, "people.in_credits", "named in the credits", changed.in_credits))
        context.went_well(keep_contact(context.book, changed));
}

void draw_person(Page& page, Context& context, PeopleState& state, const Person& person) {
    const Contact& contact = person.contact;
    const std::string key = "people.row." + std::to_string(contact.id.value);
    const bool chosen = state.at == contact.id;
    gap(page);
    if (row(page, key,
            {.label = contact.name,
             .aside = contact.in_credits ? "" : "not in the credits",
             .selected = chosen})) {
        state.at = contact.id;
        state.telling = false;
    }
    if (state.wanted == contact.id) {
        put_keyboard_here();
        ImGui::SetScrollHereY(0.3F);
        state.at = contact.id;
        state.wanted = {};
    }
    if (ImGui::IsItemFocused() && state.at != contact.id) {
        state.at = contact.id;
        state.telling = false;
    }
    if (!contact.note.empty()) {
        ImGui::SetCursorPosX(ImGui::GetCursorPosX() + page.px(12));
        fine_print(page, contact.note);
    }
    if (chosen && state.telling)
        draw_telling(page, context, state, contact);
    else if (chosen)
        contact_acts(page, context, state, contact);
    rows(page, key + ".deeds", static_cast<int>(person.deeds.size()), Measure::kTarget, [&](int i) {
        draw_deed(page, context, person.deeds[std::size_t(i)], key + ".deed." + std::to_string(i),
                  chosen);
    });
    rule(page);
}

void draw_form(Page& page, Context& context, PeopleState& state) {
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    heading(page, state.contact.id ? "Change the contact" : "A new contact");
    gap(page);
    if (text_field(page, "people.name", state.contact.name,
                   {.label = "name",
                    .hint = "who gave, sold or machined something",
                    .error = state.name_error,
                    .width = kField,
                    .take_focus = state.take_focus})
            .edited)
        state.name_error.clear();
    state.take_focus = false;
    text_field(page, "people.note", state.contact.note, {.label = "note", .width = kField});
    check(page, "people.form.in_credits", "named in the credits", state.contact.in_credits);
    gap(page);
    const bool wanted =
        button(page, "people.keep", state.contact.id ? "keep the contact" : "add the contact",
               {.weight = Weight::next, .key_hint = words_of(kKeep)});
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool left = button(page, "people.leave", "leave", {.key_hint = "Esc"});
    if (wanted || pressed(kKeep, true)) {
        const auto kept = keep_contact(context.book, state.contact);
        state.name_error = kept ? "" : kept.failure().sentence;
        if (!kept) return;
        state.wanted = *kept;
        state.writing = false;
    } else if (left || escaped) {
        state.writing = false;
    }
}

// Breaking a long list of deeds into lines is not done anew each frame.
const CreditsSet& set_credits(const Page& page, PeopleState& state, const PeopleRead& read) {
    CreditsSet& set = state.credits;
    const float room = ImGui::GetContentRegionAvail().x - page.px(Measure::kMargin);
    const float width = std::min(reading_width(page), room);
    if (set.reading == state.read.readings() && set.width == width) return set;
    set = {.reading = state.read.readings(), .width = width};
    for (const Credit& credit : read.credits) {
        set.said.push_back(join(credit.deeds, "; "));
        std::vector<std::string> lines;
        const std::string broken = broken_to(page, set.said.back(), width, Face::fine);
        for (const auto line : split(broken, '\n'))
            lines.emplace_back(line);
        set.lines.push_back(std::move(lines));
    }
    return set;
}

void draw_credit(Page& page, const Credit& credit, const std::string& key, const std::string& said,
                 const std::vector<std::string>& lines) {
    words(page, credit.name);
    note(page, key, credit.name, said);
    ImGui::Indent(page.px(Measure::kMargin));
    const float pitch = page.fonts.fine->FontSize / page.theme.scale;
    rows(page, key + ".lines", static_cast<int>(lines.size()), pitch,
         [&](int i) { fine_words(page, lines[std::size_t(i)]); });
    ImGui::Unindent(page.px(Measure::kMargin));
}

void draw_credits(Page& page, PeopleState& state, const PeopleRead& read) {
    body(page,
         "Who gave comes first, then who lent, machined, helped and sold; among them who did so "
         "first. Those who are not to be named are left out.",
         Role::pencil);
    std::optional<Did> under;
    const CreditsSet& set = set_credits(page, state, read);
    for (std::size_t i = 0; i < read.credits.size(); ++i) {
        const Credit& credit = read.credits[i];
        if (under != credit.under) {
            under = credit.under;
            gap(page, Measure::kGap);
            words(page, "They " + std::string(word(credit.under)));
            rule(page);
        }
        const float guess = page.px(Measure::kRow * float(1 + set.lines[i].size()));
        state.credits_drawn.block(static_cast<std::int64_t>(i), guess, [&] {
            draw_credit(page, credit, "people.credit." + std::to_string(i), set.said[i],
                        set.lines[i]);
        });
    }
    if (read.credits.empty())
        body(page, "Nobody yet: tell what somebody gave, or say whom a part came from.",
             Role::pencil);
}

void come_in(PeopleState& state, const std::vector<Person>& people) {
    const auto there = [&](const Person& person) { return person.contact.id == state.at; };
    if (std::ranges::none_of(people, there)) state.at = people.front().contact.id;
    if (just_came_in(state.last_frame) && !state.wanted) state.wanted = state.at;
}

void overview(Page& page, Context& context, PeopleState& state) {
    const PeopleRead& read = state.read.beside(
        context.side, context.book, 0, [](const Notebook& book, int) { return read_people(book); });
    heading(page, "People");
    if (!state.read.failure().empty())
        notice(page, "people.trouble", Tell::stop, state.read.failure());
    if (state.read.nothing_yet()) return being_read(page, "people.reading");
    if (read.people.empty()) {
        if (empty_page(page, "people.empty",
                       {"Whoever gave, lent, machined, helped or sold something stands here, with "
                        "what it was: parts that came from them, what was sent to them, what was "
                        "paid, and what you tell. The credits of the build book are made of it.",
                        "add the first contact", "N"}) ||
            pressed({.key = 'N'}))
            begin_contact(state, {});
        return;
    }
    ImGui::SameLine(0, page.px(Measure::kMargin));
    if (button(page, "people.new", "a new contact", {.key_hint = "N"}) || pressed({.key = 'N'}))
        begin_contact(state, {});
    ImGui::SameLine(0, page.px(Measure::kMargin));
    static const std::vector<std::string> kViews = {"who did what", "credits"};
    choice(page, "people.view", kViews, state.view);
    ImGui::SameLine(0, page.px(Measure::kStep));
    words_beside(page, "V", Role::pencil, Face::fine);
    if (pressed({.key = 'V'})) state.view = 1 - state.view;
    page.reg.note_key("V", "the other view");
    gap(page);
    if (state.view == 1) return draw_credits(page, state, read);
    come_in(state, read.people);
    for (const Person& person : read.people)
        draw_person(page, context, state, person);
    gap(page, Measure::kMargin);
}

} // namespace

void draw_people(Page& page, Context& context, PeopleState& state) {
    if (state.writing)
        draw_form(page, context, state);
    else
        overview(page, context, state);
}

void lead_to(PeopleState& state, const Place& place) {
    if (place.record == 0) return;
    state.view = 0;
    state.writing = state.telling = false;
    state.wanted = ContactId{place.record};
}

} // namespace fettle::ui
