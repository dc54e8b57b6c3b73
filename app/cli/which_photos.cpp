#include "cli/which_photos.h"

#include "cli/typed.h"

namespace fettle::cli {

void add_which_photos(CLI::App& verb, WhichPhotos& which) {
    verb.add_option("--part", which.part, "Only photos tied to this part")->option_text("TAG");
    verb.add_option("--from", which.from, "The first day, such as 2026-03-07")->option_text("DATE");
    verb.add_option("--to", which.to, "The last day")->option_text("DATE");
}

Result<PhotoFilter> filter_of(const Notebook& notebook, const WhichPhotos& which) {
    PhotoFilter filter;
    auto part = part_or_none(notebook, which.part);
    if (!part) return part.failure();
    filter.part = *part;
    auto from = parse_day_or_none(which.from);
    if (!from) return from.failure();
    filter.from = *from;
    auto to = parse_day_or_none(which.to);
    if (!to) return to.failure();
    filter.to = *to;
    return filter;
}

} // namespace fettle::cli
