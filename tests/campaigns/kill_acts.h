// Random acts of a user, through the store and through the command line, for the kill campaign.
// What an act does follows from the numbers drawn and from what the notebook holds, so that two
// notebooks that hold the same take the same acts.
#pragma once

#include "notebook/notebook.h"

#include <random>
#include <string>
#include <vector>

namespace kill_campaign {

// A small JPEG beside the notebooks, of which photos are made.
inline constexpr const char* kTinyPicture = "tiny.jpg";

// One act; a refusal is an act that changed nothing.
void act_at_random(fettle::Notebook& book, std::mt19937_64& random);

// The arguments of a verb that changes the notebook, without --notebook.
std::vector<std::string> verb_at_random(std::mt19937_64& random);

} // namespace kill_campaign
