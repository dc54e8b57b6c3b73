#include "desk/book_within.h"

#include <algorithm>
#include <set>

namespace fettle::desk {
namespace {

using Kind = NameInText::Kind;

template <class Do>
void for_each_block(BookContent& content, const Do& act) {
    for (Chapter& chapter : content.chapters)
        for (Block& block : chapter.blocks)
            act(block);
}

// Where a photo is shown whole for the first time beside the text.
void give_anchor(Shot& shot, std::set<std::string>& anchors) {
    const std::string anchor = anchor_of_name({Kind::photo, shot.photo.value});
    if (!shot.part && anchors.insert(anchor).second) shot.anchor = anchor;
}

std::set<std::string> give_anchors(BookContent& content) {
    std::set<std::string> anchors;
    for_each_block(content, [&](Block& block) {
        if (const auto* title = std::get_if<Title>(&block); title && !title->anchor.empty())
            anchors.insert(title->anchor);
        if (auto* shots = std::get_if<Shots>(&block))
            for (Shot& shot : shots->shots)
                give_anchor(shot, anchors);
    });
    return anchors;
}

} // namespace

std::string anchor_of_name(const NameInText& name) {
    std::string anchor = target_of(name);
    std::ranges::replace(anchor, ':', '-');
    return anchor;
}

void lead_names(BookContent& content) {
    const auto anchors = give_anchors(content);
    for_each_block(content, [&](Block& block) {
        auto* const written = std::get_if<Written>(&block);
        if (!written) return;
        lead_runs(written->blocks, [&](const std::string& target) {
            const auto name = name_of_target(target);
            const std::string anchor = name ? anchor_of_name(*name) : std::string();
            return anchors.contains(anchor) ? anchor : std::string();
        });
    });
}

} // namespace fettle::desk
