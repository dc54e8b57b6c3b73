#include "notebook/runs.h"

#include "base/text.h"
#include "cli/taken.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"

namespace fettle::cli {
namespace {

constexpr const char* kRunFields =
    "{run, part, state, stage, from, to, photos}; photos lists {photo, shows_tag}";

Json run_json(const Run& run) {
    Json photos = Json::array();
    for (const auto& [photo, shows_tag] : run.photos)
        photos.push_back(Json{{"photo", photo.value}, {"shows_tag", shows_tag}});
    const auto time = [](const std::optional<Moment>& moment) {
        return moment ? Json(to_iso(*moment)) : Json();
    };
    return {{"run", run.id.value},      {"part", run.tag},        {"state", word(run.state)},
            {"stage", word(run.stage)}, {"from", time(run.from)}, {"to", time(run.to)},
            {"photos", photos}};
}

// "photos 3, 4-7": neighbours in number drawn together.
std::string photo_words(const std::vector<RunPhoto>& photos) {
    std::string words;
    for (std::size_t at = 0; at < photos.size();) {
        auto end = at;
        while (end + 1 < photos.size() &&
               photos[end + 1].photo.value == photos[end].photo.value + 1)
            ++end;
        words += (words.empty() ? "" : ", ") + std::to_string(photos[at].photo.value);
        if (end > at) words += "-" + std::to_string(photos[end].photo.value);
        at = end + 1;
    }
    return (photos.size() == 1 ? "photo " : "photos ") + words;
}

std::vector<std::string> run_cells(const Run& run) {
    return {"run " + std::to_string(run.id.value), run.tag + ' ' + run.part_name,
            run.from ? to_words(*run.from) : "no time", photo_words(run.photos),
            std::string(word(run.state)) +
                (run.state == RunState::accepted ? ", " + std::string(word(run.stage)) : "")};
}

Result<Report> run_report(const Notebook& notebook, RunId id) {
    auto run = run_by_id(notebook, id);
    if (!run) return run.failure();
    Columns columns;
    columns.row(run_cells(*run));
    return Report{columns.text(), run_json(*run)};
}

struct RunListWish {
    bool all = false;
};

void declare_run_list(CLI::App& verb, RunListWish& wish) {
    verb.add_flag("--all", wish.all, "Accepted and dismissed runs, too");
    verb.footer(
        std::string("Photos that follow the photo of a tag, and are held to show its part.\n"
                    "JSON: a list of ") +
        kRunFields + ".");
}

Result<Report> list_all_runs(const Call& call, const RunListWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    Columns columns;
    Json json = Json::array();
    for (auto state : {RunState::proposed, RunState::accepted, RunState::dismissed}) {
        if (state != RunState::proposed && !wish.all) break;
        auto runs = list_runs(*notebook, state);
        if (!runs) return runs.failure();
        for (const auto& run : *runs) {
            columns.row(run_cells(run));
            json.push_back(run_json(run));
        }
    }
    return Report{columns.empty() ? "no runs\n" : columns.text(), std::move(json)};
}

struct AcceptWish {
    std::vector<std::string> runs;
    bool all = false;
    std::string stage = "during";

