#include "desk/book_strips.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace fettle::desk {
namespace {

using namespace grid;

constexpr Type kBodyType{};
constexpr Type kFine{.size = 2.8, .lead = 3.6, .colour = kPencil};
constexpr Type kWorkingType{.size = 2.8, .lead = 3.6};
constexpr Type kChapterType{.size = 8.5, .lead = 12, .bold = true};
constexpr Type kTitleType{.size = 4.6, .lead = 7.2, .bold = true};
constexpr Type kSmallTitle{.size = 3.6, .lead = 4.8, .bold = true};
constexpr Type kSheetTitle{.size = 3.35, .lead = 4.8, .bold = true};
constexpr Type kCaption{.size = 2.7, .lead = 3.4, .colour = kPencil, .most = 4};
constexpr double kGap = 4, kMostChart = 170;
constexpr double kMonthsTall = 150; // in units of charts: columns tell as much when they are low
constexpr double kChartUnits = 4.8; // a millimetre: laid out in those the window uses
constexpr double kOneTall = 84, kTwoTall = 72, kThreeTall = 58, kPairTall = 92, kMarkTall = 36;

struct Voice {
    const char* word;
    Colour colour;
};
Voice voice_of(calc::NoteLevel level) {
    switch (level) {
    case calc::NoteLevel::stop:
        return {"stop", kRedLead};
    case calc::NoteLevel::caution:
        return {"caution", kBrass};
    case calc::NoteLevel::reached:
        return {"reached", kVerdigris};
    case calc::NoteLevel::info:
        break;
    }
    return {"", kRule};
}

} // namespace

TextAt text_at(std::string text, const Type& type, Typesetter::Place place, std::string_view tag) {
    return {std::make_shared<const std::string>(std::move(text)), type, place, tag, {}};
}

double on_grid(double height) {
    return std::ceil(height / kStep - 1e-6) * kStep;
}

Strip& StripMaker::push(Strip strip) {
    strip.before = std::max(strip.before, std::exchange(next_before_, 0));
    strip.in_sheet = strip.in_sheet || in_sheet_;
    if (auto aside = std::exchange(waiting_, std::nullopt)) {
        if (strip.whole_width) { // the aside stands above it instead
            waiting_ = std::move(aside);
            end_aside();
        } else {
            strip.aside = std::move(aside->aside);
            strip.aside_height = aside->aside_height;
            strip.before = std::max(strip.before, aside->before);
        }
    }
    made_.strips.push_back(std::move(strip));
    return made_.strips.back();
}

// Nothing stands beside it.
void StripMaker::end_aside() {
    auto aside = std::exchange(waiting_, std::nullopt);
    if (!aside) return;
    aside->height = on_grid(aside->aside_height);
    made_.strips.push_back(std::move(*aside));
}

void StripMaker::hand_over(const TakeStrips& take) {
    auto& strips = made_.strips;
    const auto last = std::find_if(strips.rbegin(), strips.rend(),
                                   [](const Strip& strip) { return !strip.keep; });
    if (last == strips.rend()) return;
    const auto kept = last.base();
    std::vector<Strip> later(std::make_move_iterator(kept), std::make_move_iterator(strips.end()));
    strips.erase(kept, strips.end());
    take(made_);
    strips = std::move(later);
}

void StripMaker::end(const TakeStrips& take) {
    end_aside();
    take(made_);
}

std::size_t StripMaker::text(const Said& said) {
    const int count =
        std::max(1, types_.lines(said.text, said.type, said.column.width, said.spans));
    const auto shared = std::make_shared<const std::string>(said.text);
    const auto spans = said.spans.empty() ? nullptr : std::make_shared<const Spans>(said.spans);
    const double lead = said.type.lead;
    const bool aside_above = waiting_ && said.column.left < kBody;
    const std::size_t first = made_.strips.size() + (aside_above ? 1 : 0);
    for (int line = 0; line < count; ++line) {
        Strip strip{.height = lead};
        if (line == 0) strip.before = said.before;
        if (line + 1 == count) strip.height += on_grid(lead * count) - lead * count;
        // No first line alone at a page's foot, no last one alone at a page's head.
        strip.keep = line + 1 < count && (said.together || line == 0 || line + 2 == count);
        strip.whole_width = said.column.left < kBody;
        strip.placed.push_back(TextAt{shared,
                                      said.type,
                                      {said.column.left, 0, said.column.width, line, 1},
                                      said.tag,
                                      {},
                                      spans});
        push(std::move(strip));
    }
    return first;
}

