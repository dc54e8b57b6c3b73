// The steps that make a notebook's database, in order: one file of SQL each, beside this header.
#pragma once

#include <array>

namespace fettle {

inline constexpr int kNewestSchema = 5;
inline constexpr int kApplicationId = 0x46544c42; // "FTLB"
extern const std::array<const char*, kNewestSchema> kSchemaSteps;

} // namespace fettle