    void check() const {
        if (runs.empty() != all)
            throw CLI::ValidationError("Either numbers of runs or --all is required");
    }
};

void declare_accept(CLI::App& verb, AcceptWish& wish) {
    verb.add_option("RUN", wish.runs, "Numbers of runs");
    verb.add_flag("--all", wish.all, "All that are proposed");
    verb.add_option("--stage", wish.stage,
                    "One of: " + join(all_words<Stage>(), ", ") + "; without it during")
        ->option_text("STAGE");
    verb.footer("Ties their photos to their parts; one step of undo.\n"
                "JSON: {accepted}, the numbers of the runs.");
}

Result<Report> accept(const Call& call, const AcceptWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto stage = from_word<Stage>(wish.stage);
    if (!stage) return stage.failure();
    auto ids = parse_ids<RunId>("run", wish.runs);
    if (!ids) return ids.failure();
    if (wish.all) {
        auto proposed = list_runs(*notebook, RunState::proposed);
        if (!proposed) return proposed.failure();
        for (const auto& run : *proposed)
            ids->push_back(run.id);
    }
    auto step = notebook->new_step();
    if (!step) return step.failure();
    Columns columns;
    Json accepted = Json::array();
    for (auto id : *ids) {
        if (auto done = accept_run(*notebook, id, *stage, *step); !done) return done.failure();
        auto run = run_by_id(*notebook, id);
        if (!run) return run.failure();
        columns.row(run_cells(*run));
        accepted.push_back(id.value);
    }
    return Report{columns.empty() ? "no runs\n" : columns.text(), {{"accepted", accepted}}};
}

struct RunWish {
    std::string run;
};

void declare_dismiss(CLI::App& verb, RunWish& wish) {
    verb.add_option("RUN", wish.run, "The run")->required();
    verb.footer(
        std::string("Its ties are taken back but for photos that show the tag itself; it is "
                    "not proposed again.\nJSON: ") +
        kRunFields + ".");
}

Result<Report> dismiss(const Call& call, const RunWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<RunId>("run", wish.run);
    if (!id) return id.failure();
    if (auto dismissed = dismiss_run(*notebook, *id); !dismissed) return dismissed.failure();
    return run_report(*notebook, *id);
}

struct MoveWish {
    std::string run, first, last;

    void check() const {
        if (first.empty() && last.empty())
            throw CLI::ValidationError("--first or --last is required");
    }
};

void declare_move(CLI::App& verb, MoveWish& wish) {
    verb.add_option("RUN", wish.run, "The run")->required();
    verb.add_option("--first", wish.first, "The photo it shall begin with")->option_text("PHOTO");
    verb.add_option("--last", wish.last, "The photo it shall end with")->option_text("PHOTO");
    verb.footer(
        std::string("Photos that come in leave the run they were in; those that fall out go "
                    "to the run beside it, if\nthere is one.\nJSON: ") +
        kRunFields + ".");
}

Result<Report> move(const Call& call, const MoveWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<RunId>("run", wish.run);
    if (!id) return id.failure();
    for (const auto& [typed, move_end] :
         {std::pair{&wish.first, &move_run_start}, std::pair{&wish.last, &move_run_end}}) {
        if (typed->empty()) continue;
        auto photo = parse_id<PhotoId>("photo", *typed);
        if (!photo) return photo.failure();
        if (auto moved = move_end(*notebook, *id, *photo); !moved) return moved.failure();
    }
    return run_report(*notebook, *id);
}

struct ProposeWish {
    int pause = int(kUsualPause.count());
};

void declare_propose(CLI::App& verb, ProposeWish& wish) {
    add_pause(verb, wish.pause);
    verb.footer("Take-in does so by itself; again after a part has been given a tag that was read "
                "before, or a clock\nwas put right. What was decided stays.\n"
                "JSON: {tied_by_tag, proposed, tags_without_part}; the first two count photos.");
}

Result<Report> propose(const Call& call, const ProposeWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto proposal = propose_runs(*notebook, std::chrono::minutes(wish.pause));
    if (!proposal) return proposal.failure();
    return Report{"tied by tag " + std::to_string(proposal->tied_by_tag) + ", proposed " +
                      std::to_string(proposal->proposed) + '\n',
                  {{"tied_by_tag", proposal->tied_by_tag},
                   {"proposed", proposal->proposed},
                   {"tags_without_part", proposal->without_part}}};
}

} // namespace

void add_runs(Line& line) {
    auto& group = add_group(line, "runs", "List, accept and mend runs of photos that follow a tag");
    add_verb(line, group, "list", "List runs that wait to be accepted", declare_run_list,
             list_all_runs);
    add_verb(line, group, "accept", "Tie the photos of runs to their parts", declare_accept,
             accept);
    add_verb(line, group, "dismiss", "Say that a run is none", declare_dismiss, dismiss);
    add_verb(line, group, "move", "Move an end of a run to another photo", declare_move, move);
    add_verb(line, group, "propose", "Look for runs again", declare_propose, propose);
}

} // namespace fettle::cli