void StripMaker::chapter_title(const Chapter& chapter) {
    Strip bar{.height = 2 * kStep, .keep = true, .whole_width = true};
    bar.placed.push_back(RuleAt{kLeft, 0.6, kLeft + 22, 0.6, 1.2, kRedLead});
    bar.bookmark = Bookmark{chapter.title, 1};
    bar.anchors = {chapter.anchor};
    push(std::move(bar));
    text({chapter.title, kChapterType, {kLeft, kWidth}, "H1", 0, true});
    made_.strips.back().keep = true;
    next_before_ = 2 * kStep;
}

void StripMaker::add(const Words& words) {
    switch (words.kind) {
    case Words::Kind::body:
        text({words.text, kBodyType, {}, "P", kStep});
        return;
    case Words::Kind::fine:
        text({words.text, kFine, {}, "P", in_sheet_ ? 0 : kStep});
        return;
    case Words::Kind::working:
        text({words.text, kWorkingType, {kBody + 5, kBodyWidth - 5}, "P", 0});
    }
}

void StripMaker::add(const Title& title) {
    const bool large = title.level <= 2;
    Said said{title.text, kSmallTitle, {}, "H3", kStep, true};
    if (large) said = {title.text, kTitleType, {kLeft, kWidth}, "H2", 4 * kStep, true};
    const auto first = text(said);
    for (auto at = first; at < made_.strips.size(); ++at)
        made_.strips[at].keep = true;
    if (!large) return;
    auto& strip = made_.strips[first];
    strip.bookmark = Bookmark{title.text, 2};
    if (!title.anchor.empty()) strip.anchors = {title.anchor};
    strip.placed.push_back(RuleAt{kLeft, 0, kLeft + kWidth, 0});
}

void StripMaker::add(const Aside& aside) {
    end_aside();
    Strip strip{.before = 4 * kStep, .keep = true};
    double down = 0;
    const auto set = [&](const std::string& said, const Type& type) {
        const int count = std::max(1, types_.lines(said, type, kAside));
        strip.aside.push_back(text_at(said, type, {kLeft, down, kAside, 0, count}));
        down += count * type.lead;
    };
    set(aside.head, kSheetTitle);
    Type lines = kFine;
    lines.most = 3;
    for (const auto& line : aside.lines)
        set(line, lines);
    strip.aside_height = down;
    waiting_ = std::move(strip);
}

void StripMaker::add(const Facts& facts) {
    const Column label = in_sheet_ ? Column{kBody, 42} : Column{kLeft, kAside};
    const Column says = in_sheet_ ? Column{kBody + 45, kBodyWidth - 45} : Column{};
    Type label_type = kFine;
    label_type.lead = kBodyType.lead;
    label_type.most = 1;
    if (!in_sheet_) end_aside();
    for (const auto& [what, said] : facts.lines) {
        const auto first = text({said, kBodyType, says, "P", 0});
        auto& strip = made_.strips[first];
        strip.whole_width = !in_sheet_;
        strip.placed.insert(strip.placed.begin(),
                            text_at(what, label_type, {label.left, 0, label.width, 0, 1}));
    }
}

void StripMaker::add(const TableOf& table) {
    if (!table.label.empty()) {
        const Column column = in_sheet_ ? Column{} : Column{kLeft, kWidth};
        text({table.label, kSheetTitle, column, "P", kStep, true});
        made_.strips.back().keep = true;
    }
    auto strips = table_strips(table, types_, in_sheet_);
    const std::size_t head = made_.heads.size();
    if (strips.head) {
        made_.heads.push_back(*strips.head);
        strips.head->keep = true;
        push(std::move(*strips.head));
    }
    const std::size_t count = strips.rows.size();
    for (std::size_t at = 0; at < count; ++at) {
        auto& row = strips.rows[at];
        if (!made_.heads.empty() && head < made_.heads.size()) row.head = head;
        row.keep = at + 1 < count && (at == 0 || at + 2 == count);
        push(std::move(row));
    }
    next_before_ = kStep;
}

double StripMaker::aspect_of(const Shot& shot) const {
    double across = 4, down = 3;
    if (shot.part) {
        across = shot.part->w;
        down = shot.part->h;
    } else if (const auto photo = content_.photos.find(shot.photo);
               photo != content_.photos.end() && photo->second.width > 0 &&
               photo->second.height > 0) {
        across = photo->second.width;
        down = photo->second.height;
    }
    return std::clamp(across / down, 0.45, 2.8); // what is longer stands within such a box
}

