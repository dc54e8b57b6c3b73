// Names of tables and columns in SQL. Everything else that is not constant is bound to a "?".
#pragma once

#include <string>
#include <string_view>

namespace fettle::store {

// An identifier as SQLite reads it whatever it holds: in double quotes, those within doubled.
std::string in_quotes(std::string_view name);
// The same of a table in one of the databases that a connection has attached.
std::string in_quotes(std::string_view schema, std::string_view table);

} // namespace fettle::store
