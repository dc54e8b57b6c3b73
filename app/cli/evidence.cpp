// evidence: what photos of a part show before its surface goes, and what is still missing.
#include "notebook/evidence.h"

#include "base/text.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"

namespace fettle::cli {
namespace {

struct EvidenceWish {
    std::string tag, photo, none, because;
    std::vector<std::string> shows;
    bool drop = false;

    void check() const {
        if (photo.empty() != shows.empty())
            throw CLI::ValidationError("--photo and --shows go together");
        if (none.empty() && !because.empty())
            throw CLI::ValidationError("--because goes with --none");
        if (!none.empty() && because.empty() && !drop)
            throw CLI::ValidationError("--none needs --because");
        if (drop && photo.empty() && none.empty())
            throw CLI::ValidationError("--drop needs --photo and --shows, or --none");
    }
};

void declare_evidence(CLI::App& verb, EvidenceWish& wish) {
    const auto kinds = join(all_words<Evidence>(), ", ");
    verb.add_option("TAG", wish.tag, "The part")->required();
    verb.add_option("--photo", wish.photo, "Say what this photo shows of it")->option_text("PHOTO");
    add_repeated(verb, "--shows", wish.shows, "One of: " + kinds + "; may be repeated")
        ->option_text("WORD");
    verb.add_option("--none", wish.none, "Say that there is nothing to show of: " + kinds)
        ->option_text("WORD");
    verb.add_option("--because", wish.because, "Why, such as \"cast without marks\"")
        ->option_text("TEXT");
    verb.add_flag("--drop", wish.drop, "Take back what was said");
    verb.footer("A photo tied as found, or before the part was stripped, counts for the finish and "
                "one side, a mark read\nfor the marks; the other side only you can tell.\n"
                "JSON: {part, missing, evidence}; evidence lists {shows, photos, none_because, "
                "todo}.");
}

Result<Report> evidence_report(const Notebook& notebook, const Part& part) {
    auto lines = evidence_of(notebook, part.id);
    if (!lines) return lines.failure();
    Columns columns;
    Json json = Json::array(), missing = Json::array();
    for (const auto& line : *lines) {
        Json photos = Json::array();
        std::vector<std::string> numbers;
        for (const auto photo : line.photos) {
            photos.push_back(photo.value);
            numbers.push_back(std::to_string(photo.value));
        }
        if (!line.todo.empty()) missing.push_back(line.todo);
        const std::string kept = !line.none_because.empty() ? "none: " + line.none_because
                                 : numbers.empty()          ? ""
                                                            : "photo " + join(numbers, ", ");
        columns.row(
            {std::string(word(line.shows)), kept, line.todo.empty() ? "" : "to do: " + line.todo});
        json.push_back(Json{{"shows", word(line.shows)},
                            {"photos", std::move(photos)},
                            {"none_because", line.none_because},
                            {"todo", line.todo}});
    }
    return Report{
        one_line(part.tag + "  " + part.name) + '\n' + columns.text(2),
        {{"part", part.tag}, {"missing", std::move(missing)}, {"evidence", std::move(json)}}};
}

Done say_shown(Notebook& notebook, PartId part, const EvidenceWish& wish) {
    auto photo = parse_id<PhotoId>("photo", wish.photo);
    if (!photo) return photo.failure();
    for (const auto& typed : wish.shows) {
        auto shows = from_word<Evidence>(typed);
        if (!shows) return shows.failure();
        auto said = wish.drop ? drop_evidence(notebook, part, *photo, *shows)
                              : note_evidence(notebook, part, *photo, *shows);
        if (!said) return said;
    }
    return done();
}

Done say_none(Notebook& notebook, PartId part, const EvidenceWish& wish) {
    auto shows = from_word<Evidence>(wish.none);
    if (!shows) return shows.failure();
    return wish.drop ? drop_no_evidence(notebook, part, *shows)
                     : note_no_evidence(notebook, part, *shows, wish.because);
}

Result<Report> evidence_verb(const Call& call, const EvidenceWish& wish) {
    const bool says = !wish.photo.empty() || !wish.none.empty();
    auto notebook = says ? call.for_writing() : call.for_reading();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    if (says) {
        auto said =
            notebook->act("noted the evidence of " + part->tag, [&](store::Database&) -> Done {
                if (!wish.photo.empty())
                    if (auto shown = say_shown(*notebook, part->id, wish); !shown) return shown;
                return wish.none.empty() ? done() : say_none(*notebook, part->id, wish);
            });
        if (!said) return said.failure();
    }
    return evidence_report(*notebook, *part);
}

} // namespace

void add_evidence(Line& line) {
    add_verb(line, line.app, "evidence",
             "List or say what photos show of a part before its surface "
             "goes",
             declare_evidence, evidence_verb);
}

} // namespace fettle::cli
