// Sixty generated pictures of a Saturday in the workshop, with the tags of parts in some of them:
// two parts one after the other, ten shots of nothing tagged, a third part, and after lunch twenty
// shots more. By one camera, a shot every 40 seconds.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace fettle::ui::testing {

inline constexpr int kShots = 60;
// Shots 0 and 10 show the tags H7 and S2, shot 30 that of K1. Pauses of half an hour lie before 20
// and 30, one of three hours before 40.
std::vector<std::filesystem::path> saturday_pictures(const std::filesystem::path& folder);

} // namespace fettle::ui::testing