void StripMaker::row_of_photos(const std::vector<Shot>& row, double most_tall, bool last) {
    double sum = 0;
    for (const auto& shot : row)
        sum += aspect_of(shot);
    const double gaps = kGap * (static_cast<double>(row.size()) - 1);
    const double width = row.size() == 1 ? kBodyWidth : kWidth;
    const double tall = std::min(most_tall, (width - gaps) / sum);
    const bool narrow = sum * tall + gaps <= kBodyWidth + 0.01;
    double left = narrow ? kBody : kLeft, caption = 0;
    Strip strip{.before = kStep, .whole_width = !narrow};
    for (const auto& shot : row) {
        const double across = aspect_of(shot) * tall;
        strip.placed.push_back(PhotoAt{shot.photo, shot.part, {left, 0, across, tall}, shot.shows});
        if (!shot.anchor.empty()) strip.anchors.push_back(shot.anchor);
        if (!shot.caption.empty()) {
            const int lines = types_.lines(shot.caption, kCaption, across);
            strip.placed.push_back(
                text_at(shot.caption, kCaption, {left, tall + 0.8, across, 0, lines}, "Caption"));
            caption = std::max(caption, 0.8 + lines * kCaption.lead);
        }
        left += across + kGap;
    }
    strip.height = on_grid(tall + caption);
    push(std::move(strip));
    if (last) next_before_ = kStep;
}

void StripMaker::add(const Shots& shots) {
    const auto& all = shots.shots;
    for (std::size_t at = 0; at < all.size();) {
        const std::size_t left = all.size() - at;
        // Threes; two and two rather than three and one.
        const std::size_t count = left == 4 || left == 2 ? 2 : std::min<std::size_t>(left, 3);
        const std::vector<Shot> row(all.begin() + std::ptrdiff_t(at),
                                    all.begin() + std::ptrdiff_t(at + count));
        const bool marks =
            std::ranges::any_of(row, [](const Shot& one) { return one.part.has_value(); });
        const double tall = marks        ? kMarkTall
                            : count == 1 ? kOneTall
                            : count == 2 ? kTwoTall
                                         : kThreeTall;
        at += count;
        row_of_photos(row, tall, at == all.size());
    }
}

void StripMaker::add(const BeforeAfter& pair) {
    row_of_photos({pair.before, pair.after}, kPairTall, true);
}

void StripMaker::add(const Notice& notice) {
    const auto [said, colour] = voice_of(notice.level);
    const Column column{kBody + 4, kBodyWidth - 4};
    const std::size_t from = made_.strips.size();
    if (*said) {
        Type type{.size = 2.8, .lead = 3.6, .bold = true, .colour = colour};
        text({said, type, column, "P", kStep, true});
        made_.strips.back().keep = true;
    }
    text({notice.text, kWorkingType, column, "P", *said ? 0 : kStep, true});
    for (auto at = from; at < made_.strips.size(); ++at)
        made_.strips[at].placed.push_back(
            RuleAt{kBody + 0.5, 0, kBody + 0.5, made_.strips[at].height, 1, colour});
}

void StripMaker::add(const Drawing& drawing) {
    Type type = kFine;
    type.bold = true;
    text({calc::label_of(drawing.chart), type, {}, "P", kStep, true});
    made_.strips.back().keep = true;
    constexpr double kText = 13;
    calc::PlotSheet sheet{
        (kBodyWidth - 1) * kChartUnits,
        std::holds_alternative<calc::MonthChart>(drawing.chart) ? kMonthsTall : 260, kText,
        [this](std::string_view said) { return types_.width(said, {.size = kText}); }};
    auto laid = calc::lay_out(drawing.chart, sheet);
    const double tallest = kMostChart * kChartUnits;
    if (laid.height > tallest) { // drawn to scale and tall: as wide as the page allows
        sheet.width *= tallest / laid.height;
        laid = calc::lay_out(drawing.chart, sheet);
    }
    const double tall = std::min(laid.height, tallest) / kChartUnits;
    Strip strip{.height = on_grid(tall + 1)};
    strip.placed.push_back(ChartAt{std::make_shared<const calc::Plot>(std::move(laid.plot)),
                                   {kBody, 0.5, sheet.width / kChartUnits, tall},
                                   kChartUnits,
                                   kText,
                                   "Chart: " + calc::label_of(drawing.chart)});
    push(std::move(strip));
}

void StripMaker::add(const SheetEdge& edge) {
    if (!edge.begins) {
        in_sheet_ = false;
        next_before_ = 2 * kStep;
        return;
    }
    next_before_ = 2 * kStep;
    in_sheet_ = true;
    for (const auto& [said, type] :
         {std::pair(edge.title, kSheetTitle), std::pair(edge.by, kFine)}) {
        text({said, type, {}, type.bold ? "H3" : "P", 0, true});
        made_.strips.back().keep = true;
    }
}

void StripMaker::add(const Block& block) {
    std::visit([this](const auto& one) { add(one); }, block);
}

void each_strips(const Chapter& chapter, const BookContent& content, Typesetter& types,
                 const TakeStrips& take) {
    StripMaker maker(content, types);
    maker.chapter_title(chapter);
    for (const auto& block : chapter.blocks) {
        maker.add(block);
        maker.hand_over(take);
    }
    maker.end(take);
}

} // namespace fettle::desk
