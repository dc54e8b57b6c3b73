#include "ui/screens/photo_spells.h"

#include <algorithm>
#include <array>

namespace fettle::ui {
namespace {

constexpr std::chrono::hours kPause{2};

bool same_spell(const Photo& earlier, const Photo& later) {
    if (!earlier.taken || !later.taken) return !earlier.taken && !later.taken;
    return earlier.taken->day() == later.taken->day() &&
           later.taken->local - earlier.taken->local <= kPause;
}

std::string clock_words(const Moment& moment) {
    const std::string said = to_words(moment);
    const auto comma = said.find(", ");
    return comma == std::string::npos ? said : said.substr(comma + 2);
}

} // namespace

std::vector<Spell> working_spells(const std::vector<Photo>& photos) {
    std::vector<Spell> spells;
    for (std::size_t i = 0; i < photos.size(); ++i) {
        if (i == 0 || !same_spell(photos[i - 1], photos[i])) spells.push_back({i, 0});
        ++spells.back().count;
    }
    return spells;
}

std::string day_words(const Photo& photo) {
    static constexpr std::array kDays = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    if (!photo.taken) return "Without a time";
    const Day day = photo.taken->day();
    const std::chrono::weekday weekday{std::chrono::sys_days(day)};
    return std::string(kDays[weekday.c_encoding()]) + " " + to_words(day);
}

std::string hours_words(const std::vector<Photo>& photos, const Spell& spell) {
    const Photo& first = photos[spell.first];
    const Photo& last = photos[spell.first + spell.count - 1];
    if (!first.taken || !last.taken) return {};
    const std::string from = clock_words(*first.taken), to = clock_words(*last.taken);
    return from == to ? from : from + " to " + to;
}

std::string count_words(std::size_t count) {
    return count == 1 ? "1 photo" : std::to_string(count) + " photos";
}

PhotoList PhotoList::of(std::vector<Photo> photos) {
    PhotoList list;
    list.photos = std::move(photos);
    list.spells = working_spells(list.photos);
    list.place.reserve(list.photos.size());
    for (std::size_t i = 0; i < list.photos.size(); ++i)
        list.place.emplace(list.photos[i].id.value, i);
    return list;
}

const Photo* PhotoList::find(PhotoId id) const {
    const auto found = place.find(id.value);
    return found == place.end() ? nullptr : &photos[found->second];
}

std::size_t PhotoPage::line_of(std::size_t photo) const {
    const auto after = std::ranges::upper_bound(lines, photo, {}, &PhotoLine::first);
    return after == lines.begin() ? 0 : std::size_t(after - lines.begin()) - 1;
}

std::pair<std::size_t, std::size_t> PhotoPage::between(float top, float bottom,
                                                       std::size_t around) const {
    const auto first = std::ranges::lower_bound(
        lines, top, {}, [](const PhotoLine& line) { return line.top + line.height; });
    const auto last = std::ranges::upper_bound(lines, bottom, {}, &PhotoLine::top);
    const auto from = std::size_t(first - lines.begin()), to = std::size_t(last - lines.begin());
    return {from > around ? from - around : 0, std::min(lines.size(), to + around)};
}

PhotoPage lay_out(const PhotoList& list, const PhotoPageLook& look) {
    PhotoPage page;
    for (std::size_t spell = 0; spell < list.spells.size(); ++spell) {
        const auto [first, count] = list.spells[spell];
        page.lines.push_back({true, spell, first, 0, page.height, look.head});
        page.height += look.head;
        for (std::size_t at = first; at < first + count;) {
            PhotoLine line{false, spell, at, 0, page.height, look.line};
            for (float used = 0; at < first + count; ++at, ++line.count) {
                const float width = look.width_of(list.photos[at]);
                if (line.count > 0 && used + width > look.width) break;
                used += width + look.spacing;
            }
            page.lines.push_back(line);
            page.height += look.line;
        }
    }
    return page;
}

} // namespace fettle::ui
