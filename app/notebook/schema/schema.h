// The steps that make a notebook's database, in order: one file of SQL each, beside this header.
#pragma once

#include <array>

namespace fettle {

inline constexpr int kNewestSchema = 6;
// The schemas from this one on have the same tables with the same columns: what was recorded under
// one of them, in history or for another machine, holds under the others.
inline constexpr int kSameTablesSince = 5;
inline constexpr int kApplicationId = 0x46544c42; // "FTLB"
extern const std::array<const char*, kNewestSchema> kSchemaSteps;

} // namespace fettle
