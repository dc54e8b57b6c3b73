// Everything a notebook's tables hold, as the sqlite3 program prints it: a judge that knows nothing
// of our own reading and writing. What is not given out and the index of words are left out.
#pragma once

#include "notebook/described.h"

#include <doctest/doctest.h>

#include <cstdio>
#include <filesystem>
#include <sstream>
#include <string>

inline std::string said_by(const std::string& command) {
    std::string said;
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe);
    char piece[4096];
    for (std::size_t got; (got = std::fread(piece, 1, sizeof piece, pipe)) > 0;)
        said.append(piece, got);
    REQUIRE_MESSAGE(pclose(pipe) == 0, command);
    return said;
}

inline std::string record_text(const std::filesystem::path& notebook) {
    const std::string sqlite =
        "sqlite3 -readonly -quote '" + (notebook / "notebook.db").string() + "' \"";
    std::string kept_back = "''";
    for (const auto name : fettle::kKeptBack)
        kept_back += ", '" + std::string(name) + "'";
    std::istringstream tables(said_by(
        "sqlite3 -readonly '" + (notebook / "notebook.db").string() +
        "' \"SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'words%' "
        "AND name NOT IN (" +
        kept_back + ") ORDER BY 1\""));
    std::string questions, table;
    while (tables >> table)
        questions += "SELECT '" + table + "', * FROM " + table + " ORDER BY 2, 3; ";
    return said_by(sqlite + questions + '"');
}
