#include "desk/data_values.h"

#include "base/text.h"

#include <charconv>
#include <cmath>
#include <limits>

namespace fettle::desk {
namespace {

using store::Holding;

constexpr std::string_view kNothing = "\\N", kHex = "\\x";

std::string hex_of(std::string_view bytes) {
    constexpr char kDigits[] = "0123456789abcdef";
    std::string text;
    for (const char byte : bytes) {
        text += kDigits[static_cast<unsigned char>(byte) >> 4];
        text += kDigits[static_cast<unsigned char>(byte) & 15];
    }
    return text;
}

std::optional<std::string> bytes_of(std::string_view hex) {
    std::string bytes;
    if (hex.size() % 2 != 0) return {};
    for (std::size_t at = 0; at < hex.size(); at += 2) {
        unsigned value = 0;
        const char* end = hex.data() + at + 2;
        if (std::from_chars(hex.data() + at, end, value, 16).ptr != end) return {};
        bytes += static_cast<char>(value);
    }
    return bytes;
}

std::string_view text_of(const store::Blob& blob) {
    return {reinterpret_cast<const char*>(blob.data()), blob.size()};
}

bool is_plain(const std::string& text) {
    return text.find('\0') == std::string::npos && safe_utf8(text) == text;
}

std::optional<Cell> raw(const std::optional<std::string>& bytes, Holding holding) {
    if (!bytes) return {};
    if (holding == Holding::text) return Cell(*bytes);
    if (holding != Holding::blob) return {};
    const auto* begin = reinterpret_cast<const std::byte*>(bytes->data());
    return Cell(store::Blob(begin, begin + bytes->size()));
}

template <class Number>
std::optional<Cell> number_in(std::string_view text) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    if (!std::isfinite(static_cast<double>(number))) return {};
    return Cell(number);
}

} // namespace

DataJson to_json(const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) return *whole;
    if (const auto* number = std::get_if<double>(&cell)) return *number;
    if (const auto* text = std::get_if<std::string>(&cell))
        return is_plain(*text) ? DataJson(*text) : DataJson{{"hex", hex_of(*text)}};
    if (const auto* blob = std::get_if<store::Blob>(&cell))
        return DataJson{{"hex", hex_of(text_of(*blob))}};
    return nullptr;
}

std::string to_csv(const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) return std::to_string(*whole);
    if (std::holds_alternative<double>(cell)) return to_json(cell).dump();
    if (const auto* text = std::get_if<std::string>(&cell)) {
        if (!is_plain(*text)) return std::string(kHex) + hex_of(*text);
        return text->starts_with('\\') ? '\\' + *text : *text;
    }
    if (const auto* blob = std::get_if<store::Blob>(&cell))
        return std::string(kHex) + hex_of(text_of(*blob));
    return std::string(kNothing);
}

std::optional<Cell> from_json(const DataJson& value, Holding holding) {
    if (value.is_null()) return Cell();
    if (value.is_object() && value.size() == 1 && value.contains("hex") && value["hex"].is_string())
        return raw(bytes_of(value["hex"].get<std::string>()), holding);
    switch (holding) {
    case Holding::integer:
        if (value.is_number_unsigned() &&
            value.get<std::uint64_t>() > std::uint64_t(std::numeric_limits<std::int64_t>::max()))
            return {};
        if (!value.is_number_integer()) return {};
        return Cell(value.get<std::int64_t>());
    case Holding::real:
        if (!value.is_number()) return {};
        return Cell(value.get<double>());
    case Holding::text:
        if (!value.is_string()) return {};
        return Cell(value.get<std::string>());
    case Holding::blob:
        break;
    }
    return {};
}

std::optional<Cell> from_csv(std::string_view field, Holding holding) {
    const bool of_numbers = holding == Holding::integer || holding == Holding::real;
    if (field == kNothing || (field.empty() && of_numbers)) return Cell();
    if (holding == Holding::integer) return number_in<std::int64_t>(field);
    if (holding == Holding::real) return number_in<double>(field);
    if (field.starts_with(kHex)) return raw(bytes_of(field.substr(kHex.size())), holding);
    if (holding == Holding::blob) return {};
    if (!field.starts_with('\\')) return Cell(std::string(field));
    if (!field.starts_with("\\\\")) return {};
    return Cell(std::string(field.substr(1)));
}

std::string accepted_by(Holding holding) {
    switch (holding) {
    case Holding::integer:
        return "a whole number of up to 64 bits";
    case Holding::real:
        return "a number";
    case Holding::text:
        return "a text";
    case Holding::blob:
        break;
    }
    return "bytes in hexadecimal digits";
}

} // namespace fettle::desk
