// Readings of a large notebook on a thread of their own, through a connection of their own, so that
// no frame waits for them. Used by Snapshot (ui/beside/snapshot.h). UI thread only; destroying it
// lets the reading under way end and leaves the others out.
#pragma once

#include "notebook/notebook.h"
#include "ui/beside/side_work.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>

namespace fettle::ui {

// What a reading brought, and what it was made of.
template <class Answer>
struct ReadBeside {
    Result<Answer> answer;
    std::set<std::string> tables;
    std::uint64_t counter = 0; // the notebook's change counter: acts up to it are in the answer
};

class SideReading {
  public:
    // Below this size, in bytes, all that a screen shows is read within a few milliseconds.
    static constexpr std::uintmax_t kLarge = 4U << 20;

    // `wake` is called on the other thread after each reading. The notebook outlives this.
    SideReading(const Notebook& book, std::function<void()> wake, std::uintmax_t from = kLarge);

    // Whether the notebook is so large that reading it within a frame would be felt.
    bool is_needed() const;

    // `read` is called on the other thread with a notebook to read from, all of it in one state of
    // the notebook, and must look at nothing else that changes.
    template <class Answer>
    void ask(const std::shared_ptr<Coming<ReadBeside<Answer>>>& slot,
             std::function<Result<Answer>(const Notebook&)> read) {
        work_.ask<ReadBeside<Answer>>(slot, [this, read = std::move(read)] {
            // Before the reading begins: an act in between is in the answer, and read once more.
            const std::uint64_t counter = book_.change_counter();
            std::set<std::string> tables;
            Result<Answer> answer = in_one_state<Answer>(read, tables);
            return ReadBeside<Answer>{std::move(answer), std::move(tables), counter};
        });
    }

    // Freeing what is large takes its time, too.
    void let_go(std::shared_ptr<void> old) {
        work_.ask<Nothing>(std::make_shared<Coming<Nothing>>(),
                           [old = std::move(old)] { return Nothing{}; });
    }

    void settle() { work_.settle(); }

  private:
    template <class Answer>
    Result<Answer> in_one_state(const std::function<Result<Answer>(const Notebook&)>& read,
                                std::set<std::string>& tables) {
        if (auto failure = open_reader()) return *failure;
        auto answer = reader_->read([&](store::Database&) {
            const TablesRead watched;
            Result<Answer> found = read(*reader_);
            tables = watched.names();
            return found;
        });
        return answer ? *std::move(answer) : Result<Answer>(answer.failure());
    }
    std::optional<Failure> open_reader();

    const Notebook& book_;
    const std::uintmax_t from_;
    std::optional<Notebook> reader_; // the other thread's, from its first reading on
    SideWork work_;                  // last: ends before the rest goes
};

} // namespace fettle::ui
