#include "desk/book_strips.h"

#include <algorithm>

namespace fettle::desk {
namespace {

using namespace grid;

constexpr Type kRunning{.size = 2.7, .lead = 3.6, .colour = kPencil, .most = 1};
constexpr Type kContentsLine{.size = 3.6, .lead = 7.2, .most = 1};
constexpr Type kContentsSmall{.size = 3, .lead = 4.8, .colour = kPencil, .most = 1};
constexpr std::size_t kMostSmallContents = 32;

void move_down(Placed& placed, double by) {
    struct Mover {
        double by;
        void operator()(TextAt& text) const { text.place.top += by; }
        void operator()(PhotoAt& photo) const { photo.box.top += by; }
        void operator()(ChartAt& chart) const { chart.box.top += by; }
        void operator()(RuleAt& rule) const {
            rule.top += by;
            rule.bottom += by;
        }
    };
    std::visit(Mover{by}, placed);
}

bool goes_on(const TextAt& above, const TextAt& below) {
    return above.text == below.text && above.place.left == below.place.left &&
           above.place.first + above.place.count == below.place.first;
}

bool goes_on(const RuleAt& above, const RuleAt& below) {
    return above.left == above.right && above.left == below.left && below.left == below.right &&
           above.strength == below.strength && above.colour == below.colour &&
           below.top - above.bottom < 0.01 && above.bottom - below.bottom < 0.01;
}

// Lines of one paragraph are one piece of text again, strokes one below the other one stroke.
bool joined(std::vector<Placed>& all, const Placed& next) {
    // As many as stand beside each other: bars of quotes within quotes, a mark, the line itself.
    const std::size_t few = std::min<std::size_t>(all.size(), kDeepestBlock + 4);
    for (std::size_t back = 1; back <= few; ++back) {
        auto& before = all[all.size() - back];
        if (const auto* text = std::get_if<TextAt>(&next))
            if (auto* above = std::get_if<TextAt>(&before); above && goes_on(*above, *text)) {
                above->place.count += text->place.count;
                return true;
            }
        if (const auto* rule = std::get_if<RuleAt>(&next))
            if (auto* above = std::get_if<RuleAt>(&before); above && goes_on(*above, *rule)) {
                above->bottom = rule->bottom;
                return true;
            }
    }
    return false;
}

// Fills pages with strips.
class Filling {
  public:
    std::vector<BookPage> pages;
    std::vector<Bookmark> bookmarks;

    void next_page() {
        if (!pages.empty()) pages.back().placed.shrink_to_fit();
        pages.emplace_back();
        y_ = aside_ends_ = kTop;
    }

    void fill(const Strips& all) {
        const auto& strips = all.strips;
        for (std::size_t first = 0; first < strips.size();) {
            std::size_t end = first;
            while (end < strips.size() && strips[end].keep)
                ++end;
            end = std::min(end + 1, strips.size());
            if (!at_top() && !fits(all, first, end)) next_page();
            const bool together = fits(all, first, end);
            for (; first < end; ++first) {
                if (!together && !at_top() && !fits(all, first, first + 1)) next_page();
                put(all, strips[first]);
            }
        }
    }

  private:
    bool at_top() const { return y_ <= kTop + 0.01; }

    double top_of(const Strip& strip, double y) const {
        const double top = y <= kTop + 0.01 ? y : y + strip.before;
        const bool clear = strip.whole_width || !strip.aside.empty();
        return clear ? std::max(top, aside_ends_ + (aside_ends_ > top ? strip.before : 0)) : top;
    }

    bool fits(const Strips& all, std::size_t first, std::size_t end) const {
        double y = y_;
        for (; first < end; ++first) {
            const Strip& strip = all.strips[first];
            if (y <= kTop + 0.01 && strip.head) y += all.heads[*strip.head].height;
            const double top = top_of(strip, y);
            y = top + strip.height;
            if (std::max(y, top + strip.aside_height) > kFoot + 0.01) return false;
        }
        return true;
    }

