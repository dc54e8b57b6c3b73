// The notebook: a folder with notebook.db, photos/ and cache/. Opens it, runs acts on it, takes
// them back. What the acts do stands in the rooms' other headers (parts.h, entries.h ...), as free
// functions over a Notebook.
//
// Every act is one transaction and one line of history; undo and redo survive a restart.
// May be used from several threads: each reading or act holds the notebook for its duration.
#pragma once

#include "base/result.h"
#include "store/database.h"
#include "store/folder_lock.h"
#include "store/log_mark.h"
#include "store/soundness.h"

#include <atomic>
#include <concepts>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

namespace fettle {

// What a reading was made of; see changed_since below.
using store::TablesRead;

// Acts of one step are undone together: a take-in of sixty photos is sixty acts and one step.
struct Step {
    std::int64_t number = 0; // 0: a step of its own
};

class Notebook {
  public:
    // Makes the folder and the first vehicle. Fails with refused when a notebook is there already.
    static Result<Notebook> create(const std::filesystem::path& folder,
                                   const std::string& vehicle_name);
    // The same without a vehicle, for a notebook that comes from another machine.
    static Result<Notebook> create_blank(const std::filesystem::path& folder);
    // Fails with not_found, busy (open for writing elsewhere), newer or damaged; then nothing has
    // been written.
    static Result<Notebook> open(const std::filesystem::path& folder, store::Access access);

    // Another one on the same folder with a connection of its own, for reading only: what is read
    // by it on another thread does not hold this one up, and sees what acts had written when the
    // reading began. Its own change counter stands still. Not to outlive this one, which has seen
    // to it that the notebook can be read. Any thread. Fails as reading does.
    Result<Notebook> also_to_read() const;

    Notebook(Notebook&& other) noexcept;
    ~Notebook();

    const std::filesystem::path& folder() const { return folder_; }
    std::filesystem::path photos_folder() const { return folder_ / "photos"; }
    std::filesystem::path cache_folder() const { return folder_ / "cache"; }
    bool writable() const { return lock_.has_value(); }
    // What the user is to be told about how it was found; empty when all is well.
    const std::string& opening_notice() const { return opening_notice_; }

    // Moves with every act, undo and redo; views read again when it has.
    std::uint64_t change_counter() const { return change_counter_.load(); }
    // Whether one of the tables may have changed since the counter stood so. Of tables that history
    // does not hold nothing is known: they may have.
    bool changed_since(std::uint64_t counter, const std::set<std::string>& tables) const;

    // Runs body(store::Database&) and gives back what it returns; trouble becomes a Failure.
    // Whoever writes meanwhile, the body sees one state: acts as a whole or not at all.
    template <std::invocable<store::Database&> Body>
    auto read(Body body) const -> Result<std::invoke_result_t<Body, store::Database&>>;

    // Runs body(store::Database&) -> Result<T> as one act called `words` ("tied 3 photos to H7"). A
    // Failure or trouble rolls everything back. An act inside an act joins it.
    template <std::invocable<store::Database&> Body>
    auto act(const std::string& words, Body body, Step step = {})
        -> std::invoke_result_t<Body, store::Database&>;

    Result<Step> new_step();

    // The words of what would be undone or redone next; empty when there is nothing.
    std::string next_undo() const;
    std::string next_redo() const;
    // Undo or redo one step; give back its words. Fail with not_found when there is nothing.
    Result<std::string> undo();
    Result<std::string> redo();

    // What came from another machine, brought in as one line of history that is not taken back, nor
    // is what was done before it. prepare(store::Database&) runs before the transaction, body(the
    // same) -> Done within it.
    template <class Prepare, class Body>
    Done bring_in(const std::string& words, Prepare prepare, Body body);

    // Writes outside history, such as drafts: what undo must not touch.
    template <std::invocable<store::Database&> Body>
    Done write_aside(Body body);

  private:
    class Recording;
    Notebook(std::filesystem::path folder, std::optional<store::FolderLock> lock,
             store::Database database);

    // What a new notebook begins with, written into it before it has its place.
    using Filling = std::function<Done(Notebook&)>;
    static Result<Notebook> create_filled(const std::filesystem::path& folder, const Filling& fill);
    // The whole of a new notebook in one file. Throws Trouble as the database does.
    static Done make(const std::filesystem::path& file, store::FolderLock& lock,
                     const Filling& fill);
    // Throws Trouble as the database does.
    static Result<Notebook> opened_to_read(const std::filesystem::path& folder,
                                           store::Database database);
    static Result<Notebook> open_to_write(const std::filesystem::path& folder);
    void mark_log();
    std::optional<Failure> not_there() const;
    std::optional<Failure> not_writable() const;
    Result<std::string> replay(bool back);
    void note_brought_in(const std::string& words);
    // Moves the counter on. Only while the notebook is held.
    void count_changes(std::span<const store::Blob> changes);
    void count_change_of_all();

    std::filesystem::path folder_;
    std::optional<store::FolderLock> lock_;
    mutable store::Database database_;
    std::unique_ptr<store::LogMark> log_mark_; // while it is open for writing
    std::string opening_notice_;
    mutable std::recursive_mutex held_;
    std::atomic<std::uint64_t> change_counter_ = 1;
    std::map<std::string, std::uint64_t> changed_at_; // the counter after a table's last change
    std::uint64_t all_changed_at_ = 0;
    bool acting_ = false;
};

// Files that a making of a notebook in this folder left when it was ended.
std::vector<std::filesystem::path> left_of_making(const std::filesystem::path& folder);

// One act under way: a transaction and the recorder of its changes. Rolls back unless kept.
class Notebook::Recording {
  public:
    explicit Recording(Notebook& notebook);
    ~Recording();
    void keep(const std::string& words, Step step);

  private:
    struct Parts;
    Notebook& notebook_;
    std::unique_ptr<Parts> parts_;
};

template <std::invocable<store::Database&> Body>
auto Notebook::read(Body body) const -> Result<std::invoke_result_t<Body, store::Database&>> {
    std::scoped_lock hold(held_);
    if (auto failure = not_there()) return *failure;
    try {
        std::optional<store::OneState> state; // nobody but us writes where we may
        if (!writable()) state.emplace(database_);
        return body(database_);
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

template <std::invocable<store::Database&> Body>
auto Notebook::act(const std::string& words, Body body, Step step)
    -> std::invoke_result_t<Body, store::Database&> {
    std::scoped_lock hold(held_);
    if (acting_) return body(database_);
    if (auto failure = not_writable()) return *failure;
    try {
        Recording recording(*this);
        auto result = body(database_);
        if (result.ok()) recording.keep(words, step);
        return result;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

template <std::invocable<store::Database&> Body>
Done Notebook::write_aside(Body body) {
    std::scoped_lock hold(held_);
    if (auto failure = not_writable()) return *failure;
    try {
        body(database_);
        return done();
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

template <class Prepare, class Body>
Done Notebook::bring_in(const std::string& words, Prepare prepare, Body body) {
    std::scoped_lock hold(held_);
    if (auto failure = not_writable()) return *failure;
    try {
        prepare(database_);
        store::Transaction transaction(database_);
        auto result = body(database_);
        if (!result.ok()) return result;
        note_brought_in(words);
        transaction.commit();
        count_change_of_all();
        return result;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

} // namespace fettle
