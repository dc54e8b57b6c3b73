#include "ui/screens/book/book_options.h"

#include "base/text.h"
#include "base/whole_number.h"
#include "notebook/consignments.h"
#include "notebook/drafts.h"
#include "notebook/parts.h"
#include "ui/beside/book_job.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/photos/photo_intake.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <array>
#include <utility>

namespace fettle::ui {
namespace {

constexpr std::array kPhotoSizes = {desk::kUsualPhotoSize, 2000, 0};
constexpr Chord kWrite{'W'};
constexpr float kField = 268;

Done read_subject(const Notebook& book, const BookState& state, desk::BookWish& wish) {
    if (state.tells() == BookAbout::part) {
        if (trim(state.part).empty())
            return Failure{FailureKind::invalid, "Type the tag of the part."};
        auto part = part_tagged(book, std::string(trim(state.part)));
        if (!part) return part.failure();
        wish.part = part->id;
    }
    if (state.tells() == BookAbout::consignment) {
        const auto number = whole_number(trim(state.consignment));
        if (!number || *number < 1)
            return Failure{FailureKind::invalid,
                           "The consignment " + fettle::quoted(state.consignment) +
                               " is not accepted: type its number, as Sent out shows it."};
        wish.consignment = ConsignmentId{*number};
    }
    return done();
}

Done read_days(const BookState& state, desk::BookWish& wish) {
    for (const auto& [typed, day] : {std::pair(&state.from, &wish.from), {&state.to, &wish.to}}) {
        if (trim(*typed).empty()) continue;
        auto read = parse_day(*typed);
        if (!read) return read.failure();
        *day = *read;
    }
    if (state.tells() != BookAbout::since) return done();
    if (!wish.from)
        return Failure{FailureKind::invalid, "Type the first day of what is to be told."};
    if (!wish.to) wish.to = today();
    return done();
}

void write(Context& context, BookState& state) {
    auto wish = wish_of(context.book, state);
    const bool since = state.tells() == BookAbout::since;
    if (!wish) {
        state.error = wish.failure().sentence;
    } else if (trim(state.out).empty()) {
        state.error = since
                          ? "Type the folder it goes to, such as ~/march."
                          : "Type where it goes: a file such as ~/book.pdf, or a folder for HTML.";
    } else {
        state.error.clear();
        const auto out = std::filesystem::absolute(path_of(std::string(trim(state.out))));
        if (context.write_book)
            context.write_book(
                {std::move(*wish), out, kPhotoSizes[std::size_t(state.photo_size)], since});
    }
}

// One dossier or all, and of which vehicle where there are several.
void subject(Page& page, Context& context, BookState& state) {
    choice(page, "book.about", {"whole book", "a part", "a consignment", "since a day"},
           state.about);
    if (state.lead_part) {
        if (const auto part = part_by_id(context.book, state.lead_part)) state.part = part->tag;
        state.lead_part = {};
    }
    if (state.tells() == BookAbout::part)
        text_field(page, "book.part", state.part, {.label = "tag of the part", .width = kField});
    if (state.tells() == BookAbout::consignment)
        text_field(page, "book.consignment", state.consignment,
                   {.label = "number of the consignment", .width = kField});
    const auto& vehicles =
        state.vehicles.of(context.book, 0, [&](int) { return list_vehicles(context.book); });
    const bool dossier =
        state.tells() == BookAbout::part || state.tells() == BookAbout::consignment;
    if (vehicles.size() < 2 || dossier) return;
    std::vector<std::string> names = {"every vehicle"};
    for (const Vehicle& vehicle : vehicles)
        names.push_back(vehicle.name);
    choice(page, "book.vehicle", names, state.vehicle);
}

// From where the last telling ended, unless somebody typed another day.
void days(Page& page, BookState& state) {
    if (state.tells() == BookAbout::part || state.tells() == BookAbout::consignment) return;
    const bool since = state.tells() == BookAbout::since;
    if (since && state.told_until) {
        const std::string last = "last told until " + to_words(*state.told_until);
        fine_words(page, last);
        note(page, "book.told", last);
    }
    text_field(page, "book.from", state.from,
               {.label = "from", .hint = "the first day", .width = 130});
    ImGui::SameLine();
    text_field(page, "book.to", state.to, {.label = "to", .hint = "today", .width = 130});
}

void what_goes_in(Page& page, BookState& state) {
    if (state.tells() == BookAbout::since) return;
    gap(page);
    words(page, "What goes in");
    const float second = ImGui::GetCursorPosX() + page.px(kBookOptions / 2);
    bool beside = false; // in two columns, so that all of it is in sight
    for (const auto part : desk::all_book_parts()) {
        if (std::exchange(beside, !beside)) ImGui::SameLine(second);
        bool in = !state.without.contains(part);
        const std::string said(desk::word(part));
        if (!check(page, "book.with." + said, said, in)) continue;
        if (in)
            state.without.erase(part);
        else
            state.without.insert(part);
    }
}

} // namespace

Result<desk::BookWish> wish_of(const Notebook& book, const BookState& state) {
    desk::BookWish wish;
    if (auto read = read_subject(book, state, wish); !read) return read.failure();
    const bool whole = !wish.part && !wish.consignment;
    if (whole) {
        if (auto read = read_days(state, wish); !read) return read.failure();
        if (state.vehicle > 0) {
            const auto vehicles = list_vehicles(book);
            if (!vehicles) return vehicles.failure();
            const auto which = std::size_t(state.vehicle - 1);
            if (which < vehicles->size()) wish.vehicle = (*vehicles)[which].name;
        }
    }
    wish.order = state.order == 0 ? desk::BookOrder::by_date : desk::BookOrder::by_group;
    wish.without = state.without;
    return wish;
}

std::string key_of(const Notebook& book, const BookState& state) {
    std::string key = std::to_string(book.change_counter());
    for (const int chosen : {state.about, state.vehicle, state.order})
        key += "|" + std::to_string(chosen);
    for (const auto* typed : {&state.from, &state.to, &state.part, &state.consignment})
        key += "|" + *typed;
    for (const auto part : state.without)
        key += "|" + std::string(desk::word(part));
    return key;
}

void draw_book_options(Page& page, Context& context, BookState& state) {
    words(page, "What it tells");
    const int told_before = state.about;
    subject(page, context, state);
    const bool since = state.tells() == BookAbout::since;
    if (since && state.about != told_before) {
        const auto told = told_until(context.book);
        state.told_until = told ? *told : std::nullopt;
        if (state.told_until && trim(state.from).empty()) state.from = to_words(*state.told_until);
    }
    days(page, state);
    const FieldChange out = text_field(page, "book.out", state.out,
                                       {.label = since ? "a folder, for Markdown and its photos"
                                                       : "a file.pdf, or a folder for HTML",
                                        .hint = since ? "~/march" : "~/book.pdf",
                                        .error = state.error});
    const bool pressed_write = button(page, "book.write", since ? "write it" : "write the book",
                                      {.weight = Weight::next, .key_hint = words_of(kWrite)}) ||
                               pressed(kWrite);
    if (pressed_write || out.entered) write(context, state);
    gap(page);
    if (state.tells() == BookAbout::whole) {
        words(page, "Chapters of the log");
        choice(page, "book.order", {"by date", "by group"}, state.order);
    }
    what_goes_in(page, state);
    gap(page);
    words(page, "Photos, longest side");
    choice(page, "book.size", {"1000 px", "2000 px", "as they are"}, state.photo_size);
}

} // namespace fettle::ui
