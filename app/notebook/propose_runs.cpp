// Which photos belong to the part whose tag was photographed before them: see runs.h.
#include "notebook/rules.h"
#include "notebook/runs.h"
#include "notebook/runs_within.h"

#include <algorithm>
#include <set>

namespace fettle {
namespace {

// A photo with what is known of it so far, in the order in which its camera took it.
struct Shot {
    PhotoId photo;
    std::string camera;
    std::optional<std::int64_t> at;
    RunId run;
    bool is_out = false;
    bool has_part = false; // tied to one
    int tags = 0;          // that were read in it
};

std::vector<Shot> all_shots(store::Database& database) {
    return all_rows(
        database.query(
            "SELECT f.id, f.camera_make || char(10) || f.camera_model, f.at, p.run_id, "
            "       ifnull(p.is_out, 0), "
            "       EXISTS (SELECT 1 FROM ties t WHERE t.photo_id = f.id AND t.part_id IS NOT "
            "NULL), "
            "       (SELECT count(*) FROM tag_reads g WHERE g.photo_id = f.id) "
            "FROM photos f LEFT JOIN run_photos p ON p.photo_id = f.id "
            "ORDER BY f.camera_make, f.camera_model, f.at IS NULL, f.at, f.original_name, f.id"),
        [](const store::Statement& row) {
            Shot shot;
            shot.photo = row.get<PhotoId>(0);
            shot.camera = row.get<std::string>(1);
            shot.at = row.get<std::optional<std::int64_t>>(2);
            shot.run = row.get<RunId>(3);
            shot.is_out = row.get<bool>(4);
            shot.has_part = row.get<bool>(5);
            shot.tags = row.get<int>(6);
            return shot;
        });
}

// Goes through the photos in order, holding the part that the last tag named.
class Proposing {
  public:
    Proposing(store::Database& database, std::chrono::milliseconds pause)
        : database_(database), pause_(pause) {
        // Without any tag there is nothing to go through.
        if (!database.query("SELECT 1 FROM tag_reads").next()) return;
        for (const auto& shot : all_shots(database))
            consider(shot);
    }

    Proposal proposal;

  private:
    struct Held {
        PartId part;
        RunId run; // proposed, to be lengthened; none: a new one begins
    };

    void consider(const Shot& shot) {
        if (shot.camera != camera_ || !shot.at || !last_ || *shot.at - *last_ > pause_.count())
            held_ = {};
        camera_ = shot.camera;
        last_ = shot.at;
        if (shot.tags > 0)
            take_tagged(shot);
        else if (shot.run)
            take_known(shot);
        else if (held_.part && !shot.has_part)
            take_new(shot);
    }

    void take_tagged(const Shot& shot) {
        const auto parts = parts_of(shot);
        const auto before = held_;
        held_ = {};
        if (shot.run) return take_known(shot);
        // Several tags show several parts; what follows may be any of them.
        if (shot.tags != 1 || parts.empty()) return;
        held_.part = parts.front();
        if (before.part == held_.part) held_.run = before.run;
        put_in(shot);
    }

    // The parts whose tags the photo shows, each tied to it the first time.
    std::vector<PartId> parts_of(const Shot& shot) {
        std::vector<PartId> parts;
        bool has_new = false;
        auto rows = database_.query("SELECT t.id, a.id, t.tied FROM tag_reads t "
                                    "JOIN parts a ON a.tag = t.tag WHERE t.photo_id = ?",
                                    shot.photo);
        while (rows.next()) {
            const auto read = rows.get<std::int64_t>(0);
            const auto part = rows.get<PartId>(1);
            parts.push_back(part);
            if (rows.get<bool>(2)) continue;
            database_.run("INSERT INTO ties(id, photo_id, part_id, stage) SELECT next_id('ties'), "
                          "?1, ?2, ?3 WHERE NOT "
                          "EXISTS (SELECT 1 FROM ties WHERE photo_id = ?1 AND part_id = ?2)",
                          shot.photo, part, word(Stage::during));
            if (database_.rows_changed() > 0) tied_.insert(shot.photo);
            database_.run("UPDATE tag_reads SET tied = 1 WHERE id = ?", read);
            has_new = true;
        }
        proposal.tied_by_tag += has_new;
        return parts;
    }

    void take_known(const Shot& shot) {
        held_ = {};
        if (shot.is_out) return;
        auto run = stored_run(database_, shot.run);
        if (!run || run->state == RunState::dismissed) return;
        held_ = {run->part, run->state == RunState::proposed ? run->id : RunId{}};
    }

    void take_new(const Shot& shot) {
        put_in(shot);
        ++proposal.proposed;
    }

    void put_in(const Shot& shot) {
        if (!held_.run)
            held_.run = RunId{database_.insert(
                "INSERT INTO runs(id, part_id, state) VALUES (next_id('runs'), ?, ?)", held_.part,
                word(RunState::proposed))};
        database_.run("INSERT INTO run_photos(id, run_id, photo_id, made_tie) VALUES "
                      "(next_id('run_photos'), ?, ?, ?)",
                      held_.run, shot.photo, tied_.contains(shot.photo));
    }

    store::Database& database_;
    std::chrono::milliseconds pause_;
    std::string camera_;
    std::optional<std::int64_t> last_;
    Held held_;
    std::set<PhotoId> tied_; // by this run of ours
};

std::vector<std::string> tags_without_part(store::Database& database) {
    return all_rows(database.query("SELECT DISTINCT t.tag FROM tag_reads t WHERE NOT EXISTS "
                                   "(SELECT 1 FROM parts a WHERE a.tag = t.tag) ORDER BY t.tag"),
                    [](const store::Statement& row) { return row.get<std::string>(0); });
}

} // namespace

Done note_tags(Notebook& notebook, PhotoId photo, const std::vector<std::string>& tags, Step step) {
    if (tags.empty()) return done();
    return notebook.act(
        "read the tag " + tags.front(),
        [&](store::Database& database) -> Done {
            for (const auto& tag : tags)
                database.run("INSERT OR IGNORE INTO tag_reads(id, photo_id, tag) VALUES "
                             "(next_id('tag_reads'), ?, ?)",
                             photo, tag);
            return done();
        },
        step);
}

Result<TagsWaiting> tags_waiting(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        auto row = database.query("SELECT count(DISTINCT t.photo_id) FROM tag_reads t "
                                  "JOIN parts a ON a.tag = t.tag WHERE t.tied = 0");
        row.next();
        return TagsWaiting{row.get<int>(0), tags_without_part(database)};
    });
}

Result<Proposal> propose_runs(Notebook& notebook, std::chrono::minutes pause, Step step) {
    return notebook.act(
        "tied photos by their tags",
        [&](store::Database& database) -> Result<Proposal> {
            auto proposal = Proposing(database, pause).proposal;
            proposal.without_part = tags_without_part(database);
            return proposal;
        },
        step);
}

} // namespace fettle
