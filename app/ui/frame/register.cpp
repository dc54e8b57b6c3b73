#include "ui/frame/register.h"

#include <algorithm>

namespace fettle::ui {

Rect Rect::within(const Rect& other) const {
    return {std::max(left, other.left), std::max(top, other.top), std::min(right, other.right),
            std::min(bottom, other.bottom)};
}

void Register::begin_frame() {
    std::swap(now_, before_);
    now_.clear();
    used_twice_.clear();
    keys_noted_.clear();
    part_.clear();
}

void Register::note_key(std::string_view keys, std::string_view act) {
    if (keys.empty()) return;
    KeyNoted noted{std::string(keys), std::string(act), part_};
    if (std::ranges::find(keys_noted_, noted) == keys_noted_.end())
        keys_noted_.push_back(std::move(noted));
}

void Register::note(Noted noted) {
    see(noted.label);
    see(noted.value);
    if (const auto earlier = before_.find(noted.key);
        earlier != before_.end() && earlier->second.rect == noted.rect)
        noted.frames = earlier->second.frames + 1;
    std::string key = noted.key;
    if (!now_.emplace(key, std::move(noted)).second) used_twice_.push_back(std::move(key));
}

const Noted* Register::find(std::string_view key) const {
    const auto found = now_.find(key);
    return found == now_.end() ? nullptr : &found->second;
}

std::vector<std::string> Register::keys() const {
    std::vector<std::string> all;
    all.reserve(now_.size());
    for (const auto& [key, noted] : now_)
        all.push_back(key);
    std::sort(all.begin(), all.end());
    return all;
}

bool Register::takes_reveal(std::string_view key) {
    if (reveal_.empty() || reveal_ != key) return false;
    reveal_.clear();
    return true;
}

std::optional<int> Register::take_row(std::string_view list) {
    if (!row_ || row_->list != list) return std::nullopt;
    const int row = row_->row;
    row_.reset();
    return row;
}

} // namespace fettle::ui
