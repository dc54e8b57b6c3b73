#include "base/quantity.h"

#include "base/number.h"
#include "base/text.h"
#include "base/typed_text.h"
#include "base/unit_conversion.h"
#include "base/unit_spellings.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

namespace fettle {
namespace {

constexpr std::size_t kUnitsNamed = 6; // in an error sentence

Failure invalid(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

bool takes_units(const QuantityKind& kind) {
    return !kind.si.empty();
}

// "accepted are N·m, lbf·ft, ... and others", or what a kind without units takes.
std::string what_is_accepted(const QuantityKind& kind) {
    if (kind.name == "count") return "accepted is a whole number such as 4";
    if (!takes_units(kind)) return "accepted is a number such as 3, -0.25, 1,5, 5/16 or 1 3/4";
    std::vector<std::string> units;
    std::size_t known = 0;
    for (const UnitSpelling& row : unit_table()) {
        if (row.kind != kind.name || row.unit == "1") continue;
        if (++known <= kUnitsNamed) units.push_back(unit_label(kind.name, row.unit));
    }
    return "accepted is a number with " + join(units, ", ") +
           (known > units.size() ? " and others" : "");
}

Failure no_such_quantity(std::string_view text, const QuantityKind& kind) {
    const std::string subject =
        trim(text).empty() ? "nothing was typed" : fettle::quoted(trim(text));
    const std::string verdict = trim(text).empty() ? "" : " is no " + std::string(kind.words);
    return invalid(subject + verdict + ": " + what_is_accepted(kind));
}

Failure not_clear(std::string_view text, const UnclearSpelling& unclear) {
    return invalid(fettle::quoted(trim(text)) + " is not clear: " + std::string(unclear.question));
}

Failure foreign_unit(std::string_view unit, const QuantityKind& kind) {
    return invalid(fettle::quoted(unit) + " is no unit of " + std::string(kind.words) + ": " +
                   what_is_accepted(kind));
}

// One number and its unit within a chain (feet and inches), or the whole quantity.
struct Piece {
    ScannedNumber number;
    const UnitSpelling* unit;
};

// Whether `rest` may begin another number of a chain, and where its unit ends.
std::size_t unit_length(std::string_view rest) {
    const auto end = rest.find_first_of("0123456789,+");
    return end == std::string_view::npos ? rest.size() : end;
}

// 3' 4", 3'-4 1/2", 8 lb, 4 oz: the units of one chain, falling. Nothing when `plain` isn't that.
std::optional<std::vector<Piece>> scan_chain(std::string_view plain, const UnitChain& chain) {
    std::vector<Piece> pieces;
    auto places = split(chain.units, ' ');
    auto place = places.begin();
    while (!plain.empty()) {
        const auto number = scan_number(plain);
        if (!number || (!pieces.empty() && std::signbit(number->value))) return std::nullopt;
        const auto rest = trim(number->rest);
        auto written = rest.substr(0, unit_length(rest));
        plain = trim(rest.substr(written.size()));
        if (plain.starts_with(',')) plain = trim(plain.substr(1));
        // The dash of 3'-4" joins; it is no sign.
        written = trim(written);
        if (!plain.empty() && written.ends_with('-')) written.remove_suffix(1);
        const UnitSpelling* unit = find_unit(chain.kind, written).unit;
        if (unit == nullptr) return std::nullopt;
        place = std::find(place, places.end(), unit->unit);
        if (place == places.end()) return std::nullopt;
        ++place;
        pieces.push_back({*number, unit});
    }
    if (pieces.size() < 2) return std::nullopt;
    return pieces;
}

Result<Measured> in_unit(const ScannedNumber& number, const UnitSpelling& unit) {
    const auto si = unit_to_si(number.value, unit);
    if (!si) return si.failure();
    const auto next = unit_to_si(number.value + number.last_place, unit);
    if (!next) return next.failure();
    return Measured{*si, std::string(unit.unit), std::fabs(*next - *si) / 2};
}

Result<Measured> sum_chain(const std::vector<Piece>& pieces, const UnitChain& chain) {
    Measured sum{0, std::string(chain.shown_in)};
    const bool negative = std::signbit(pieces.front().number.value);
    for (const Piece& piece : pieces) {
        const auto part = in_unit(piece.number, *piece.unit);
        if (!part) return part.failure();
        sum.si += negative && &piece != &pieces.front() ? -part->si : part->si;
        sum.half_step = part->half_step;
    }
    return sum;
}

// Bounds that belong to the kind itself, not to a field.
Result<Measured> possible(Measured measured, std::string_view text, const QuantityKind& kind) {
    if (!std::isfinite(measured.si)) {
        return invalid(fettle::quoted(trim(text)) + " is too large a " + std::string(kind.words) +
                       " to be worked with: accepted are numbers up to 1e300");
    }
    if (kind.name == "temperature" && measured.si < 0) {
        return invalid(fettle::quoted(trim(text)) +
                       " is no temperature: absolute zero is -273.15 °C");
    }
    if (kind.name == "count" && (measured.si < 0 || measured.si != std::floor(measured.si))) {
        return no_such_quantity(text, kind);
    }
    return measured;
}

// A number, and behind it `written`: a unit, or nothing for the unit of the field.
Result<Measured> single(std::string_view text, const ScannedNumber& number,
                        const QuantityKind& kind, std::string_view bare_unit) {
    const std::string_view written = trim(number.rest);
    const Measured bare{number.value, "", number.last_place / 2};
    if (!takes_units(kind)) {
        if (!written.empty()) return no_such_quantity(text, kind);
        return bare;
    }
    // "5 1" is a slip of the pen, though 1 is the unit of a ratio.
    const auto found =
        written == "1" ? FoundUnit{} : find_unit(kind.name, written.empty() ? bare_unit : written);
    if (found.unclear != nullptr) return not_clear(text, *found.unclear);
    if (found.unit != nullptr) return in_unit(number, *found.unit);
    if (written.empty() && bare_unit.empty()) return bare; // a ratio
    return no_such_quantity(text, kind);
}

Result<const UnitSpelling*> unit_of(std::string_view kind_name, std::string_view unit) {
    const QuantityKind* kind = find_kind(kind_name);
    assert(kind != nullptr);
    const auto found = find_unit(kind_name, unit);
    if (found.unclear != nullptr) return not_clear(unit, *found.unclear);
    if (found.unit == nullptr) return foreign_unit(unit, *kind);
    return found.unit;
}

// Kinds without a unit, and a ratio shown bare, convert as they are.
bool needs_no_unit(std::string_view kind, std::string_view unit) {
    return unit.empty() && (kind == "number" || kind == "count" || kind == "ratio");
}

} // namespace

bool is_quantity_kind(std::string_view kind) {
    return find_kind(kind) != nullptr;
}

Result<Measured> parse_quantity(std::string_view text, std::string_view kind_name,
                                std::string_view bare_unit) {
    const QuantityKind* kind = find_kind(kind_name);
    assert(kind != nullptr);
    const std::string typed = plain_typed(text);
    const std::string_view plain = trim(typed);
    for (const UnitChain& chain : unit_chains()) {
        if (chain.kind != kind_name) continue;
        const auto pieces = scan_chain(plain, chain);
        if (!pieces) continue;
        auto sum = sum_chain(*pieces, chain);
        return sum ? possible(std::move(*sum), text, *kind) : sum;
    }
    const auto number = scan_number(plain);
    if (!number) {
        const bool absent = number.failure().kind == FailureKind::not_found;
        return absent ? no_such_quantity(text, *kind) : number.failure();
    }
    auto measured = single(text, *number, *kind, bare_unit);
    return measured ? possible(std::move(*measured), text, *kind) : measured;
}

Result<double> to_unit(double si, std::string_view kind, std::string_view unit) {
    if (needs_no_unit(kind, unit)) return si;
    const auto row = unit_of(kind, unit);
    if (!row) return row.failure();
    return unit_from_si(si, **row);
}

Result<double> from_unit(double value, std::string_view kind, std::string_view unit) {
    if (needs_no_unit(kind, unit)) return value;
    const auto row = unit_of(kind, unit);
    if (!row) return row.failure();
    return unit_to_si(value, **row);
}

std::vector<std::string> unit_spellings(std::string_view kind) {
    std::vector<std::string> spellings;
    for (const UnitSpelling& row : unit_table()) {
        if (row.kind == kind) spellings.push_back(unit_label(kind, row.unit));
    }
    for (const UnitSpelling& row : unit_table()) {
        if (row.kind != kind) continue;
        for (const std::string_view other : split(row.others, ' ')) {
            if (!other.empty()) spellings.emplace_back(other);
        }
    }
    return spellings;
}

} // namespace fettle
