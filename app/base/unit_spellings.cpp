#include "base/unit_spellings.h"

#include "base/text.h"
#include "base/typed_text.h"

#include <algorithm>

namespace fettle {
namespace {

// Calls `found(spelling)` for each blank-separated spelling until it says true.
template <class Found>
bool any_spelling(std::string_view spellings, Found&& found) {
    for (const std::string_view spelling : split(spellings, ' ')) {
        if (!spelling.empty() && found(spelling)) return true;
    }
    return false;
}

std::string with_slashes_for_per(std::string_view text) {
    constexpr std::string_view kPer = " per ";
    std::string slashed;
    for (auto at = text.find(kPer); at != text.npos; at = text.find(kPer)) {
        slashed += text.substr(0, at);
        slashed += '/';
        text.remove_prefix(at + kPer.size());
    }
    return slashed += text;
}

const UnitSpelling* find_spelling(std::string_view kind, std::string_view key, bool any_case) {
    auto same = [&](std::string_view spelling) {
        return any_case ? same_but_for_case(spelling, key) : spelling == key;
    };
    for (const UnitSpelling& unit : unit_table()) {
        if (unit.kind != kind) continue;
        if (same(unit_key(unit.unit)) || any_spelling(unit.others, same)) return &unit;
    }
    return nullptr;
}

const UnclearSpelling* find_unclear(std::string_view kind, std::string_view key) {
    for (const UnclearSpelling& unclear : unclear_spellings()) {
        if (unclear.kind != kind) continue;
        auto same = [&](std::string_view spelling) {
            return unclear.exact_case ? spelling == key : same_but_for_case(spelling, key);
        };
        if (any_spelling(unclear.spellings, same)) return &unclear;
    }
    return nullptr;
}

} // namespace

const QuantityKind* find_kind(std::string_view name) {
    const auto kind = std::ranges::find(quantity_kinds(), name, &QuantityKind::name);
    return kind == quantity_kinds().end() ? nullptr : &*kind;
}

std::string unit_key(std::string_view typed) {
    std::string key;
    for (char c : with_slashes_for_per(plain_typed(typed))) {
        if (c == '^' || c == '(' || c == ')') continue;
        if (c == ' ' || c == '-' || c == '_' || c == '*') c = '.';
        if (c == '.' && (key.empty() || key.back() == '.' || key.back() == '/')) continue;
        if (c == '/' && key.ends_with('.')) key.pop_back();
        key += c;
    }
    if (key.ends_with('.')) key.pop_back();
    return key;
}

FoundUnit find_unit(std::string_view kind, std::string_view typed) {
    const std::string key = unit_key(typed);
    if (key.empty()) return {};
    if (const auto* unclear = find_unclear(kind, key)) return {nullptr, unclear};
    if (const auto* unit = find_spelling(kind, key, false)) return {unit, nullptr};
    return {find_spelling(kind, key, true), nullptr};
}

} // namespace fettle
