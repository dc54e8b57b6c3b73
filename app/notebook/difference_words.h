// How records, fields and values of any table are said, for the differences between two machines.
// For this room only; inside a reading.
#pragma once

#include "store/database.h"

#include <string>

namespace fettle {

std::string record_words(store::Database& database, const std::string& table,
                         const store::RowKey& row);
std::string field_words(const std::string& table, const std::string& field);
// `json` holds the values by their columns.
std::string values_words(store::Database& database, const std::string& table,
                         const std::string& json);
// Whether a person may type any text into it; and whether it may be left blank.
bool is_free_text(const std::string& table, const std::string& field);
bool may_be_blank(const std::string& field);

} // namespace fettle
