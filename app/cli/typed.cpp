#include "cli/typed.h"

#include "base/text.h"

#include <charconv>

namespace fettle::cli {

Result<std::int64_t> parse_record_number(const std::string& noun, const std::string& text) {
    std::int64_t number = 0;
    auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || number < 1)
        return Failure{FailureKind::invalid, fettle::quoted(text) + " is no " + noun +
                                                 ": accepted is the number of " +
                                                 (noun == "entry" ? "an " : "a ") + noun +
                                                 " as it is listed, such as 12."};
    return number;
}

Result<std::optional<Day>> parse_day_or_none(const std::string& text) {
    if (text.empty()) return std::optional<Day>();
    auto day = parse_day(text);
    if (!day) return day.failure();
    return std::optional<Day>(*day);
}

Result<Day> parse_day_or_today(const std::string& text) {
    if (text.empty()) return today();
    return parse_day(text);
}

Result<std::pair<std::string, std::string>> parse_pair(const std::string& text, SplitAt where,
                                                       const std::string& example) {
    const auto at = where == SplitAt::first ? text.find('=') : text.rfind('=');
    if (at == std::string::npos || at == 0)
        return Failure{FailureKind::invalid, fettle::quoted(text) +
                                                 " cannot be read: accepted is the form " +
                                                 example + "."};
    return std::pair(text.substr(0, at), text.substr(at + 1));
}

Result<std::map<std::string, std::string>> typed_pairs(const std::vector<std::string>& texts,
                                                       const std::string& example) {
    std::map<std::string, std::string> typed;
    for (const auto& text : texts) {
        auto pair = parse_pair(text, SplitAt::first, example);
        if (!pair) return pair.failure();
        if (!typed.insert(*pair).second)
            return Failure{FailureKind::invalid, "The input " + fettle::quoted(pair->first) +
                                                     " is given twice: once is enough."};
    }
    return typed;
}

Result<TaggedPieces> parse_tagged_pieces(const Notebook& notebook, const std::string& text) {
    constexpr std::int64_t kMost = 1'000'000;
    const auto equals = text.find('=');
    auto part = part_tagged(notebook, text.substr(0, equals));
    if (!part) return part.failure();
    if (equals == std::string::npos) return TaggedPieces{part->id, 0};
    std::int64_t pieces = 0;
    const char* end = text.data() + text.size();
    const auto read = std::from_chars(text.data() + equals + 1, end, pieces);
    if (read.ec != std::errc() || read.ptr != end || pieces < 1 || pieces > kMost)
        return Failure{FailureKind::invalid, fettle::quoted(text) +
                                                 " cannot be read: the pieces after = are a whole "
                                                 "number of 1 or more, such as " +
                                                 part->tag + "=6."};
    return TaggedPieces{part->id, static_cast<int>(pieces)};
}

Result<std::vector<PartId>> parts_tagged(const Notebook& notebook,
                                         const std::vector<std::string>& tags) {
    std::vector<PartId> parts;
    for (const auto& tag : tags) {
        auto part = part_tagged(notebook, tag);
        if (!part) return part.failure();
        parts.push_back(part->id);
    }
    return parts;
}

Result<PartId> part_or_none(const Notebook& notebook, const std::string& tag) {
    if (tag.empty()) return PartId{};
    auto part = part_tagged(notebook, tag);
    if (!part) return part.failure();
    return part->id;
}

Result<Vehicle> vehicle_or_first(const Notebook& notebook, const std::string& name) {
    if (!name.empty()) return vehicle_named(notebook, name);
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    return vehicles->front();
}

} // namespace fettle::cli
