// What a view shows of the notebook, read again only when something that it was read from has
// changed: no database call happens in a frame in which the change counter and the question stand
// still, and after an act only what stands on a table that the act has changed is read anew.
//
// What grows with the notebook is read beside the frames: until the new answer has come, the last
// one is shown.
#pragma once

#include "notebook/notebook.h"
#include "ui/beside/side_reading.h"

#include <chrono>
#include <memory>
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
        if (!is_newest(book, counter, question)) {
            const TablesRead watched;
            Result<Answer> fresh = read(question);
            take(question, {std::move(fresh), watched.names(), counter});
        }
        TablesRead::note(tables_);
        return answer_;
    }

    // The same, but the last answer is given, be it to another question, while a large notebook is
    // read on another thread by `read(notebook, question)`, which must look at nothing else that
    // changes. Without `side`, and where the notebook is small, it is read at once.
    template <class Read>
    const Answer& beside(SideReading* side, const Notebook& book, const Question& question,
                         Read read) {
        if (auto come = coming_->take(); come && asked_ == question)
            take(question, std::move(*come), side);
        if (is_newest(book, book.change_counter(), question)) {
            is_reading_ = false;
        } else if (!side || !side->is_needed()) {
            is_reading_ = false;
            return of(book, question, [&](const Question& one) { return read(book, one); });
        } else if (!coming_->awaited() || !(asked_ == question)) {
            // One under way is not left for a newer one: with an act a frame none would ever come.
            asked_ = question;
            side->template ask<Answer>(
                coming_, [question, read](const Notebook& from) { return read(from, question); });
            if (auto come = coming_->take_within(kPatience)) take(question, std::move(*come), side);
            is_reading_ = !is_newest(book, book.change_counter(), question);
        }
        TablesRead::note(tables_);
        return answer_;
    }

    const std::string& failure() const { return failure_; } // empty: none
    // How many answers have come: another number, another answer.
    std::uint64_t readings() const { return readings_; }
    // That the answer shown is not the newest one: it is on its way.
    bool is_reading() const { return is_reading_; }
    // The same, and there is no answer to show meanwhile.
    bool nothing_yet() const { return is_reading_ && readings_ == 0 && failure_.empty(); }

  private:
    // So long a frame waits for an answer, which then is seen at once.
    static constexpr std::chrono::milliseconds kPatience{3};

    bool is_newest(const Notebook& book, std::uint64_t counter, const Question& question) {
        const bool stands =
            question_ == question &&
            (counter_ == counter || (!tables_.empty() && !book.changed_since(counter_, tables_)));
        if (stands) counter_ = counter;
        return stands;
    }
    void take(const Question& question, ReadBeside<Answer> read, SideReading* side = nullptr) {
        question_ = question;
        counter_ = read.counter;
        tables_ = std::move(read.tables);
        if (!read.answer) {
            failure_ = read.answer.failure().sentence;
            return;
        }
        Answer old = std::exchange(answer_, *std::move(read.answer));
        if (side) side->let_go(std::make_shared<Answer>(std::move(old)));
        failure_.clear();
        ++readings_;
    }

    std::uint64_t counter_ = 0;
    std::set<std::string> tables_; // that the answer was read from
    std::optional<Question> question_;
    Answer answer_{};
    std::string failure_;
    std::uint64_t readings_ = 0;
    std::shared_ptr<Coming<ReadBeside<Answer>>> coming_ =
        std::make_shared<Coming<ReadBeside<Answer>>>();
    Question asked_{}; // of the one that is coming
    bool is_reading_ = false;
};

} // namespace fettle::ui
