// What is given out of a notebook and what is made of that, killed at random moments: backup and
// restore, data out and in, carry and meet between two machines, and a notebook's beginning on a
// second one. Under its own name nothing stands half; what was ended so is done by the next run,
// which clears up after it.
#pragma once

#include "campaigns/kill_victim.h"

#include <filesystem>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace kill_campaign {

class GivenOut {
  public:
    GivenOut(std::filesystem::path folder, std::mt19937_64& random)
        : folder_(std::move(folder)), random_(random) {}
    // Two machines that hold what `book` does.
    void begin(const std::filesystem::path& book);
    // One of them, on a notebook that stays as it is, or between the two machines.
    void kill_one(const std::filesystem::path& book);
    std::string counted() const; // "3 backup, 4 carry ..."

  private:
    using Verb = std::vector<std::string>;

    void kill_a_backup(const std::filesystem::path& book);
    void kill_a_restore(const std::filesystem::path& book);
    void kill_data_out(const std::filesystem::path& book);
    void kill_data_in(const std::filesystem::path& book);
    void kill_a_carry();
    void kill_a_meet();
    void kill_a_beginning();

    // True when it was acknowledged. Verbs of a kind are killed within the time they took last.
    bool kill_verb(const std::filesystem::path& book, const Verb& verb);
    void must_go(const std::filesystem::path& book, const Verb& verb);
    void act(const std::filesystem::path& book);
    void must_be_tidy() const;
    std::filesystem::path at(const char* name) const { return folder_ / name; }

    std::filesystem::path folder_;
    std::mt19937_64& random_;
    std::map<std::string, Patience> took_;
    std::map<std::string, int> killed_, acknowledged_;
    bool house_is_next_ = false; // to carry
};

} // namespace kill_campaign
