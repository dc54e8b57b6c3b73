#include "ui/screens/photos/photo_spells.h"

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

PhotoOutline outline_of(const Photo& photo, const Seen& seen) {
    const bool is_guessed = photo.taken && photo.taken_from != TakenFrom::camera;
    return {photo.width, photo.height, seen.anything() || is_guessed};
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

PhotoList PhotoList::of(std::vector<Photo> photos, std::vector<Run> runs, bool untied_first) {
    PhotoList list;
    const auto by_time = working_spells(photos);
    const auto seen = look_over(photos);
    std::vector<bool> untied;
    for (const Spell& spell : by_time) {
        const auto first = photos.begin() + std::ptrdiff_t(spell.first);
        untied.push_back(std::any_of(first, first + std::ptrdiff_t(spell.count),
                                     [](const Photo& photo) { return photo.ties == 0; }));
    }
    list.photos.reserve(photos.size());
    const auto put = [&](const Spell& spell) {
        list.spells.push_back({list.photos.size(), spell.count});
        for (std::size_t i = spell.first; i < spell.first + spell.count; ++i) {
            list.place.emplace(photos[i].id.value, list.photos.size());
            list.photos.push_back(std::move(photos[i]));
            list.seen.push_back(seen[i]);
            list.doubtful += seen[i].doubtful() ? 1 : 0;
            list.outlines.push_back(outline_of(list.photos.back(), seen[i]));
        }
    };
    for (const bool wanted : {true, false}) {
        for (std::size_t spell = 0; spell < by_time.size(); ++spell)
            if (!untied_first ? wanted : untied[spell] == wanted) put(by_time[spell]);
        if (untied_first && wanted) list.still_to_tie = list.spells.size();
    }
    list.run_of.assign(list.photos.size(), kNone);
    list.runs = std::move(runs);
    for (std::size_t run = 0; run < list.runs.size(); ++run)
        for (const RunPhoto& each : list.runs[run].photos)
            if (const auto at = list.place.find(each.photo.value); at != list.place.end())
                list.run_of[at->second] = run;
    return list;
}

const Run* PhotoList::run_at(PhotoId id) const {
    const auto found = place.find(id.value);
    if (found == place.end() || run_of[found->second] == kNone) return nullptr;
    return &runs[run_of[found->second]];
}

const Run* PhotoList::run_with(RunId id) const {
    const auto found = std::ranges::find(runs, id, &Run::id);
    return found == runs.end() ? nullptr : &*found;
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

namespace {

// Adds line after line at the lower end of a page.
class Laying {
  public:
    Laying(const PhotoList& list, const PhotoPageLook& look) : list_(list), look_(look) {}

    void head(LineOf kind, std::size_t spell, std::size_t first, float height) {
        put({.kind = kind, .spell = spell, .first = first}, height);
    }

    // Photos one after the other that are in the same run, or in none.
    void stretch(std::size_t spell, std::size_t first, std::size_t end) {
        const std::size_t run = list_.run_of[first];
        if (run != kNone) {
            const bool proposed = list_.runs[run].state == RunState::proposed;
            put({LineOf::run, spell, run, first, end - first},
                proposed ? look_.run_head : look_.accepted_head);
        }
        const float width = look_.width - (run == kNone ? 0 : look_.beside_run);
        for (std::size_t at = first; at < end;) {
            PhotoLine line{LineOf::photos, spell, run, at, 0};
            float below = 0;
            for (float used = 0; at < end; ++at, ++line.count) {
                const float wide = look_.width_of(at);
                if (line.count > 0 && used + wide > width) break;
                used += wide + look_.spacing;
                if (look_.below) below = std::max(below, look_.below(at));
            }
            put(line, look_.line + below);
        }
    }

    PhotoPage page;

  private:
    void put(PhotoLine line, float height) {
        line.top = page.height;
        line.height = height;
        page.height += height;
        page.lines.push_back(line);
    }

    const PhotoList& list_;
    const PhotoPageLook& look_;
};

} // namespace

PhotoPage lay_out(const PhotoList& list, const PhotoPageLook& look) {
    Laying laying(list, look);
    const bool in_two = list.still_to_tie > 0;
    for (std::size_t spell = 0; spell < list.spells.size(); ++spell) {
        const auto [first, count] = list.spells[spell];
        if (in_two && (spell == 0 || spell == list.still_to_tie))
            laying.head(LineOf::section, spell, first, look.section);
        laying.head(LineOf::spell, spell, first, look.head);
        for (std::size_t at = first; at < first + count;) {
            std::size_t end = at + 1;
            while (end < first + count && list.run_of[end] == list.run_of[at])
                ++end;
            laying.stretch(spell, at, end);
            at = end;
        }
    }
    return std::move(laying.page);
}

} // namespace fettle::ui
