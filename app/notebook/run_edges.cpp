// Moving the ends of runs: see runs.h.
#include "notebook/rules.h"
#include "notebook/runs.h"
#include "notebook/runs_within.h"

#include <algorithm>

namespace fettle {
namespace {

// One photo of a camera's photos in the order of time.
struct Shot {
    PhotoId photo;
    std::int64_t at = 0;
    RunId run; // it is in, and not taken out of
};

std::vector<Shot> shots_beside(store::Database& database, PhotoId photo) {
    return all_rows(
        database.query("SELECT f.id, f.at, p.run_id FROM photos f "
                       "JOIN photos s ON s.camera_make = f.camera_make "
                       "             AND s.camera_model = f.camera_model "
                       "LEFT JOIN run_photos p ON p.photo_id = f.id AND p.is_out = 0 "
                       "WHERE s.id = ? AND f.at IS NOT NULL ORDER BY f.at, f.original_name, f.id",
                       photo),
        [](const store::Statement& row) {
            return Shot{row.get<PhotoId>(0), row.get<std::int64_t>(1), row.get<RunId>(2)};
        });
}

enum class End { first, last };

// A run among its camera's photos, with one end on the move. Positions count away from the run's
// other end: `outwards` is the way the moved end grows.
class Moving {
  public:
    Moving(store::Database& database, StoredRun run, std::vector<Shot> shots, End end)
        : database_(database), run_(std::move(run)), shots_(std::move(shots)) {
        if (end == End::first) std::ranges::reverse(shots_);
        const auto is_in = [&](const Shot& shot) { return shot.run == run_.id; };
        const auto start = std::ranges::find_if(shots_, is_in);
        start_ = std::size_t(start - shots_.begin());
        for (std::size_t at = start_; at < shots_.size(); ++at)
            if (is_in(shots_[at])) end_ = at;
    }

    Done move_to(PhotoId photo) {
        const auto wanted =
            std::size_t(std::ranges::find(shots_, photo, &Shot::photo) - shots_.begin());
        const std::string number = std::to_string(photo.value);
        if (wanted == shots_.size())
            return Failure{FailureKind::invalid,
                           "Photo " + number +
                               " is not by the camera of this run, or has no time."};
        if (wanted < start_)
            return Failure{FailureKind::invalid, "Photo " + number +
                                                     " lies beyond the run's other end: a run "
                                                     "keeps at least one photo."};
        return wanted > end_ ? grow_to(wanted) : shrink_to(wanted);
    }

  private:
    Done grow_to(std::size_t wanted) {
        for (auto at = end_ + 1; at <= wanted; ++at) {
            const Shot& shot = shots_[at];
            if (!shot.run || shot.run == run_.id) continue;
            auto other = stored_run(database_, shot.run);
            if (!other) return other.failure();
            if (other->state != RunState::dismissed && other->part != run_.part &&
                shows_tag_of(database_, shot.photo, other->part))
                return Failure{FailureKind::refused,
                               "Photo " + std::to_string(shot.photo.value) + " shows the tag " +
                                   other->tag + ": a run of " + run_.tag +
                                   " cannot go past it unless run " +
                                   std::to_string(other->id.value) + " is dismissed."};
        }
        for (auto at = end_ + 1; at <= wanted; ++at)
            join_run(database_, run_, shots_[at].photo);
        return done();
    }

    Done shrink_to(std::size_t wanted) {
        for (auto at = wanted + 1; at <= end_; ++at)
            if (shots_[at].run == run_.id && shows_tag_of(database_, shots_[at].photo, run_.part))
                return Failure{FailureKind::refused,
                               "Photo " + std::to_string(shots_[at].photo.value) +
                                   " shows the tag " + run_.tag + ": it stays in the run."};
        const auto next = next_run();
        // From the neighbour inwards, so that each lies next to what is in that run already.
        for (auto at = end_; at > wanted; --at) {
            if (shots_[at].run != run_.id) continue;
            if (next)
                join_run(database_, *next, shots_[at].photo);
            else
                leave_run(database_, run_, shots_[at].photo);
        }
        return done();
    }

    // The run that lies beside the moving end without a pause.
    std::optional<StoredRun> next_run() {
        if (end_ + 1 >= shots_.size() || !shots_[end_ + 1].run) return {};
        const std::chrono::milliseconds gap(std::abs(shots_[end_ + 1].at - shots_[end_].at));
        if (gap > kUsualPause) return {};
        auto next = stored_run(database_, shots_[end_ + 1].run);
        if (!next || next->state == RunState::dismissed) return {};
        return *next;
    }

    store::Database& database_;
    StoredRun run_;
    std::vector<Shot> shots_;
    std::size_t start_ = 0, end_ = 0;
};

Done move_end(Notebook& notebook, RunId id, PhotoId photo, End end) {
    auto run = run_by_id(notebook, id);
    if (!run) return run.failure();
    if (run->state == RunState::dismissed || run->photos.empty())
        return Failure{FailureKind::refused, "Run " + std::to_string(id.value) +
                                                 " is dismissed: it has no ends to move."};
    return notebook.act(std::string("moved the ") + (end == End::first ? "start" : "end") +
                            " of the run of " + run->tag + " " + run->part_name,
                        [&](store::Database& database) -> Done {
                            auto stored = stored_run(database, id);
                            if (!stored) return stored.failure();
                            return Moving(database, *stored,
                                          shots_beside(database, run->photos.front().photo), end)
                                .move_to(photo);
                        });
}

} // namespace

Done move_run_start(Notebook& notebook, RunId id, PhotoId first) {
    return move_end(notebook, id, first, End::first);
}

Done move_run_end(Notebook& notebook, RunId id, PhotoId last) {
    return move_end(notebook, id, last, End::last);
}

} // namespace fettle
