#include "ui/screens/book/book.h"

#include "desk/book_pdf.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/book/book_options.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <utility>

namespace fettle::ui {
namespace {

constexpr float kLeastPage = 240;
constexpr float kLeastBeside = 240; // for the page beside what is asked; else it stands below
constexpr Chord kBefore{static_cast<int>(Key::page_up)}, kNext{static_cast<int>(Key::page_down)},
    kFirst{static_cast<int>(Key::home)}, kLast{static_cast<int>(Key::end)};

// Has the pages laid out anew when the notebook or the options have changed.
void lay_pages(Context& context, SideWork& work, BookState& state) {
    if (auto laid = state.laying->take()) {
        state.trouble = *laid ? "" : laid->failure().sentence;
        if (*laid) state.laid = std::move(**laid);
        state.drawn_for.clear();
    }
    const auto key = key_of(context.book, state);
    if (key == state.laid_for) return;
    state.laid_for = key;
    auto wish = wish_of(context.book, state);
    state.error = wish ? "" : wish.failure().sentence;
    if (!wish) return;
    if (!state.hand) state.hand = std::make_shared<BookHand>();
    work.ask<BookState::Laid>(
        state.laying,
        [&book = context.book, wish = *wish, hand = state.hand,
         since = state.tells() == BookAbout::since]() -> BookState::Laid {
            auto content = since ? desk::content_since(book, wish) : desk::book_content(book, wish);
            if (!content) return content.failure();
            auto pages = std::make_shared<BookPages>();
            pages->content = std::move(*content);
            pages->layout = desk::lay_out_and_empty(pages->content, hand->types);
            return std::shared_ptr<const BookPages>(std::move(pages));
        });
}

// Has the page that is shown drawn as high as there is room.
void draw_pages(SideWork& work, Surface surface, BookState& state, int height) {
    if (auto drawn = state.drawing->take()) {
        if (*drawn)
            state.drawn = Texture(surface, (*drawn)->width, (*drawn)->height,
                                  {reinterpret_cast<const std::uint8_t*>((*drawn)->rgba.data()),
                                   (*drawn)->rgba.size()});
        else
            state.trouble = drawn->failure().sentence;
    }
    if (!state.laid) return;
    state.page = std::min(state.page, state.laid->layout.pages.size() - 1);
    const auto key =
        state.laid_for + "|" + std::to_string(state.page) + "|" + std::to_string(height);
    if (key == state.drawn_for) return;
    state.drawn_for = key;
    work.ask<Result<photos::Picture>>(
        state.drawing, [laid = state.laid, hand = state.hand, number = state.page, height] {
            return desk::picture_of_page(laid->content, laid->layout.pages[number], height,
                                         hand->types, hand->decoder);
        });
}

void turn(BookState& state, std::size_t count) {
    if (pressed(kNext) && state.page + 1 < count) ++state.page;
    if (pressed(kBefore) && state.page > 0) --state.page;
    if (pressed(kFirst)) state.page = 0;
    if (pressed(kLast)) state.page = count - 1;
}

// The page, and above it which one it is and the ways to others.
void preview(Page& page, SideWork& work, Surface surface, BookState& state) {
    const std::size_t count = state.laid ? state.laid->layout.pages.size() : 0;
    if (count > 0) turn(state, count);
    const std::string which =
        count == 0 ? "laying out the pages"
                   : "page " + std::to_string(state.page + 1) + " of " + std::to_string(count);
    Flow flow(page, Measure::kGap);
    flow.place_words(which);
    words_beside(page, which);
    note(page, "book.page_number", which);
    const ButtonLook before{.weight = Weight::quiet, .key_hint = "PgUp", .enabled = state.page > 0};
    flow.place_button("before", before);
    if (button(page, "book.before", "before", before)) --state.page;
    const ButtonLook next{
        .weight = Weight::quiet, .key_hint = "PgDn", .enabled = state.page + 1 < count};
    flow.place_button("next", next);
    if (button(page, "book.next", "next", next)) ++state.page;
    page.reg.note_key("Home End", "the first page, the last");
    const float room =
        std::max(ImGui::GetContentRegionAvail().y - page.px(Measure::kGap), page.px(kLeastPage));
    const float across = ImGui::GetContentRegionAvail().x;
    const float tall =
        std::min(room, across * float(desk::grid::kPageHeight) / float(desk::grid::kPageWidth));
    draw_pages(work, surface, state, static_cast<int>(tall) / 8 * 8);
    if (!state.trouble.empty()) notice(page, "book.trouble", Tell::stop, state.trouble);
    if (state.drawn.empty()) return;
    image(page, "book.page", which,
          {state.drawn.id(), static_cast<float>(state.drawn.width()),
           static_cast<float>(state.drawn.height())});
}

// Chapters, each leading to its first page.
void chapters(Page& page, BookState& state) {
    if (!state.laid) return;
    gap(page);
    words(page, "Chapters");
    for (const auto& mark : state.laid->layout.bookmarks) {
        if (mark.level != 1) continue;
        if (link(page, "book.chapter." + std::to_string(mark.page + 1), mark.title))
            state.page = mark.page;
    }
}

} // namespace

void lead_to(BookState& state, const Place& place) {
    if (place.record == 0) return;
    const bool part = place.view != "consignment";
    state.about = int(part ? BookAbout::part : BookAbout::consignment);
    state.consignment = part ? "" : std::to_string(place.record);
    state.part.clear();
    state.lead_part = part ? PartId{place.record} : PartId{};
    state.page = 0;
}

void draw_book(Page& page, Context& context, SideWork& work, Surface surface, BookState& state) {
    lay_pages(context, work, state);
    heading(page, "Build book");
    if (ImGui::GetContentRegionAvail().x < page.px(kBookOptions + kLeastBeside)) {
        draw_book_options(page, context, state);
        chapters(page, state);
        gap(page);
        preview(page, work, surface, state);
        return;
    }
    if (!ImGui::BeginTable("book", 2, ImGuiTableFlags_NoSavedSettings)) return;
    ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthFixed, page.px(kBookOptions));
    ImGui::TableSetupColumn("pages", ImGuiTableColumnFlags_WidthStretch);
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    draw_book_options(page, context, state);
    chapters(page, state);
    ImGui::TableNextColumn();
    preview(page, work, surface, state);
    ImGui::EndTable();
}

} // namespace fettle::ui
