// What a view shows of the notebook, read again only when something that it was read from has
// changed: no database call happens in a frame in which the change counter and the question stand
// still, and after an act only what stands on a table that the act has changed is read anew.
#pragma once

#include "notebook/notebook.h"

#include <optional>
#include <set>
#include <string>
#include <utility>

namespace fettle::ui {

// `Question` is what the reading depends on besides the notebook: a filter, an id. It is compared
// with ==. UI thread only.
template <class Answer, class Question = int>
class Snapshot {
  public:
    // `read(question)` gives Result<Answer>, from the notebook and the question alone. A failure
    // keeps the last answer and is told once.
    template <class Read>
    const Answer& of(const Notebook& book, const Question& question, Read read) {
        const std::uint64_t counter = book.change_counter();
        const bool stands = question_ == question && stands_still(book, counter);
        counter_ = counter;
        if (stands) {
            TablesRead::note(tables_);
            return answer_;
        }
        question_ = question;
        const TablesRead watched;
        Result<Answer> fresh = read(question);
        tables_ = watched.names();
        if (fresh)
            answer_ = std::move(*fresh), failure_.clear();
        else
            failure_ = fresh.failure().sentence;
        return answer_;
    }
    const std::string& failure() const { return failure_; } // empty: none

  private:
    bool stands_still(const Notebook& book, std::uint64_t counter) const {
        return counter_ == counter || (!tables_.empty() && !book.changed_since(counter_, tables_));
    }

    std::uint64_t counter_ = 0;
    std::set<std::string> tables_; // that the answer was read from
    std::optional<Question> question_;
    Answer answer_{};
    std::string failure_;
};

} // namespace fettle::ui
