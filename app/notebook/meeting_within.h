// What carrying and meeting share. For meeting*.cpp only.
#pragma once

#include "notebook/meeting.h"

namespace fettle {

std::filesystem::path state_file(const std::filesystem::path& notebook, const std::string& state);
// The files below met/ that no state needs go.
void sweep_states(store::Database& database, const std::filesystem::path& notebook);
void note_state(store::Database& database, const std::string& state, std::int64_t carried);
// "" when there is none that this program can start from.
std::string known_base(store::Database& database, const std::filesystem::path& notebook);
bool holds_state(store::Database& database, const std::filesystem::path& notebook,
                 const std::string& state);
// Where a file is made before it has its name: another place each time.
std::filesystem::path half_file(const std::filesystem::path& notebook, const std::string& what);

} // namespace fettle
