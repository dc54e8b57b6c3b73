#include "ui/frame/soft_wrap.h"

#include <algorithm>

namespace fettle::ui {
namespace {

std::size_t common_start(std::string_view a, std::string_view b) {
    const std::size_t most = std::min(a.size(), b.size());
    std::size_t n = 0;
    while (n < most && a[n] == b[n])
        ++n;
    return n;
}

std::size_t common_end(std::string_view a, std::string_view b, std::size_t start) {
    const std::size_t most = std::min(a.size(), b.size()) - start;
    std::size_t n = 0;
    while (n < most && a[a.size() - 1 - n] == b[b.size() - 1 - n])
        ++n;
    return n;
}

} // namespace

void SoftWrap::set(std::string_view text, float width, const Measure& measure) {
    width_ = width;
    broken_ = text;
    break_lines(measure);
    field_ = broken_;
}

const std::string& SoftWrap::edit(std::string_view edited, const Measure& measure) {
    const std::size_t start = common_start(broken_, edited);
    const std::size_t end = common_end(broken_, edited, start);
    std::string next(edited);
    for (const std::size_t at : soft_) {
        if (at < start)
            next[at] = ' ';
        else if (at >= broken_.size() - end)
            next[at + edited.size() - broken_.size()] = ' ';
    }
    broken_ = std::move(next);
    break_lines(measure);
    return broken_;
}

void SoftWrap::settle(const Measure& measure) {
    if (field_ != broken_) edit(field_, measure);
    field_ = broken_;
}

std::string SoftWrap::text() const {
    std::string text = broken_;
    for (const std::size_t at : soft_)
        text[at] = ' ';
    return text;
}

// Greedy: each line takes as many words as fit. A word wider than the field stands alone.
void SoftWrap::break_lines(const Measure& measure) {
    soft_.clear();
    std::size_t line = 0;
    std::size_t last_blank = std::string::npos;
    for (std::size_t at = 0; at <= broken_.size(); ++at) {
        const bool ends = at == broken_.size() || broken_[at] == '\n';
        if (!ends && broken_[at] != ' ') continue;
        const std::string_view piece(broken_.data() + line, at - line);
        if (last_blank != std::string::npos && measure(piece) > width_) {
            broken_[last_blank] = '\n';
            soft_.push_back(last_blank);
            line = last_blank + 1;
        }
        last_blank = ends ? std::string::npos : at;
        if (ends) line = at + 1;
    }
}

} // namespace fettle::ui
