// What a view shows of the notebook, read again only when something has changed: no database call
// happens in a frame in which the change counter and the question stand still.
#pragma once

#include "notebook/notebook.h"

#include <optional>
#include <utility>

namespace fettle::ui {

// `Question` is what the reading depends on besides the notebook: a filter, an id. It is compared
// with ==. UI thread only.
template <class Answer, class Question = int>
class Snapshot {
  public:
    // `read(question)` gives Result<Answer>. A failure keeps the last answer and is told once.
    template <class Read>
    const Answer& of(const Notebook& book, const Question& question, Read read) {
        if (counter_ == book.change_counter() && question_ == question) return answer_;
        counter_ = book.change_counter();
        question_ = question;
        Result<Answer> fresh = read(question);
        if (fresh)
            answer_ = std::move(*fresh), failure_.clear();
        else
            failure_ = fresh.failure().sentence;
        return answer_;
    }
    const std::string& failure() const { return failure_; } // empty: none

  private:
    std::uint64_t counter_ = 0;
    std::optional<Question> question_;
    Answer answer_{};
    std::string failure_;
};

} // namespace fettle::ui
