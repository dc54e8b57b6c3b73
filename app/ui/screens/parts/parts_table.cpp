#include "ui/screens/parts/parts_table.h"

#include "notebook/words.h"

#include <array>

namespace fettle::ui {
namespace {

// The later in the list, the sooner it gives way.
constexpr std::array kColumns{
    TableColumn{"tag", "tag", 96, 0},
    TableColumn{"name", "name", 120, 4},
    TableColumn{"condition", "condition", 88, 0.5F},
    TableColumn{"decision", "decision", 88, 0.5F},
    TableColumn{"place", "kept at", 80, 2},
    TableColumn{"position", "for the position", 112, 2, false},
    TableColumn{"maker", "maker", 88, 1, false},
    TableColumn{"origin", "origin", 96, 0.5F, false},
    TableColumn{"from", "from", 88, 1, false},
    TableColumn{"cost", "cost", 88, 0.5F, false},
    TableColumn{"acquired", "acquired", 96, 0.5F, false},
};

std::string said_name(const Part& part) {
    std::string name = part.name;
    if (part.quantity > 1) name += "  × " + std::to_string(part.quantity);
    if (part.used > 0) name += ", " + std::to_string(part.left()) + " left";
    if (!part.within_tag.empty()) name += "  (of " + part.within_tag + ")";
    if (part.split_on) name += "  (in pieces)";
    return name;
}

Role role_of(Condition condition) {
    if (condition == Condition::scrap) return Role::red_lead;
    return condition >= Condition::finished ? Role::verdigris : Role::ink;
}

Rank rank_of(const Part& part, std::string_view column) {
    if (column == "name") return by_words(part.name);
    if (column == "condition") return by_number(static_cast<std::int64_t>(part.condition));
    if (column == "decision") return by_number(static_cast<std::int64_t>(part.decision));
    if (column == "place") return by_words(part.place);
    if (column == "position") return by_words(part.position_name);
    if (column == "maker") return by_words(part.maker);
    if (column == "origin") return by_words(std::string(word(part.origin)));
    if (column == "from") return by_words(part.from);
    // Each currency for itself: there is no rate to compare them by.
    if (column == "cost" && part.cost) return by_number(part.cost->minor, part.cost->currency);
    if (column == "acquired" && part.acquired)
        return by_number(std::chrono::sys_days(*part.acquired).time_since_epoch().count());
    return by_words(column == "tag" ? part.tag : std::string());
}

} // namespace

std::span<const TableColumn> part_columns() {
    return kColumns;
}

PartCell part_cell(const Part& part, std::string_view column) {
    if (column == "name") return {said_name(part), Role::ink};
    if (column == "condition") return {std::string(word(part.condition)), role_of(part.condition)};
    if (column == "decision") return {std::string(word(part.decision))};
    if (column == "place") return {part.place};
    if (column == "position") return {part.position_name};
    if (column == "maker") return {part.maker};
    if (column == "origin") return {std::string(word(part.origin))};
    if (column == "from") return {part.from};
    if (column == "cost") return {part.cost ? to_words(*part.cost) : std::string()};
    if (column == "acquired") return {part.acquired ? to_words(*part.acquired) : std::string()};
    return {part.tag};
}

void order_parts(std::vector<std::size_t>& places, const std::vector<Part>& parts,
                 std::string_view column, bool downwards) {
    order_rows(places, downwards, [&](std::size_t place) { return rank_of(parts[place], column); });
}

} // namespace fettle::ui
