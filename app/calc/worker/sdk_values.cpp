#include "calc/worker/sdk_values.h"

#include <stdexcept>

namespace fettle::calc {
namespace {

fettle_value laid_out(const Input& input, const SiValue& value) {
    fettle_value out{};
    out.struct_size = sizeof out;
    out.given = value.given ? 1 : 0;
    if (!value.given) return out;
    switch (input.shape) {
    case Shape::number:
        out.number = value.number;
        break;
    case Shape::text:
    case Shape::choice:
        out.text = value.text.c_str();
        break;
    case Shape::list:
    case Shape::table:
        if (value.numbers.size() != std::size_t{value.rows} * value.columns)
            throw std::length_error("rows and columns do not match the numbers");
        out.numbers = value.numbers.data();
        out.rows = value.rows;
        out.columns = value.columns;
        break;
    }
    return out;
}

} // namespace

SdkValues::SdkValues(const Sheet& sheet, std::vector<SiValue> values) : owned_(std::move(values)) {
    if (owned_.size() != sheet.inputs.size())
        throw std::length_error("the request has another number of inputs than the sheet");
    for (std::size_t at = 0; at < owned_.size(); ++at)
        values_.push_back(laid_out(sheet.inputs[at], owned_[at]));
    for (const fettle_value& value : values_)
        pointers_.push_back(&value);
}

} // namespace fettle::calc
