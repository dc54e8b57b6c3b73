#include "calc/typed_inputs.h"

#include "base/quantity.h"
#include "base/text.h"
#include "calc/short_quantity.h"
#include "calc/typed_items.h"

#include <algorithm>
#include <cmath>

namespace fettle::calc {
namespace {

constexpr std::size_t kMostTypedBytes = 200'000;
constexpr std::size_t kMostTextBytes = 10'000;

Failure problem(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

std::string words(std::string_view kind) {
    std::string spoken(kind);
    std::ranges::replace(spoken, '_', ' ');
    return spoken;
}

std::string named(const Input& input) {
    return input.label + " (" + input.id + ")";
}

// "5/0 in" in Target (target): why. Where the reason begins with the value, the value stands once.
Failure field_problem(const Input& input, std::string_view typed, std::string_view why) {
    const std::string value = fettle::quoted(typed);
    const bool begins = why.starts_with(value);
    std::string sentence = value + " in " + named(input) + (begins ? "" : ": ");
    sentence += begins ? why.substr(value.size()) : why;
    if (!sentence.ends_with('.')) sentence += '.';
    return problem(std::move(sentence));
}

std::string bounds_text(const Input& input) {
    const auto shown = [&](double bound) {
        return short_quantity(bound, input.quantity, input.unit);
    };
    if (input.least && input.greatest)
        return "from " + shown(*input.least) + " to " + shown(*input.greatest);
    if (input.least) return shown(*input.least) + " or more";
    if (input.greatest) return shown(*input.greatest) + " or less";
    return {};
}

// Puts a value that misses its bound by a rounding error onto it: 25.4 mm is not less than 1 in.
Done keep_within(const Input& input, double& si) {
    constexpr double kRounding = 1e-9;
    const auto slack = [](double bound) { return kRounding * std::max(std::abs(bound), 1e-9); };
    const bool low = input.least && si < *input.least;
    const bool high = input.greatest && si > *input.greatest;
    if (!low && !high) return done();
    const double bound = low ? *input.least : *input.greatest;
    if (std::abs(si - bound) > slack(bound))
        return problem(short_quantity(si, input.quantity, input.unit) + " is out of bounds; " +
                       bounds_text(input) + " is accepted.");
    si = bound;
    return done();
}

Result<SiValue> read_number(const Input& input, std::string_view text) {
    auto measured = parse_quantity(text, input.quantity, input.unit);
    if (!measured) return measured.failure();
    SiValue value{.given = true,
                  .number = measured->si,
                  .typed_unit = measured->unit,
                  .half_step = measured->half_step};
    if (auto checked = keep_within(input, value.number); !checked) return checked.failure();
    return value;
}

Result<SiValue> read_checked_list(const Input& input, std::string_view text) {
    auto value = read_list(input, text);
    if (!value) return value;
    for (double& number : value->numbers)
        if (auto checked = keep_within(input, number); !checked) return checked.failure();
    return value;
}

Result<SiValue> read_choice(const Input& input, std::string_view text) {
    const std::string typed = lower_ascii(text);
    const std::string* begun = nullptr;
    int matches = 0;
    for (const std::string& choice : input.choices) {
        if (choice == text) return SiValue{.given = true, .text = choice};
        const std::string lower = lower_ascii(choice);
        if (lower == typed) return SiValue{.given = true, .text = choice};
        if (!lower.starts_with(typed)) continue;
        begun = &choice;
        ++matches;
    }
    if (matches == 1) return SiValue{.given = true, .text = *begun};
    return problem(accepted(input) + (matches > 1 ? " is accepted; more than one begins like this."
                                                  : " is accepted."));
}

Result<SiValue> read_text(std::string_view text) {
    if (text.size() > kMostTextBytes)
        return problem("at most " + std::to_string(kMostTextBytes) + " bytes are accepted.");
    const auto is_control = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 && c != '\t';
    };
    if (std::ranges::any_of(text, is_control)) return problem("only one line of text is accepted.");
    return SiValue{.given = true, .text = std::string(text)};
}

Result<SiValue> read_shape(const Input& input, std::string_view text) {
    if (text.size() > kMostTypedBytes)
        return problem("at most " + std::to_string(kMostTypedBytes) + " bytes are accepted.");
    if (safe_utf8(text) != text) return problem("it is not valid UTF-8.");
    switch (input.shape) {
    case Shape::number:
        return read_number(input, text);
    case Shape::text:
        return read_text(text);
    case Shape::choice:
        return read_choice(input, text);
    case Shape::list:
        return read_checked_list(input, text);
    case Shape::table:
        return read_table(input, text);
    }
    return problem("its shape is unknown.");
}

std::string column_names(const Input& input) {
    std::vector<std::string> names;
    for (const Column& column : input.columns)
        names.push_back(column.required ? column.id : "[" + column.id + "]");
    return join(names, " ");
}

std::string input_names(const Sheet& sheet) {
    std::vector<std::string> names;
    for (const Input& input : sheet.inputs)
        names.push_back(input.id);
    return join(names, ", ");
}

void add_problem(ReadInputs& read, const std::string& id, const std::string& sentence) {
    if (read.problems.empty()) read.first_problem = sentence;
    read.problems.emplace(id, sentence);
}

} // namespace

std::string accepted(const Input& input) {
    const std::string unit = unit_label(input.quantity, input.unit);
    const std::string bare = unit.empty() ? "" : "; a bare number is taken in " + unit;
    const std::string bounds = bounds_text(input).empty() ? "" : "; " + bounds_text(input);
    switch (input.shape) {
    case Shape::number:
        return "one " + words(input.quantity) + bare + bounds;
    case Shape::list:
        return "one or more of " + words(input.quantity) + ", separated by \";\" or blanks" + bare +
               bounds;
    case Shape::table:
        return "rows of " + column_names(input) + ", separated by \";\"";
    case Shape::choice:
        return "one of " + join(input.choices, ", ");
    case Shape::text:
        break;
    }
    return "text";
}

Result<SiValue> read_input(const Input& input, const std::string& typed) {
    const std::string_view text = trim(typed);
    if (text.empty()) {
        if (!input.required) return SiValue{};
        return problem(named(input) + " is blank; it needs " + accepted(input) + ".");
    }
    auto value = read_shape(input, text);
    if (!value) return field_problem(input, text, value.failure().sentence);
    return value;
}

TypedInputs fresh_inputs(const Sheet& sheet) {
    TypedInputs typed;
    for (const Input& input : sheet.inputs) {
        std::string& text = typed[input.id] = input.preset;
        if (input.shape != Shape::table) continue;
        std::vector<std::string> rows;
        for (const std::string_view row : split(input.preset, ';'))
            rows.emplace_back(trim(row));
        text = join(rows, "\n");
    }
    return typed;
}

bool is_asked(const Sheet& sheet, const Input& input, const TypedInputs& typed) {
    if (input.when.input.empty()) return true;
    const Input* other = find_by_id(sheet.inputs, input.when.input);
    if (!other || other == &input || !is_asked(sheet, *other, typed)) return false;
    const auto text = typed.find(other->id);
    const auto held = read_input(*other, text == typed.end() ? other->preset : text->second);
    return held && std::ranges::find(input.when.choices, held->text) != input.when.choices.end();
}

ReadInputs read_inputs(const Sheet& sheet, const TypedInputs& typed) {
    ReadInputs read;
    read.typed = typed;
    for (const auto& [id, text] : typed)
        if (!find_by_id(sheet.inputs, id))
            add_problem(read, id,
                        fettle::quoted(id) + " is no input of " + sheet.id + "; its inputs are " +
                            input_names(sheet) + ".");
    for (const Input& input : sheet.inputs) {
        const auto& text = read.typed.try_emplace(input.id, input.preset).first->second;
        if (!is_asked(sheet, input, read.typed)) {
            read.values.emplace_back();
            continue;
        }
        auto value = read_input(input, text);
        if (!value) add_problem(read, input.id, value.failure().sentence);
        read.values.push_back(value ? std::move(*value) : SiValue{});
    }
    return read;
}

} // namespace fettle::calc