    void put(const Strips& all, const Strip& strip) {
        if (at_top() && strip.head) put(all, all.heads[*strip.head]);
        const double top = top_of(strip, y_);
        auto& page = pages.back();
        if (strip.bookmark) {
            bookmarks.push_back(*strip.bookmark);
            bookmarks.back().page = pages.size() - 1;
            bookmarks.back().top = top;
        }
        for (const auto& anchor : strip.anchors)
            page.anchors.push_back({anchor, top});
        const auto add = [&](Placed placed) {
            move_down(placed, top);
            if (!joined(page.placed, placed)) page.placed.push_back(std::move(placed));
        };
        if (strip.in_sheet && !strip.whole_width)
            add(RuleAt{kBody - 3, std::min(y_ - top, 0.0), kBody - 3, strip.height, 0.4, kRule});
        for (const auto& placed : strip.aside)
            add(placed);
        for (const auto& placed : strip.placed)
            add(placed);
        if (!strip.aside.empty()) aside_ends_ = top + on_grid(strip.aside_height);
        y_ = top + strip.height;
    }

    double y_ = kTop, aside_ends_ = kTop;
};

void add_running(BookPage& page, std::size_t number, const std::string& left,
                 const std::string& right) {
    const double above = 14, below = 284;
    page.placed.reserve(page.placed.size() + 4); // and no more: there are thousands of pages
    Type to_right = kRunning;
    to_right.set = Set::right;
    page.placed.push_back(text_at(left, kRunning, {kLeft, above, kWidth / 2 - 3, 0, 1}, ""));
    page.placed.push_back(
        text_at(right, to_right, {kLeft + kWidth / 2 + 3, above, kWidth / 2 - 3, 0, 1}, ""));
    page.placed.push_back(RuleAt{kLeft, above + 4.4, kLeft + kWidth, above + 4.4});
    page.placed.push_back(text_at("page " + std::to_string(number), to_right,
                                  {kLeft + kWidth - 40, below, 40, 0, 1}, ""));
}

// One line of the contents, its page at the right.
Strip contents_line(const Bookmark& mark, std::size_t offset, const std::string& leads_to) {
    const bool large = mark.level == 1;
    const Type type = large ? kContentsLine : kContentsSmall;
    Strip strip{.height = type.lead, .before = large ? kStep : 0};
    const double left = kBody + (large ? 0 : 6);
    auto title = text_at(mark.title, type, {left, 0, kLeft + kWidth - 16 - left, 0, 1}, "P");
    if (!leads_to.empty()) title.leads_to = std::make_shared<const std::string>(leads_to);
    Type number = type;
    number.set = Set::right;
    strip.placed.push_back(std::move(title));
    strip.placed.push_back(text_at(std::to_string(mark.page + offset + 1), number,
                                   {kLeft + kWidth - 14, 0, 14, 0, 1}, "P"));
    if (large) strip.placed.push_back(RuleAt{kBody, 0, kLeft + kWidth, 0});
    return strip;
}

std::vector<BookPage> contents_pages(const BookContent& content, const Filling& body,
                                     std::size_t offset) {
    Strips strips;
    Strip head{.height = 10 * kStep, .keep = true, .whole_width = true};
    head.placed.push_back(RuleAt{kLeft, 0.6, kLeft + 22, 0.6, 1.2, kRedLead});
    head.placed.push_back(text_at("Contents", {.size = 8.5, .lead = 12, .bold = true},
                                  {kLeft, 2 * kStep, kWidth, 0, 1}, "H1"));
    strips.strips.push_back(std::move(head));
    const bool small = body.bookmarks.size() <= kMostSmallContents;
    std::size_t chapter = 0;
    for (const auto& mark : body.bookmarks) {
        std::string leads_to;
        if (mark.level == 1 && chapter < content.chapters.size())
            leads_to = content.chapters[chapter++].anchor;
        if (mark.level == 1 || small)
            strips.strips.push_back(contents_line(mark, offset, leads_to));
    }
    Filling filling;
    filling.next_page();
    filling.fill(strips);
    return std::move(filling.pages);
}

void add_figures(const BookContent& content, BookPage& page) {
    constexpr double kTall = 20, kFirst = 228;
    const double across = kWidth / 4;
    double left = kLeft, top = kFirst;
    for (const auto& [number, what] : content.figures) {
        page.placed.push_back(text_at(number, {.size = 7.5, .lead = 9, .bold = true, .most = 1},
                                      {left, top, across - 4, 0, 1}));
        page.placed.push_back(text_at(what, {.size = 2.9, .lead = 4, .colour = kPencil, .most = 1},
                                      {left, top + 9, across - 4, 0, 1}));
        left += across;
        if (left > kLeft + kWidth - 1) {
            left = kLeft;
            top += kTall;
        }
    }
    if (!content.figures.empty())
        page.placed.push_back(RuleAt{kLeft, kFirst - 4, kLeft + kWidth, kFirst - 4, 0.25, kPencil});
}

BookPage title_page(const BookContent& content, Typesetter& types) {
    BookPage page;
    double top = 30;
    const auto line = [&](const std::string& text, Type type, const char* tag) {
        if (text.empty()) return;
        const int lines = types.lines(text, type, kWidth);
        page.placed.push_back(text_at(text, type, {kLeft, top, kWidth, 0, lines}, tag));
        top += lines * type.lead;
    };
    page.placed.push_back(RuleAt{kLeft, top, kLeft + 34, top, 1.6, kRedLead});
    top += 5;
    line(content.subject, {.size = 4.6, .lead = 8, .colour = kPencil, .most = 2}, "P");
    line(content.title, {.size = 14, .lead = 17, .bold = true, .most = 3}, "H1");
    line(content.lines, {.size = 4.2, .lead = 7, .most = 2}, "P");
    line(content.period, {.size = 4.2, .lead = 7, .most = 1}, "P");
    if (content.cover) {
        top += 6;
        page.placed.push_back(PhotoAt{content.cover->photo,
                                      content.cover->part,
                                      {kLeft, top, kWidth, 216 - top},
                                      content.cover->shows});
    }
    add_figures(content, page);
    page.placed.push_back(text_at(content.made, kRunning, {kLeft, 284, kWidth, 0, 1}, "P"));
    return page;
}

// `laid` is called with the number of each chapter that stands on pages.
template <class Laid>
BookLayout lay_out_chapters(const BookContent& content, Typesetter& types, Laid laid) {
    Filling body;
    std::vector<std::pair<std::size_t, std::string>> begins; // where chapters do
    for (std::size_t at = 0; at < content.chapters.size(); ++at) {
        const Chapter& chapter = content.chapters[at];
        begins.emplace_back(body.pages.size(), chapter.title);
        body.next_page();
        each_strips(chapter, content, types, [&body](const Strips& strips) { body.fill(strips); });
        laid(at);
    }
    BookLayout layout{content.title + ", " + content.subject, content.subject, {}, {}};
    layout.pages.push_back(title_page(content, types));
    std::size_t offset = 1;
    if (content.chapters.size() > 1) {
        offset += contents_pages(content, body, 0).size();
        for (auto& page : contents_pages(content, body, offset)) {
            layout.pages.push_back(std::move(page));
            add_running(layout.pages.back(), layout.pages.size(), content.title, "Contents");
        }
    }
    std::size_t chapter = 0;
    for (std::size_t at = 0; at < body.pages.size(); ++at) {
        while (chapter + 1 < begins.size() && begins[chapter + 1].first <= at)
            ++chapter;
        add_running(body.pages[at], at + offset + 1, content.title, begins[chapter].second);
        layout.pages.push_back(std::move(body.pages[at]));
    }
    layout.bookmarks = std::move(body.bookmarks);
    for (auto& mark : layout.bookmarks)
        mark.page += offset;
    return layout;
}

} // namespace

BookLayout lay_out(const BookContent& content, Typesetter& types) {
    return lay_out_chapters(content, types, [](std::size_t) {});
}

BookLayout lay_out_and_empty(BookContent& content, Typesetter& types) {
    return lay_out_chapters(content, types,
                            [&content](std::size_t at) { content.chapters[at].blocks = {}; });
}

} // namespace fettle::desk
