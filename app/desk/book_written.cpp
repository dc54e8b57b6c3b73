#include "desk/book_strips.h"

#include <algorithm>

namespace fettle::desk {
namespace {

using namespace grid;
using Kind = TextBlock::Kind;

constexpr Type kBodyType{};
constexpr Type kHeadingType{.size = 3.6, .lead = 4.8, .bold = true};
constexpr Type kSmallHeading{.lead = 4.8, .bold = true};
constexpr Type kCodeType{.size = 3.2, .lead = 4.8};
constexpr double kItemInset = 6, kQuoteInset = 5, kCodeInset = 4;
constexpr double kLeastWidth = 30; // of a column; what is further within goes in no more

Spans spans_of(const std::vector<TextRun>& runs) {
    Spans spans;
    std::size_t at = 0;
    for (const TextRun& run : runs) {
        if (run.strong || run.emphasis || run.code || !run.leads_to.empty())
            spans.push_back(
                {at, at + run.text.size(), run.strong, run.emphasis, run.code, run.leads_to});
        at += run.text.size();
    }
    return spans;
}

} // namespace

void StripMaker::add(const Written& written) {
    blocks(written.blocks, {}, false);
}

// Room between blocks belongs to the one below; in a quote to the one above, so that the bar beside
// them goes on.
void StripMaker::blocks(const std::vector<TextBlock>& all, const Column& column, bool in_quote) {
    for (std::size_t at = 0; at < all.size(); ++at) {
        const TextBlock& block = all[at];
        const std::size_t first = made_.strips.size();
        if (block.kind == Kind::quote)
            quote(block, column, in_quote ? 0 : kStep);
        else if (block.kind == Kind::item)
            item(block, column);
        else
            runs(block, column, in_quote ? 0 : kStep);
        const bool apart = at + 1 < all.size() && all[at + 1].kind != Kind::item;
        if (in_quote && apart && made_.strips.size() > first) made_.strips.back().height += kStep;
    }
}

void StripMaker::runs(const TextBlock& block, const Column& column, double before) {
    if (block.kind == Kind::rule) {
        Strip strip{.height = 2 * kStep};
        strip.placed.push_back(RuleAt{column.left, kStep, column.left + column.width, kStep});
        push(std::move(strip));
        return;
    }
    Said said{words_of_runs(block.runs), kBodyType, column, "P", before};
    said.spans = spans_of(block.runs);
    if (block.kind == Kind::code) {
        said.type = kCodeType;
        said.spans = {{.to = said.text.size(), .code = true}};
        said.column = {column.left + kCodeInset, column.width - kCodeInset};
    }
    const bool heading = block.kind == Kind::heading;
    if (heading) {
        said.type = block.level == 1 ? kHeadingType : kSmallHeading;
        said.tag = block.level == 1 ? "H3" : "H4";
        said.together = true;
    }
    const auto first = text(said);
    for (auto at = first; heading && at < made_.strips.size(); ++at)
        made_.strips[at].keep = true;
}

void StripMaker::quote(const TextBlock& block, const Column& column, double before) {
    const bool room = column.width - kQuoteInset >= kLeastWidth;
    const double inset = room ? kQuoteInset : 0;
    next_before_ = std::max(next_before_, before);
    const std::size_t first = made_.strips.size();
    blocks(block.inside, {column.left + inset, column.width - inset}, true);
    for (auto at = first; room && at < made_.strips.size(); ++at) {
        Strip& strip = made_.strips[at];
        const double bar = column.left + 1;
        strip.placed.emplace_back(RuleAt{bar, 0, bar, strip.height, 0.8, kRule});
    }
}

void StripMaker::item(const TextBlock& block, const Column& column) {
    const double wide = types_.width(block.mark, kBodyType) + 2;
    const double inset = std::max(kItemInset, wide);
    const bool room = column.width - inset >= kLeastWidth;
    const Column inside = room ? Column{column.left + inset, column.width - inset} : column;
    const double before = waiting_ ? waiting_->before : next_before_;
    const std::size_t first = made_.strips.size();
    if (!room) text({block.mark, kBodyType, column, "P", 0, true});
    blocks(block.inside, inside, false);
    if (made_.strips.size() == first) text({"", kBodyType, inside});
    made_.strips[first].before = before; // items stand close
    if (room)
        made_.strips[first].placed.push_back(
            text_at(block.mark, kBodyType, {column.left, 0, inset, 0, 1}, ""));
}

} // namespace fettle::desk
