#include "base/unit_conversion.h"

#include <udunits2.h>

#include <memory>
#include <string>
#include <vector>

namespace fettle {
namespace {

template <auto Free>
struct Freed {
    template <class T>
    void operator()(T* handle) const {
        Free(handle);
    }
};
using SystemHandle = std::unique_ptr<ut_system, Freed<ut_free_system>>;
using UnitHandle = std::unique_ptr<ut_unit, Freed<ut_free>>;
using ConverterHandle = std::unique_ptr<cv_converter, Freed<cv_free>>;

struct BothWays {
    ConverterHandle to_si;
    ConverterHandle from_si;
};

UnitHandle parse(const SystemHandle& system, std::string_view text) {
    return UnitHandle(ut_parse(system.get(), std::string(text).c_str(), UT_UTF8));
}

// Every converter of the table, made once. Making them changes UDUNITS' system; using them changes
// nothing, so that a const Converters serves any thread.
class Converters {
  public:
    Converters() {
        ut_set_error_message_handler(ut_ignore); // it would print on stderr
        const SystemHandle system(ut_read_xml(nullptr));
        if (!system) return;
        for (const UnitSpelling& row : unit_table()) {
            const UnitHandle unit = parse(system, row.udunits);
            const UnitHandle si = parse(system, find_kind(row.kind)->si);
            BothWays both;
            if (unit && si && ut_are_convertible(unit.get(), si.get())) {
                both.to_si.reset(ut_get_converter(unit.get(), si.get()));
                both.from_si.reset(ut_get_converter(si.get(), unit.get()));
            }
            rows_.push_back(std::move(both));
        }
    }

    Result<const BothWays*> of(const UnitSpelling& unit) const {
        if (rows_.empty()) {
            return Failure{FailureKind::io,
                           "units cannot be converted: the UDUNITS-2 database is missing; install "
                           "the package libudunits2 again"};
        }
        const BothWays& both = rows_[static_cast<std::size_t>(&unit - unit_table().data())];
        if (!both.to_si || !both.from_si) {
            return Failure{FailureKind::invalid, std::string(unit.unit) + " is no " +
                                                     std::string(find_kind(unit.kind)->words)};
        }
        return &both;
    }

  private:
    std::vector<BothWays> rows_; // parallel to unit_table(); empty when UDUNITS has no database
};

const Converters& converters() {
    static const Converters all; // reading the database takes milliseconds: once, when first needed
    return all;
}

} // namespace

Result<double> unit_to_si(double value, const UnitSpelling& unit) {
    const auto both = converters().of(unit);
    if (!both) return both.failure();
    return cv_convert_double((*both)->to_si.get(), value);
}

Result<double> unit_from_si(double si, const UnitSpelling& unit) {
    const auto both = converters().of(unit);
    if (!both) return both.failure();
    return cv_convert_double((*both)->from_si.get(), si);
}

} // namespace fettle
