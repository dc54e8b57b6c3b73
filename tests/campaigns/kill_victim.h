// A process that is killed in the midst of what it does, and what is found then.
#pragma once

#include "notebook/notebook.h"

#include <sys/types.h>

#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace kill_campaign {

using Patience = std::chrono::microseconds;

// Throws std::runtime_error.
void must_hold(bool holds, const std::string& what);

// A process that is killed after so long, unless it has ended by itself; gives whether it ended
// well by itself.
class Victim {
  public:
    explicit Victim(const std::function<int()>& life);
    bool kill_after(Patience patience);
    bool ended_well();
    bool ended_by_itself() const { return ended_by_itself_; }

  private:
    pid_t pid_;
    bool ended_by_itself_ = false;
};

// The program itself, with these arguments; returns only when it cannot be started.
int become_verb(const std::filesystem::path& book, std::vector<std::string> arguments);
// Runs it to its end; whether that was 0.
bool verb_goes(const std::filesystem::path& book, const std::vector<std::string>& arguments);

fettle::Notebook opened(const std::filesystem::path& folder);
// All that it holds, once it was found whole.
std::string sound_content(const std::filesystem::path& folder);
// `fettlebook check` finds nothing wrong.
void must_be_clean(const std::filesystem::path& folder);

} // namespace kill_campaign
